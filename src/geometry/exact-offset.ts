import { arcRadius } from "./arc.ts";
import { intersectPieces, meetLines } from "./intersect.ts";
import { arc, line, type Path, type Segment } from "./path.ts";
import { partOf, piecesOf, tangentAt, type Piece } from "./segment.ts";
import type { Join } from "./clipper.ts";
import { SAME_POINT } from "./tolerance.ts";
import { add, angleBetween, distance, leftOf, scale, type Vec } from "./vec.ts";

/** Joints that turn by less than this, in radians, are smooth. */
const SMOOTH = 1e-7;

/**
 * A closed path of lines and arcs with its edge moved `d` mm to the right of its travel (outwards from one run counter-clockwise), by formula:
 * lines shift, arcs keep their centres and are dropped where `d` uses up their radius, corners that open are joined, corners that close are
 * cut where neighbours meet. Undefined where a cubic is among the segments, or where a segment does not survive between its neighbours.
 * Segments far apart that now meet are not looked at.
 */
export function moveEdgeExactly(path: Path, d: number, join: Join): Path | undefined {
  const pieces = piecesOf(path).filter(({ from, segment }) => distance(from, segment.to) > SAME_POINT);
  if (pieces.some(({ segment }) => segment.kind === "cubic")) return undefined;
  // What is left of each moved piece, and what joins it to the next.
  const left = pieces.flatMap((piece, index) => {
    const moved = movePiece(piece, d);
    return moved ? [{ piece, index, moved, start: 0, end: 1 }] : [];
  });
  if (left.length < 2) return undefined;
  const joins: Segment[][] = [];
  for (const [i, before] of left.entries()) {
    const after = left[(i + 1) % left.length]!;
    const joint =
      (before.index + 1) % pieces.length === after.index ? joinPieces(before, after, d, join) : cutPieces(before, after);
    if (!joint) return undefined;
    before.end = joint.end;
    after.start = joint.start;
    joins.push(joint.segments);
  }
  const segments: Segment[] = [];
  let start: Vec | undefined;
  for (const [i, { moved, start: t0, end: t1 }] of left.entries()) {
    if (!(t1 > t0)) return undefined;
    const part = partOf(moved, t0, t1);
    start ??= part.from;
    segments.push(part.segment, ...joins[i]!);
  }
  return start && { start, segments: closeOn(start, segments), closed: true };
}

/** The last segment made to end on the start itself, which rounding may have left a hair away. */
function closeOn(start: Vec, segments: Segment[]): Segment[] {
  const last = segments.at(-1)!;
  return [...segments.slice(0, -1), { ...last, to: start }];
}

/** The line or arc beside the piece; undefined where the radius is used up. */
function movePiece(piece: Piece, d: number): Piece | undefined {
  const { from, segment } = piece;
  const right = (t: number): Vec | undefined => {
    const way = tangentAt(piece, t);
    return way && scale(leftOf(way), -1);
  };
  const [a, b] = [right(0), right(1)];
  if (!a || !b) return undefined;
  const start = add(from, scale(a, d));
  const end = add(segment.to, scale(b, d));
  if (segment.kind !== "arc") return { from: start, segment: line(end) };
  const radius = arcRadius(from, segment) + (segment.ccw ? d : -d);
  return radius > SAME_POINT ? { from: start, segment: arc(end, segment.centre, segment.ccw) } : undefined;
}

interface Joint {
  /** Parameters at which the piece before ends and the piece after begins. */
  readonly end: number;
  readonly start: number;
  readonly segments: Segment[];
}

interface Moved {
  readonly piece: Piece;
  readonly moved: Piece;
}

/** Two pieces that met in a point before they were moved. */
function joinPieces(before: Moved, after: Moved, d: number, join: Join): Joint | undefined {
  const u = tangentAt(before.piece, 1);
  const v = tangentAt(after.piece, 0);
  if (!u || !v) return undefined;
  const turn = angleBetween(u, v);
  if (Math.abs(turn) < SMOOTH) return { end: 1, start: 0, segments: [] };
  if (turn * d < 0) return cutPieces(before, after);
  const a = before.moved.segment.to;
  const b = after.moved.from;
  if (join === "round") return { end: 1, start: 0, segments: [arc(b, after.piece.from, turn > 0)] };
  const tip = meetLines(a, u, b, v);
  return tip && { end: 1, start: 0, segments: [line(tip), line(b)] };
}

/** Two pieces cut off where they meet, the first at its last such point. */
function cutPieces(before: Moved, after: Moved): Joint | undefined {
  const last = intersectPieces(before.moved, after.moved).at(-1);
  return last && { end: last.s, start: last.t, segments: [] };
}
