/** A curve given by formulas, drawn as cubics. */
import { cubicOf } from "../geometry/bezier.ts";
import { fitCubic } from "../geometry/fit-cubic.ts";
import { line, type Path, type Segment } from "../geometry/path.ts";
import { distance, type Vec } from "../geometry/vec.ts";

/** A curve without corners between the ends asked for: its point and its unit direction of travel at each t. */
export interface SmoothCurve {
  readonly at: (t: number) => Vec;
  readonly direction: (t: number) => Vec;
}

const SAMPLES = 48;
/** Half of a micrometre: what is shorter is drawn straight. */
const SHORTEST = 5e-4;
const DEEPEST = 24;

/** Cubics along the curve from `from` to `to` (rising or falling), joined in one direction, within `tolerance` mm (above 0) of it. */
export function curveSegments(curve: SmoothCurve, from: number, to: number, tolerance: number): Segment[] {
  if (!(tolerance > 0) || !Number.isFinite(from) || !Number.isFinite(to))
    throw new RangeError("curveSegments: needs ends and a tolerance above 0");
  return segments(curve, from, to, tolerance, 0);
}

/** The same as an open path. */
export const curvePath = (curve: SmoothCurve, from: number, to: number, tolerance: number): Path => ({
  start: curve.at(from),
  segments: curveSegments(curve, from, to, tolerance),
  closed: false,
});

function segments(curve: SmoothCurve, from: number, to: number, tolerance: number, depth: number): Segment[] {
  const points = Array.from({ length: SAMPLES + 1 }, (_, i) => curve.at(from + ((to - from) * i) / SAMPLES));
  const end = points[SAMPLES]!;
  if (distance(points[0]!, end) < SHORTEST || depth === DEEPEST) return [line(end)];
  const fitted = fitCubic(points, curve.direction(from), curve.direction(to), tolerance);
  if (fitted) return [cubicOf(fitted)];
  const middle = (from + to) / 2;
  return [...segments(curve, from, middle, tolerance, depth + 1), ...segments(curve, middle, to, tolerance, depth + 1)];
}
