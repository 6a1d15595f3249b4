import { arcRadius, arcSweep } from "./arc.ts";
import { cubicDerivative, cubicPoint, cubicPoints, splitCubic, type CubicPoints } from "./bezier.ts";
import type { Path } from "./path.ts";
import { piecesOf, type Piece } from "./segment.ts";
import { FLATTEN } from "./tolerance.ts";
import { add, distanceToSegment, scale, sub, turned, type Vec } from "./vec.ts";

/**
 * The path as points on it whose chords keep within `tolerance` mm of it. A closed path gives a ring (its start not repeated), an open
 * one both ends.
 */
export function flatten(path: Path, tolerance = FLATTEN): Vec[] {
  if (!(tolerance > 0)) throw new RangeError("flatten: the tolerance must be above 0");
  const points: Vec[] = [path.start];
  for (const piece of piecesOf(path)) appendFlat(piece, tolerance, points);
  if (path.closed && points.length > 1) points.pop();
  return points;
}

/** Adds the flattened piece to `points`, all but its start. */
export function appendFlat({ from, segment }: Piece, tolerance: number, points: Vec[]): void {
  switch (segment.kind) {
    case "line":
      break;
    case "arc": {
      const sweep = arcSweep(from, segment);
      // The chord of a step s misses the arc by r (1 - cos(s / 2)); steps over a third of a turn would no longer look round.
      const step = Math.min(2 * Math.acos(Math.max(0.5, 1 - tolerance / arcRadius(from, segment))), (2 * Math.PI) / 3);
      const count = Math.ceil(Math.abs(sweep) / step);
      const spoke = sub(from, segment.centre);
      for (let i = 1; i < count; i++) points.push(add(segment.centre, turned(spoke, (sweep * i) / count)));
      break;
    }
    case "cubic":
      appendCubic(cubicPoints(from, segment), tolerance, points, 0);
  }
  points.push(segment.to);
}

const DEEPEST = 24;
/** Most parts into which a cubic is cut at once; beyond, its halves differ enough to be cut each in its own way. */
const MOST_PARTS = 8;

/** Adds the inner points of the cubic. */
function appendCubic(p: CubicPoints, tolerance: number, points: Vec[], depth: number): void {
  const error = chordError(p);
  if (error <= tolerance || depth === DEEPEST) return;
  // The error falls with the square of the number of parts; whether it did is looked at in each.
  const count = Math.ceil(Math.sqrt(error / tolerance));
  if (count <= MOST_PARTS && cutEvenly(p, count, tolerance, points)) return;
  const [left, right] = splitCubic(p, 0.5);
  appendCubic(left, tolerance, points, depth + 1);
  points.push(right[0]);
  appendCubic(right, tolerance, points, depth + 1);
}

/** Adds the inner points of the cubic cut into `count` parts, if each keeps to its chord; otherwise none. */
function cutEvenly(p: CubicPoints, count: number, tolerance: number, points: Vec[]): boolean {
  const before = points.length;
  // A part's handles lie a third of its own share along the derivatives at its ends.
  const third = 1 / (3 * count);
  let [from, leaving] = [p[0], cubicDerivative(p, 0)];
  for (let i = 1; i <= count; i++) {
    const [to, arriving] = [i < count ? cubicPoint(p, i / count) : p[3], cubicDerivative(p, i / count)];
    if (chordError([from, add(from, scale(leaving, third)), sub(to, scale(arriving, third)), to]) > tolerance) {
      points.length = before;
      return false;
    }
    if (i < count) points.push(to);
    [from, leaving] = [to, arriving];
  }
  return true;
}

/**
 * A bound on the curve's distance from its chord: the distance to a straight piece is convex, so on the curve it is at most
 * 3 s^2 t d1 + 3 s t^2 d2, d1 and d2 being the handles' distances, which never exceeds 3/4 of the greater.
 */
function chordError([a, b, c, d]: CubicPoints): number {
  return 0.75 * Math.max(distanceToSegment(b, a, d), distanceToSegment(c, a, d));
}
