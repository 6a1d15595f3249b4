import { arcRadius, arcSweep } from "./arc.ts";
import {
  cubicDerivative,
  cubicExtremes,
  cubicLength,
  cubicPart,
  cubicPoint,
  cubicPoints,
  cubicSecondDerivative,
  cubicTangent,
} from "./bezier.ts";
import { boundsHold, boundsOfPoints, type Bounds } from "./bounds.ts";
import { arc, cubic, line, endOf, type Path, type Segment } from "./path.ts";
import { add, cross, distance, leftOf, lerp, norm, scale, sub, turned, vec, type Vec } from "./vec.ts";

/** A segment with the point it starts from. t runs over it from 0 to 1. */
export interface Piece {
  readonly from: Vec;
  readonly segment: Segment;
}

/** The path's segments with their starting points, in order. */
export function piecesOf(path: Path): Piece[] {
  let from = path.start;
  return path.segments.map((segment) => {
    const piece = { from, segment };
    from = segment.to;
    return piece;
  });
}

/** The point at t in [0, 1]; the ends come out exactly. */
export function pointAt({ from, segment }: Piece, t: number): Vec {
  if (t <= 0) return from;
  if (t >= 1) return segment.to;
  switch (segment.kind) {
    case "line":
      return lerp(from, segment.to, t);
    case "arc":
      return add(segment.centre, turned(sub(from, segment.centre), arcSweep(from, segment) * t));
    case "cubic":
      return cubicPoint(cubicPoints(from, segment), t);
  }
}

/** First derivative by t at t in [0, 1]; mm a unit of t. */
export function derivativeAt({ from, segment }: Piece, t: number): Vec {
  switch (segment.kind) {
    case "line":
      return sub(segment.to, from);
    case "arc": {
      const sweep = arcSweep(from, segment);
      return scale(leftOf(turned(sub(from, segment.centre), sweep * t)), sweep);
    }
    case "cubic":
      return cubicDerivative(cubicPoints(from, segment), t);
  }
}

/** Unit direction of travel at t in [0, 1]. Undefined only for a segment of no length. */
export function tangentAt(piece: Piece, t: number): Vec | undefined {
  const { from, segment } = piece;
  if (segment.kind === "cubic") return cubicTangent(cubicPoints(from, segment), t);
  const v = derivativeAt(piece, t);
  const n = norm(v);
  return n > 0 ? vec(v.x / n, v.y / n) : undefined;
}

/**
 * Curvature at t in [0, 1], 1/mm, positive where the path turns to the left (counter-clockwise). Infinite at a cusp; 0 on a line.
 */
export function curvatureAt({ from, segment }: Piece, t: number): number {
  switch (segment.kind) {
    case "line":
      return 0;
    case "arc":
      return (segment.ccw ? 1 : -1) / arcRadius(from, segment);
    case "cubic": {
      const p = cubicPoints(from, segment);
      const d = cubicDerivative(p, t);
      return cross(d, cubicSecondDerivative(p, t)) / norm(d) ** 3;
    }
  }
}

/** The part of the piece from t0 to t1, 0 <= t0 < t1 <= 1, of the same kind. */
export function partOf(piece: Piece, t0: number, t1: number): Piece {
  const { from, segment } = piece;
  const to = pointAt(piece, t1);
  switch (segment.kind) {
    case "line":
      return { from: pointAt(piece, t0), segment: line(to) };
    case "arc":
      return { from: pointAt(piece, t0), segment: arc(to, segment.centre, segment.ccw) };
    case "cubic": {
      const part = cubicPart(cubicPoints(from, segment), t0, t1);
      return { from: pointAt(piece, t0), segment: cubic(part[1], part[2], to) };
    }
  }
}

/** The piece cut in two at t, 0 < t < 1. */
export const splitAt = (piece: Piece, t: number): [Piece, Piece] => [partOf(piece, 0, t), partOf(piece, t, 1)];

/** The same piece run the other way. */
export function reversePiece({ from, segment }: Piece): Piece {
  switch (segment.kind) {
    case "line":
      return { from: segment.to, segment: line(from) };
    case "arc":
      return { from: segment.to, segment: arc(from, segment.centre, !segment.ccw) };
    case "cubic":
      return { from: segment.to, segment: cubic(segment.c2, segment.c1, from) };
  }
}

/** The same path run the other way. */
export const reversePath = (path: Path): Path => ({
  start: endOf(path),
  segments: piecesOf(path)
    .toReversed()
    .map((piece) => reversePiece(piece).segment),
  closed: path.closed,
});

/** Parameters strictly between 0 and 1, rising, at which the piece runs level or upright. */
export function extremesOf({ from, segment }: Piece): number[] {
  switch (segment.kind) {
    case "line":
      return [];
    case "arc": {
      const sweep = arcSweep(from, segment);
      if (sweep === 0) return [];
      const start = Math.atan2(from.y - segment.centre.y, from.x - segment.centre.x);
      const quarter = Math.PI / 2;
      const way = Math.sign(sweep);
      const found: number[] = [];
      let angle = (way > 0 ? Math.floor(start / quarter) + 1 : Math.ceil(start / quarter) - 1) * quarter;
      for (; Math.abs(angle - start) < Math.abs(sweep); angle += way * quarter) found.push((angle - start) / sweep);
      return found.filter((t) => t > 0 && t < 1);
    }
    case "cubic":
      return cubicExtremes(cubicPoints(from, segment));
  }
}

/** The least upright box round the piece, exact. */
export function pieceBounds(piece: Piece): Bounds {
  const { from, segment } = piece;
  const between = isBetween(segment, from) ? [] : extremesOf(piece);
  return boundsOfPoints([from, segment.to, ...between.map((t) => pointAt(piece, t))]);
}

/** A box that holds the piece, quicker to be had than the least one. */
export function hullOf(piece: Piece): Bounds {
  const { from, segment } = piece;
  if (segment.kind === "arc") return pieceBounds(piece);
  return boundsOfPoints(segment.kind === "line" ? [from, segment.to] : [from, segment.c1, segment.c2, segment.to]);
}

/** Whether a line or a cubic keeps to the box of its ends, since a cubic's handles do. */
function isBetween(segment: Segment, from: Vec): boolean {
  if (segment.kind !== "cubic") return segment.kind === "line";
  const box = boundsOfPoints([from, segment.to]);
  return boundsHold(box, segment.c1) && boundsHold(box, segment.c2);
}

/** A piece of a path and the least upright box round it. */
export interface BoxedPiece {
  readonly piece: Piece;
  readonly box: Bounds;
}

const boxed = new WeakMap<Path, readonly BoxedPiece[]>();

/** Of a path with fewer pieces they are worked out faster than found. */
const WORTH_KEEPING = 4;

/** The path's pieces with their boxes, kept for each path: paths never change, and one edge is often held against many others. */
export function boxedPiecesOf(path: Path): readonly BoxedPiece[] {
  const known = path.segments.length < WORTH_KEEPING ? undefined : boxed.get(path);
  if (known) return known;
  const pieces = piecesOf(path).map((piece) => ({ piece, box: pieceBounds(piece) }));
  if (path.segments.length >= WORTH_KEEPING) boxed.set(path, pieces);
  return pieces;
}

/** Length from t0 to t1, mm: closed form for lines and arcs, quadrature to 1e-9 for cubics. */
export function pieceLength({ from, segment }: Piece, t0 = 0, t1 = 1): number {
  switch (segment.kind) {
    case "line":
      return distance(from, segment.to) * (t1 - t0);
    case "arc":
      return arcRadius(from, segment) * Math.abs(arcSweep(from, segment)) * (t1 - t0);
    case "cubic":
      return cubicLength(cubicPoints(from, segment), t0, t1);
  }
}

/** The parts of a piece along which both x and y only rise or only fall; they never cross themselves. They join without a gap, from its very start to its very end. */
export function monotoneParts(piece: Piece): Piece[] {
  const cuts = [0];
  for (const t of extremesOf(piece)) if (t - cuts.at(-1)! > 1e-12 && 1 - t > 1e-12) cuts.push(t);
  return cuts.map((t0, i) => partOf(piece, t0, cuts[i + 1] ?? 1));
}
