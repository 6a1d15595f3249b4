/** A closed outline about the centre line, cut at its tail and at its neck end. */
import { intersectPaths, type Crossing } from "../../geometry/intersect.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { segmentPath, type Path, type Segment } from "../../geometry/path.ts";
import { partOf, piecesOf, reversePath } from "../../geometry/segment.ts";
import { mirroring, transformPath } from "../../geometry/transform.ts";
import { ORIGIN, vec } from "../../geometry/vec.ts";

export interface Halves {
  /** From the tail to the neck; the one of falling y is mirrored, so that both lie on the side of rising y. */
  readonly up: Path;
  readonly down: Path;
}

/** The halves of an outline run counter-clockwise; undefined where it does not cross the centre line. */
export function halvesOf(outline: Path): Halves | undefined {
  const box = pathBounds(outline);
  const crossings = intersectPaths(outline, segmentPath(vec(box.minX - 1, 0), vec(box.maxX + 1, 0)));
  const [first, last] = [
    crossings.toSorted((a, b) => a.point.x - b.point.x)[0],
    crossings.toSorted((a, b) => b.point.x - a.point.x)[0],
  ];
  if (!first || !last || !(last.point.x - first.point.x > 1)) return undefined;
  const mirrored = transformPath(mirroring(ORIGIN, vec(1, 0)), reversePath(between(outline, first, last)));
  return { up: between(outline, last, first), down: mirrored };
}

/** Shares of a segment nearer to its end than this are its end. */
const AT_END = 1e-9;

/** The open stretch of a closed path from one place on it to another, in its own direction. */
function between(path: Path, from: Crossing, to: Crossing): Path {
  const pieces = piecesOf(path);
  const n = pieces.length;
  const segments: Segment[] = [];
  const take = (index: number, t0: number, t1: number): void => {
    const piece = pieces[index]!;
    if (t1 - t0 <= AT_END) return;
    segments.push(t0 <= AT_END && t1 >= 1 - AT_END ? piece.segment : partOf(piece, Math.max(0, t0), Math.min(1, t1)).segment);
  };
  if (from.first === to.first && from.s < to.s) take(from.first, from.s, to.s);
  else {
    take(from.first, from.s, 1);
    for (let i = (from.first + 1) % n; i !== to.first; i = (i + 1) % n) take(i, 0, 1);
    take(to.first, 0, to.s);
  }
  return { start: vec(from.point.x, 0), segments: onCentre(segments), closed: false };
}

/** The last end laid on the centre line, which it misses by rounding. */
const onCentre = (segments: readonly Segment[]): Segment[] =>
  segments.map((segment, i) => (i === segments.length - 1 ? { ...segment, to: vec(segment.to.x, 0) } : segment));
