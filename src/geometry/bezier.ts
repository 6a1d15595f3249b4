import { bernsteinRoots } from "./bernstein.ts";
import { cubic, type Cubic } from "./path.ts";
import { integrate } from "./quadrature.ts";
import { cross, distance, lerp, norm, sub, vec, type Vec } from "./vec.ts";

/** The four points of a cubic: start, two handles, end; mm. */
export type CubicPoints = readonly [Vec, Vec, Vec, Vec];

export const cubicPoints = (from: Vec, c: Cubic): CubicPoints => [from, c.c1, c.c2, c.to];
export const cubicOf = (p: CubicPoints): Cubic => cubic(p[1], p[2], p[3]);

/** The point at t in [0, 1]. */
export function cubicPoint([a, b, c, d]: CubicPoints, t: number): Vec {
  const s = 1 - t;
  const wa = s * s * s;
  const wb = 3 * s * s * t;
  const wc = 3 * s * t * t;
  const wd = t * t * t;
  return vec(wa * a.x + wb * b.x + wc * c.x + wd * d.x, wa * a.y + wb * b.y + wc * c.y + wd * d.y);
}

/** First derivative by t, mm a unit of t. */
export function cubicDerivative([a, b, c, d]: CubicPoints, t: number): Vec {
  const s = 1 - t;
  const wa = 3 * s * s;
  const wb = 6 * s * t;
  const wc = 3 * t * t;
  return vec(wa * (b.x - a.x) + wb * (c.x - b.x) + wc * (d.x - c.x), wa * (b.y - a.y) + wb * (c.y - b.y) + wc * (d.y - c.y));
}

/** Size of the first derivative as a function of t alone, for many questions. */
export function speedAlong([a, b, c, d]: CubicPoints): (t: number) => number {
  const [ux, vx, wx] = [b.x - a.x, c.x - b.x, d.x - c.x];
  const [uy, vy, wy] = [b.y - a.y, c.y - b.y, d.y - c.y];
  return (t) => {
    const s = 1 - t;
    const x = s * s * ux + 2 * s * t * vx + t * t * wx;
    const y = s * s * uy + 2 * s * t * vy + t * t * wy;
    return 3 * Math.sqrt(x * x + y * y);
  };
}

/** Second derivative by t. */
export function cubicSecondDerivative([a, b, c, d]: CubicPoints, t: number): Vec {
  const s = 6 * (1 - t);
  const e = 6 * t;
  return vec(s * (c.x - 2 * b.x + a.x) + e * (d.x - 2 * c.x + b.x), s * (c.y - 2 * b.y + a.y) + e * (d.y - 2 * c.y + b.y));
}

/** Both parts of the cubic cut at t, by de Casteljau's construction. */
export function splitCubic([a, b, c, d]: CubicPoints, t: number): [CubicPoints, CubicPoints] {
  const ab = lerp(a, b, t);
  const bc = lerp(b, c, t);
  const cd = lerp(c, d, t);
  const abc = lerp(ab, bc, t);
  const bcd = lerp(bc, cd, t);
  const middle = lerp(abc, bcd, t);
  return [
    [a, ab, abc, middle],
    [middle, bcd, cd, d],
  ];
}

/** The part of the cubic from t0 to t1, 0 <= t0 <= t1 <= 1. */
export function cubicPart(p: CubicPoints, t0: number, t1: number): CubicPoints {
  const tail = t0 > 0 ? splitCubic(p, t0)[1] : p;
  return t1 < 1 ? splitCubic(tail, (t1 - t0) / (1 - t0))[0] : tail;
}

/** Parameters strictly between 0 and 1, rising, at which the curve runs level or upright. */
export function cubicExtremes([a, b, c, d]: CubicPoints): number[] {
  const level = bernsteinRoots([b.y - a.y, c.y - b.y, d.y - c.y]);
  const upright = bernsteinRoots([b.x - a.x, c.x - b.x, d.x - c.x]);
  return [...level, ...upright].filter((t) => t > 0 && t < 1).toSorted((s, t) => s - t);
}

/** Length of the curve from t0 to t1, mm, by quadrature to 1e-9. */
export const cubicLength = (p: CubicPoints, t0 = 0, t1 = 1): number => integrate(speedAlong(p), t0, t1, 1e-9);

/** Area swept by the ray from the origin along the curve: the integral of (x dy - y dx) / 2, in closed form. */
export const cubicSweptArea = ([a, b, c, d]: CubicPoints): number =>
  (6 * cross(a, b) + 3 * cross(a, c) + cross(a, d) + 3 * cross(b, c) + 3 * cross(b, d) + 6 * cross(c, d)) / 20;

/** Longer than any rounding, mm: nothing here is a thousand kilometres long. */
const CLEAR = 1e-3;

/** Unit direction of travel at t. Where the handles fall on the ends the next distinct point gives it; undefined for a single point. */
export function cubicTangent(p: CubicPoints, t: number): Vec | undefined {
  const [a, b, c, d] = p;
  const first = t <= 0 ? sub(b, a) : t >= 1 ? sub(d, c) : cubicDerivative(p, t);
  const clear = unitAbove(CLEAR, first);
  if (clear) return clear;
  const least = 1e-12 * Math.max(distance(a, b), distance(a, c), distance(a, d));
  return (
    unitAbove(least, first) ??
    unitAbove(least, t <= 0 ? sub(c, a) : t >= 1 ? sub(d, b) : cubicSecondDerivative(p, t)) ??
    unitAbove(least, sub(d, a))
  );
}

function unitAbove(least: number, v: Vec): Vec | undefined {
  const n = norm(v);
  return n > least ? vec(v.x / n, v.y / n) : undefined;
}
