import { alongPiece, type AlongPiece } from "./along-piece.ts";
import { arcRadius, arcSweep } from "./arc.ts";
import { cubicPoint, cubicDerivative, cubicSweptArea, type CubicPoints } from "./bezier.ts";
import { joinBounds, type Bounds } from "./bounds.ts";
import type { Path } from "./path.ts";
import { integrate } from "./quadrature.ts";
import { boxedPiecesOf, partOf, pieceLength, piecesOf, pointAt, tangentAt, type Piece } from "./segment.ts";
import { ORIGIN, add, cross, scale, sub, turned, vec, type Vec } from "./vec.ts";

/** The least upright box round the path, exact for arcs and cubics. */
export const pathBounds = (path: Path): Bounds => joinBounds(boxedPiecesOf(path).map(({ box }) => box));

/** The least upright box round all the paths. Throws on an empty list. */
export const pathsBounds = (paths: readonly Path[]): Bounds => joinBounds(paths.map(pathBounds));

const lengths = new WeakMap<Path, readonly number[]>();

/** The length of each of the path's pieces, mm, kept for each path. */
export function pieceLengthsOf(path: Path): readonly number[] {
  const known = lengths.get(path);
  if (known) return known;
  const found = piecesOf(path).map((piece) => pieceLength(piece));
  lengths.set(path, found);
  return found;
}

/** Length of the path, mm; exact for lines and arcs, to 1e-9 a cubic, to 1e-6 one that turns back on itself. */
export const pathLength = (path: Path): number => pieceLengthsOf(path).reduce((sum, length) => sum + length, 0);

/**
 * Signed area inside a closed path, mm2, counter-clockwise positive; exact (Green's theorem: the integral of (x dy - y dx) / 2). Where the
 * path crosses itself, areas count as often as they are run round. Throws on an open path.
 */
export function pathArea(path: Path): number {
  requireClosed(path, "pathArea");
  return piecesOf(path).reduce((sum, piece) => sum + sweptArea(piece, path.start), 0);
}

/** Area swept by the ray from `o` along the piece. */
function sweptArea({ from, segment }: Piece, o: Vec): number {
  const a = sub(from, o);
  const b = sub(segment.to, o);
  switch (segment.kind) {
    case "line":
      return cross(a, b) / 2;
    case "arc": {
      const sweep = arcSweep(from, segment);
      return cross(a, b) / 2 + (arcRadius(from, segment) ** 2 * (sweep - Math.sin(sweep))) / 2;
    }
    case "cubic":
      return cubicSweptArea([a, sub(segment.c1, o), sub(segment.c2, o), b]);
  }
}

/** The centre of gravity of the area inside a closed path that does not cross itself. Throws where the path is open or holds no area. */
export function pathCentroid(path: Path): Vec {
  const area = pathArea(path);
  if (!(Math.abs(area) > 0)) throw new RangeError("pathCentroid: the path holds no area");
  const moment = piecesOf(path).reduce((sum, piece) => add(sum, sweptMoment(piece, path.start)), ORIGIN);
  return add(path.start, scale(moment, 1 / area));
}

/** First moments of the area swept by the ray from `o` along the piece. */
function sweptMoment({ from, segment }: Piece, o: Vec): Vec {
  const a = sub(from, o);
  const b = sub(segment.to, o);
  const triangle = scale(add(a, b), cross(a, b) / 6);
  switch (segment.kind) {
    case "line":
      return triangle;
    case "arc": {
      // A circular segment of radius r and angle s: its centroid lies 4 r sin^3(s/2) / (3 (s - sin s)) from the centre.
      const radius = arcRadius(from, segment);
      const sweep = arcSweep(from, segment);
      const bow = (radius ** 2 * (sweep - Math.sin(sweep))) / 2;
      const towards = turned(sub(from, segment.centre), sweep / 2);
      const lever = (2 / 3) * radius ** 2 * Math.sin(sweep / 2) ** 3;
      return add(triangle, add(scale(sub(segment.centre, o), bow), scale(towards, lever)));
    }
    case "cubic": {
      const p: CubicPoints = [a, sub(segment.c1, o), sub(segment.c2, o), b];
      const part = (t: number): Vec => {
        const q = cubicPoint(p, t);
        return scale(q, cross(q, cubicDerivative(p, t)) / 3);
      };
      // Degree 8, for which the rule is exact.
      return vec(
        integrate((t) => part(t).x, 0, 1),
        integrate((t) => part(t).y, 0, 1),
      );
    }
  }
}

/** A place on a path: the point, the unit direction of travel there, the segment's index and the parameter on it. */
export interface Station {
  readonly point: Vec;
  readonly tangent: Vec;
  readonly index: number;
  readonly t: number;
}

/**
 * The place `length` mm along the path from its start, measured on the curve to 1e-9. Undefined outside [0, the path's length]; segments
 * of no length are passed over.
 */
export function stationAt(path: Path, length: number): Station | undefined {
  if (!(length >= 0)) return undefined;
  let left = length;
  let from = path.start;
  const sizes = pieceLengthsOf(path);
  for (const [index, segment] of path.segments.entries()) {
    const size = sizes[index]!;
    // Rounding of the sum must not push the path's own length off its end.
    const last = index === path.segments.length - 1 && left <= size + 1e-9;
    if (left <= size || last) {
      const piece = { from, segment };
      const t = left < size ? alongOf(path, index, piece).at(left) : 1;
      const tangent = tangentAt(piece, t);
      if (tangent) return { point: pointAt(piece, t), tangent, index, t };
    }
    left -= size;
    from = segment.to;
  }
  return undefined;
}

/** By path, those of its pieces on which places have been asked for. */
const walked = new WeakMap<Path, Map<number, AlongPiece>>();

function alongOf(path: Path, index: number, piece: Piece): AlongPiece {
  const known = walked.get(path) ?? new Map<number, AlongPiece>();
  const along = known.get(index) ?? alongPiece(piece);
  walked.set(path, known.set(index, along));
  return along;
}

/** The part of an open or closed path between two lengths along it, 0 <= from < to <= the path's length; an open path. */
export function pathBetween(path: Path, from: number, to: number): Path | undefined {
  const a = stationAt(path, from);
  const b = stationAt(path, to);
  if (!a || !b || !(from < to)) return undefined;
  const pieces = piecesOf(path).slice(a.index, b.index + 1);
  const cut = pieces.flatMap((piece, i) => {
    const t0 = i === 0 ? a.t : 0;
    const t1 = i === pieces.length - 1 ? b.t : 1;
    return t1 > t0 ? [partOf(piece, t0, t1)] : [];
  });
  return { start: a.point, segments: cut.map((piece) => piece.segment), closed: false };
}

function requireClosed(path: Path, who: string): void {
  if (!path.closed) throw new RangeError(`${who}: the path is open`);
}
