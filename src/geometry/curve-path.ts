/**
 * A curve given by formulas, drawn as cubics. Each cubic leaves and arrives along the curve and passes the curve's middle
 * at t = 1/2, which fixes both handles: a T0 - b T1 = 8/3 (M - (P0 + P3)/2). Where it strays, the stretch is halved.
 */
import { cubicPoint, type CubicPoints } from "./bezier.ts";
import { cubic, line, type Path, type Segment } from "./path.ts";
import { add, cross, distance, dot, lerp, norm, scale, sub, type Vec } from "./vec.ts";

/** A curve without corners between the ends asked for: its point and its unit direction of travel (for rising t) at each t. */
export interface SmoothCurve {
  readonly at: (t: number) => Vec;
  readonly direction: (t: number) => Vec;
}

/** Where a cubic is held against the curve, first where it mostly strays most; at 0, 1/2 and 1 it lies on it. */
const LOOKS = [1 / 4, 3 / 4, 1 / 8, 7 / 8, 3 / 8, 5 / 8];
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
  if (distance(curve.at(from), curve.at(to)) < SHORTEST) return [line(curve.at(to))];
  const found: Segment[] = [];
  append(curve, placeOn(curve, from), placeOn(curve, to), tolerance, 0, found);
  return found;
}

/** The same as an open path. */
export const curvePath = (curve: SmoothCurve, from: number, to: number, tolerance: number): Path => ({
  start: curve.at(from),
  segments: curveSegments(curve, from, to, tolerance),
  closed: false,
});

/** A place on the curve, worked out once for all stretches that end there. */
interface Place {
  readonly t: number;
  readonly at: Vec;
  readonly direction: Vec;
}

const placeOn = (curve: SmoothCurve, t: number): Place => ({ t, at: curve.at(t), direction: curve.direction(t) });

function append(curve: SmoothCurve, from: Place, to: Place, tolerance: number, depth: number, found: Segment[]): void {
  if (distance(from.at, to.at) < SHORTEST || depth === DEEPEST) {
    found.push(line(to.at));
    return;
  }
  const middle = placeOn(curve, (from.t + to.t) / 2);
  const points = cubicThrough(from, middle.at, to);
  const bend = points ? bendOver(from, middle, to) : 0;
  if (points && LOOKS.every((t) => isNear(curve, points, from.t, to.t, t, SHARE * tolerance, bend))) {
    found.push(cubic(points[1], points[2], points[3]));
    return;
  }
  append(curve, from, middle, tolerance, depth + 1, found);
  append(curve, middle, to, tolerance, depth + 1, found);
}

/** Undefined where the handles would point the wrong way. A straight stretch has them at its thirds. */
function cubicThrough(from: Place, middle: Vec, to: Place): CubicPoints | undefined {
  const run = to.t < from.t ? -1 : 1;
  const [start, end] = [from.at, to.at];
  const [leaving, arriving] = [scale(from.direction, run), scale(to.direction, run)];
  const chord = distance(start, end);
  const bow = scale(sub(middle, lerp(start, end, 0.5)), 8 / 3);
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

/** The mean bend of the stretch's more bent half, 1/mm. */
function bendOver(from: Place, middle: Place, to: Place): number {
  const turn = Math.max(Math.abs(cross(from.direction, middle.direction)), Math.abs(cross(middle.direction, to.direction)));
  return (2 * turn) / distance(from.at, to.at);
}

/**
 * Whether the cubic's point at t lies within `most` mm of the curve: sliding along it to the foot of the perpendicular, any place so near will
 * do. Mostly its distance from the tangent tells already, as the curve leaves that by no more than its bend allows.
 */
function isNear(
  curve: SmoothCurve,
  points: CubicPoints,
  from: number,
  to: number,
  t: number,
  most: number,
  bend: number,
): boolean {
  const p = cubicPoint(points, t);
  const [low, high] = [Math.min(from, to), Math.max(from, to)];
  let u = from + (to - from) * t;
  let off = sub(p, curve.at(u));
  if (norm(off) <= most) return true;
  const direction = curve.direction(u);
  let away = dot(off, direction);
  const [aside, leaves] = [Math.abs(cross(off, direction)), away * away * bend];
  if (aside + leaves <= most) return true;
  if (aside - leaves > most) return false;
  // A first speed from the chord, then the secant's.
  let speed = distance(points[0], points[3]) / (high - low);
  for (let round = 0; round < 6 && Math.abs(away) > 1e-7; round += 1) {
    const next = Math.min(Math.max(u + away / speed, low), high);
    if (next === u) return false;
    off = sub(p, curve.at(next));
    if (norm(off) <= most) return true;
    const there = dot(off, curve.direction(next));
    if (there !== away) speed = (away - there) / (next - u);
    if (!(speed > 0)) return false;
    [u, away] = [next, there];
  }
  return false;
}
