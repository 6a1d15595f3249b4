/**
 * A side laid flat: how far along it each point of the outline lies, and how high both edges stand there.
 *
 * On a face moved in by `inset` (half the thickness for the middle of the wood) the length is shorter by inset times the
 * angle turned: ds' = (1 - inset curvature) ds. Over half an outline, which turns 180 degrees, faces t/2 apart differ by
 * pi t / 2. Source: parallel curves, any text on plane curves.
 */
import { alongPiece } from "../geometry/along-piece.ts";
import { pieceLengthsOf } from "../geometry/measure.ts";
import type { Path, Segment } from "../geometry/path.ts";
import { pieceLength, piecesOf, pointAt, tangentAt, curvatureAt, type Piece } from "../geometry/segment.ts";
import { add, angleBetween, leftOf, scale, sub, unit, vec, type Vec } from "../geometry/vec.ts";
import { curveSegments } from "../geometry/curve-path.ts";

/** Height of an edge over the plane that depths are counted from, by the place on the outline, mm. */
export type EdgeHeight = (at: Vec) => number;

/** The side in the plane: x along it from where the outline starts, y the height. */
export interface UnrolledSide {
  readonly length: number;
  /** Length from the start to the end of each segment of the outline, mm. */
  readonly joints: readonly number[];
  readonly top: Path;
  readonly back: Path;
}

/** What it takes to unroll a side. */
export interface SideToUnroll {
  /** The outline of the outer face, run so that the instrument lies to its left, without corners. */
  readonly outline: Path;
  /** How far inside the outer face the length and the heights are taken, mm, 0 or above. */
  readonly inset: number;
  readonly top: EdgeHeight;
  readonly back: EdgeHeight;
}

/** Turn of direction (radians) between two segments that still counts as none. */
const NO_CORNER = 1e-4;
/** To either side of a place, mm, the height is looked at for its slope. */
const STEP = 1e-3;

/**
 * The unrolled side with both edges within `tolerance` mm (0.005 unless given). RangeError for a corner (a pointed cutaway is
 * two sides), for an inset that the inside of a curve has no room for, and where an edge's height has none.
 */
export function unrollSide({ outline, inset, top, back }: SideToUnroll, tolerance = 5e-3): UnrolledSide {
  if (!(inset >= 0)) throw new RangeError("unrollSide: the inset must not be below 0");
  const wholes = pieceLengthsOf(outline);
  const pieces = piecesOf(outline).filter((_, i) => wholes[i]! > 0);
  const joints: number[] = [];
  const edges: [Segment[], Segment[]] = [[], []];
  let from = 0;
  let last: Vec | undefined;
  for (const piece of pieces) {
    const leaving = tangentAt(piece, 0)!;
    if (last && Math.abs(angleBetween(last, leaving)) > NO_CORNER)
      throw new RangeError("unrollSide: a side cannot be bent round a corner");
    last = tangentAt(piece, 1)!;
    const start = from;
    const { lengthTo } = alongPiece(piece);
    const along = (t: number): number => start + lengthTo(t) - inset * angleBetween(leaving, tangentAt(piece, t)!);
    [top, back].forEach((height, i) => edges[i]!.push(...edgeSegments(piece, inset, along, height, tolerance)));
    from = along(1);
    joints.push(from);
  }
  const first = pieces[0];
  if (!first) throw new RangeError("unrollSide: the outline has no length");
  const edge = (height: EdgeHeight, segments: readonly Segment[]): Path => ({
    start: vec(0, height(insetPoint(first, inset, 0))),
    segments,
    closed: false,
  });
  return { length: from, joints, top: edge(top, edges[0]), back: edge(back, edges[1]) };
}

/**
 * How far along a face `inset` mm inside the outline a place on it lies, mm from where the outline starts: the segment's index and the
 * share t of it. The outline must have no corners before that place.
 */
export function lengthAlong(outline: Path, inset: number, index: number, t: number): number {
  const wholes = pieceLengthsOf(outline);
  return piecesOf(outline)
    .slice(0, index + 1)
    .reduce((sum, piece, i) => {
      const to = i === index ? t : 1;
      const [leaving, arriving] = [tangentAt(piece, 0), tangentAt(piece, to)];
      const length = to === 1 ? wholes[i]! : pieceLength(piece, 0, to);
      return leaving && arriving ? sum + length - inset * angleBetween(leaving, arriving) : sum;
    }, 0);
}

/** The outline cut at its corners: the runs that one side each can be bent to, in order. */
export function smoothRuns(outline: Path): Path[] {
  const runs: { start: Vec; segments: Segment[] }[] = [];
  let last: Vec | undefined;
  const wholes = pieceLengthsOf(outline);
  for (const piece of piecesOf(outline).filter((_, i) => wholes[i]! > 0)) {
    const run = runs.at(-1);
    if (run && last && Math.abs(angleBetween(last, tangentAt(piece, 0)!)) <= NO_CORNER) run.segments.push(piece.segment);
    else runs.push({ start: piece.from, segments: [piece.segment] });
    last = tangentAt(piece, 1)!;
  }
  return runs.map(({ start, segments }) => ({ start, segments, closed: false }));
}

function edgeSegments(
  piece: Piece,
  inset: number,
  along: (t: number) => number,
  height: EdgeHeight,
  tolerance: number,
): Segment[] {
  const place = (t: number): Vec => insetPoint(piece, inset, t);
  // The face runs as the outline does, so the height rises along it as it does along the outline's direction.
  const direction = (t: number): Vec => {
    if (inset > 0 && !(inset * curvatureAt(piece, t) < 1))
      throw new RangeError("unrollSide: the curve is too tight for the inset");
    const [at, step] = [place(t), scale(tangentAt(piece, t)!, STEP)];
    return unit(vec(2 * STEP, height(add(at, step)) - height(sub(at, step))));
  };
  return curveSegments({ at: (t) => vec(along(t), height(place(t))), direction }, 0, 1, tolerance);
}

const insetPoint = (piece: Piece, inset: number, t: number): Vec =>
  add(pointAt(piece, t), scale(leftOf(tangentAt(piece, t)!), inset));
