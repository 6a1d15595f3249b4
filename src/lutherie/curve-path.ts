/**
 * A curve given by formulas, drawn as cubics. Each cubic leaves and arrives along the curve and passes the curve's middle
 * at t = 1/2, which fixes both handles: a T0 - b T1 = 8/3 (M - (P0 + P3)/2). Where it strays, the stretch is halved.
 */
import { cubicPoint, type CubicPoints } from "../geometry/bezier.ts";
import { cubic, line, type Path, type Segment } from "../geometry/path.ts";
import { add, cross, distance, dot, lerp, scale, sub, type Vec } from "../geometry/vec.ts";

/** A curve without corners between the ends asked for: its point and its unit direction of travel (for rising t) at each t. */
export interface SmoothCurve {
  readonly at: (t: number) => Vec;
  readonly direction: (t: number) => Vec;
}

/** Where a cubic is held against the curve; at 0, 1/2 and 1 it lies on it. */
const LOOKS = [1 / 8, 1 / 4, 3 / 8, 5 / 8, 3 / 4, 7 / 8];
/** Share of the tolerance allowed at those places, as between them a cubic may stray a little more. */
const SHARE = 0.8;
/** A stretch this short, mm, is drawn straight. */
const SHORTEST = 5e-4;
const DEEPEST = 24;

/** Cubics along the curve from `from` to `to` (rising or falling), joined in one direction, within `tolerance` mm (above 0) of it. */
export function curveSegments(curve: SmoothCurve, from: number, to: number, tolerance: number): Segment[] {
  if (!(tolerance > 0) || !Number.isFinite(from) || !Number.isFinite(to)) {
    throw new RangeError("curveSegments: needs ends and a tolerance above 0");
  }
  return segments(curve, from, to, tolerance, 0);
}

/** The same as an open path. */
export const curvePath = (curve: SmoothCurve, from: number, to: number, tolerance: number): Path => ({
  start: curve.at(from),
  segments: curveSegments(curve, from, to, tolerance),
  closed: false,
});

function segments(curve: SmoothCurve, from: number, to: number, tolerance: number, depth: number): Segment[] {
  const start = curve.at(from);
  const end = curve.at(to);
  if (distance(start, end) < SHORTEST || depth === DEEPEST) return [line(end)];
  const middle = (from + to) / 2;
  const points = cubicThrough(curve, from, middle, to);
  if (points && LOOKS.every((t) => strayAt(curve, points, from, to, t) <= SHARE * tolerance))
    return [cubic(points[1], points[2], points[3])];
  return [...segments(curve, from, middle, tolerance, depth + 1), ...segments(curve, middle, to, tolerance, depth + 1)];
}

/** Undefined where the handles would point the wrong way. A straight stretch has them at its thirds. */
function cubicThrough(curve: SmoothCurve, from: number, middle: number, to: number): CubicPoints | undefined {
  const run = to < from ? -1 : 1;
  const [start, end] = [curve.at(from), curve.at(to)];
  const [leaving, arriving] = [scale(curve.direction(from), run), scale(curve.direction(to), run)];
  const chord = distance(start, end);
  const bow = scale(sub(curve.at(middle), lerp(start, end, 0.5)), 8 / 3);
  const turn = cross(leaving, arriving);
  if (Math.abs(turn) < 1e-9) {
    return dot(leaving, arriving) > 0
      ? [start, add(start, scale(leaving, chord / 3)), sub(end, scale(arriving, chord / 3)), end]
      : undefined;
  }
  const a = cross(bow, arriving) / turn;
  const b = cross(bow, leaving) / turn;
  if (!(a > 0 && b > 0 && a < 3 * chord && b < 3 * chord)) return undefined;
  return [start, add(start, scale(leaving, a)), sub(end, scale(arriving, b)), end];
}

/** Distance from the cubic's point at t to the curve, by sliding along it to the foot of the perpendicular. */
function strayAt(curve: SmoothCurve, points: CubicPoints, from: number, to: number, t: number): number {
  const p = cubicPoint(points, t);
  const [low, high] = [Math.min(from, to), Math.max(from, to)];
  const ahead = (u: number): number => dot(sub(p, curve.at(u)), curve.direction(u));
  let u = from + (to - from) * t;
  let away = ahead(u);
  // A first speed from the chord, then the secant's.
  let speed = distance(points[0], points[3]) / (high - low);
  for (let round = 0; round < 6 && Math.abs(away) > 1e-7; round += 1) {
    const next = Math.min(Math.max(u + away / speed, low), high);
    if (next === u) break;
    const there = ahead(next);
    if (there !== away) speed = (away - there) / (next - u);
    if (!(speed > 0)) break;
    [u, away] = [next, there];
  }
  return distance(p, curve.at(u));
}
