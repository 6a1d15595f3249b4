import { boundsMeet, boundsOfPoints, type Bounds } from "./bounds.ts";
import { cubicPoints, cubicDerivative, cubicPoint, splitCubic, type CubicPoints } from "./bezier.ts";
import type { Piece } from "./segment.ts";
import { CROSSING } from "./tolerance.ts";
import { cross, distance, distanceToSegment, sub, type Vec } from "./vec.ts";

interface Span {
  readonly points: CubicPoints;
  readonly from: number;
  readonly to: number;
  readonly box: Bounds;
}

/** So flat that Newton's method on the two parameters converges from the chords' crossing. */
const FLAT = 1e-4;
/** Pairs looked at before the search ends: only curves that run on each other come to so many. */
const MOST_PAIRS = 4000;

/** Common points of two cubics: boxes of their handles are halved until flat, then the crossing is settled by Newton's method. */
export function crossCurves(a: Piece, b: Piece): { point: Vec; s: number; t: number }[] {
  if (a.segment.kind !== "cubic" || b.segment.kind !== "cubic") throw new RangeError("crossCurves: both pieces must be cubics");
  const p = cubicPoints(a.from, a.segment);
  const q = cubicPoints(b.from, b.segment);
  const found: { point: Vec; s: number; t: number }[] = [];
  const stack: [Span, Span][] = [[spanOf(p, 0, 1), spanOf(q, 0, 1)]];
  for (let pairs = 0; stack.length > 0 && pairs < MOST_PAIRS; pairs++) {
    const [first, second] = stack.pop()!;
    if (!boundsMeet(first.box, second.box, CROSSING)) continue;
    const s = (first.from + first.to) / 2;
    const t = (second.from + second.to) / 2;
    if (isPoint(first.box) && isPoint(second.box)) {
      found.push({ point: cubicPoint(p, s), s, t });
      continue;
    }
    const settled = isFlat(first.points) && isFlat(second.points) ? settle(p, q, s, t) : undefined;
    // One that lies well outside this pair of spans is found, and weeded out as a double, from where it belongs.
    if (settled && Math.abs(settled.s - s) <= first.to - first.from && Math.abs(settled.t - t) <= second.to - second.from)
      found.push(settled);
    else for (const x of halves(first)) for (const y of halves(second)) stack.push([x, y]);
  }
  return found;
}

const isPoint = (box: Bounds): boolean => box.maxX - box.minX <= CROSSING && box.maxY - box.minY <= CROSSING;

const spanOf = (points: CubicPoints, from: number, to: number): Span => ({ points, from, to, box: boundsOfPoints(points) });

function halves({ points, from, to }: Span): Span[] {
  const [left, right] = splitCubic(points, 0.5);
  const middle = (from + to) / 2;
  return [spanOf(left, from, middle), spanOf(right, middle, to)];
}

const isFlat = ([a, b, c, d]: CubicPoints): boolean => distanceToSegment(b, a, d) <= FLAT && distanceToSegment(c, a, d) <= FLAT;

/** Newton's method on p(s) = q(t); undefined where it does not come to a common point. */
function settle(p: CubicPoints, q: CubicPoints, s0: number, t0: number): { point: Vec; s: number; t: number } | undefined {
  let s = s0;
  let t = t0;
  for (let round = 0; round < 12; round++) {
    const gap = sub(cubicPoint(q, t), cubicPoint(p, s));
    const u = cubicDerivative(p, s);
    const v = cubicDerivative(q, t);
    const sine = cross(u, v);
    if (sine === 0) break;
    s = Math.min(1, Math.max(0, s + cross(gap, v) / sine));
    t = Math.min(1, Math.max(0, t + cross(gap, u) / sine));
  }
  const point = cubicPoint(p, s);
  return distance(point, cubicPoint(q, t)) <= CROSSING ? { point, s, t } : undefined;
}
