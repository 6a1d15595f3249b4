import { boundsMeet, boundsOfPoints } from "./bounds.ts";
import { intersectPieces } from "./intersect.ts";
import type { Path } from "./path.ts";
import { monotoneParts, piecesOf, type Piece } from "./segment.ts";
import { SAME_POINT } from "./tolerance.ts";
import { distance, type Vec } from "./vec.ts";

/**
 * The points at which the path crosses, touches or runs back on itself, joints of neighbours apart. Empty for a simple path. Cubics are
 * cut into parts that cannot cross themselves; the boxes are swept by x, so long paths cost little more than they are long.
 */
export function selfCrossings(path: Path): Vec[] {
  const parts = piecesOf(path)
    .flatMap(monotoneParts)
    .filter((piece) => distance(piece.from, piece.segment.to) > 0)
    .map((piece, index) => ({ piece, index, box: boundsOfPoints([piece.from, piece.segment.to]) }));
  const last = parts.length - 1;
  const found: Vec[] = [];
  let open: typeof parts = [];
  for (const part of parts.toSorted((a, b) => a.box.minX - b.box.minX)) {
    open = open.filter((other) => other.box.maxX >= part.box.minX - SAME_POINT);
    for (const other of open) {
      if (!boundsMeet(part.box, other.box, SAME_POINT)) continue;
      const [a, b] = part.index < other.index ? [part, other] : [other, part];
      if (b.index === a.index + 1 && runsOn(a.piece, b.piece)) continue;
      const joints: Vec[] = [];
      if (b.index === a.index + 1) joints.push(a.piece.segment.to);
      if (path.closed && a.index === 0 && b.index === last) joints.push(a.piece.from);
      for (const { point } of intersectPieces(a.piece, b.piece)) {
        if (joints.some((joint) => distance(joint, point) <= SAME_POINT)) continue;
        if (!found.some((known) => distance(known, point) <= SAME_POINT)) found.push(point);
      }
    }
    open.push(part);
  }
  return found;
}

/** Whether two parts that follow each other both go on in x, or both in y: then they share no more than their joint. */
function runsOn(a: Piece, b: Piece): boolean {
  const [from, joint, to] = [a.from, a.segment.to, b.segment.to];
  return (joint.x - from.x) * (to.x - joint.x) > 0 || (joint.y - from.y) * (to.y - joint.y) > 0;
}
