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
 * lines shift, arcs keep their centres, corners that open are joined, corners that close are cut where neighbours meet. Undefined where a
 * cubic is among the segments, or where a segment does not survive between its own neighbours. Segments far apart that now meet are not
 * looked at.
 */
export function moveEdgeExactly(path: Path, d: number, join: Join): Path | undefined {
  const pieces = piecesOf(path).filter(({ from, segment }) => distance(from, segment.to) > SAME_POINT);
  const n = pieces.length;
  const moved: Piece[] = [];
  for (const piece of pieces) {
    const next = movePiece(piece, d);
    if (!next) return undefined;
    moved.push(next);
  }
  if (n < 2) return undefined;
  // What is left of each moved piece, and what joins it to the next.
  const spans = moved.map(() => ({ start: 0, end: 1 }));
  const joins: Segment[][] = [];
  for (let i = 0; i < n; i++) {
    const k = (i + 1) % n;
    const joint = joinPieces(pieces[i]!, pieces[k]!, moved[i]!, moved[k]!, d, join);
    if (!joint) return undefined;
    spans[i]!.end = joint.end;
    spans[k]!.start = joint.start;
    joins.push(joint.segments);
  }
  const segments: Segment[] = [];
  let start: Vec | undefined;
  for (let i = 0; i < n; i++) {
    const span = spans[i]!;
    if (!(span.end > span.start)) return undefined;
    const part = partOf(moved[i]!, span.start, span.end);
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

function movePiece(piece: Piece, d: number): Piece | undefined {
  const { from, segment } = piece;
  const right = (t: number): Vec | undefined => {
    const way = tangentAt(piece, t);
    return way && scale(leftOf(way), -1);
  };
  const [a, b] = [right(0), right(1)];
  if (!a || !b || segment.kind === "cubic") return undefined;
  const start = add(from, scale(a, d));
  const end = add(segment.to, scale(b, d));
  if (segment.kind === "line") return { from: start, segment: line(end) };
  const radius = arcRadius(from, segment) + (segment.ccw ? d : -d);
  return radius > SAME_POINT ? { from: start, segment: arc(end, segment.centre, segment.ccw) } : undefined;
}

interface Joint {
  /** Parameters at which the piece before ends and the piece after begins. */
  readonly end: number;
  readonly start: number;
  readonly segments: Segment[];
}

function joinPieces(
  before: Piece,
  after: Piece,
  movedBefore: Piece,
  movedAfter: Piece,
  d: number,
  join: Join,
): Joint | undefined {
  const u = tangentAt(before, 1);
  const v = tangentAt(after, 0);
  if (!u || !v) return undefined;
  const turn = angleBetween(u, v);
  const a = movedBefore.segment.to;
  const b = movedAfter.from;
  if (Math.abs(turn) < SMOOTH) return { end: 1, start: 0, segments: [] };
  if (turn * d > 0) {
    const corner = before.segment.to;
    if (join === "round") return { end: 1, start: 0, segments: [arc(b, corner, turn > 0)] };
    const tip = meetLines(a, u, b, v);
    return tip && { end: 1, start: 0, segments: [line(tip), line(b)] };
  }
  const meetings = intersectPieces(movedBefore, movedAfter);
  const last = meetings.at(-1);
  return last && { end: last.s, start: last.t, segments: [] };
}
