import type { CubicPoints } from "./bezier.ts";
import { vec, type Vec } from "./vec.ts";

/** Rounds of moving the parameters to the feet of the points. */
const ROUNDS = 8;
/** A round that leaves more of the miss than this, while it is still too great, is the last. */
const STALLED = 0.7;
/** Weight of a miss along the curve beside one across it. Along the curve only the parameter is off; a little of it keeps the sums solvable. */
const ALONG = 0.02;

/**
 * The cubic from the first to the last of `points`, leaving along the unit vector `leaving` and arriving along `arriving`, that misses
 * the points by the least squares (after P. J. Schneider, "An algorithm for automatically fitting digitized curves", Graphics Gems, 1990;
 * from the second round on misses count across the curve, as in W. Wang, H. Pottmann and Y. Liu, "Fitting B-spline curves to point clouds
 * by curvature-based squared distance minimization", 2006). Given only if it keeps within `tolerance` mm of the polyline through all the
 * points, proved by the hulls of its parts.
 */
export function fitCubic(points: readonly Vec[], leaving: Vec, arriving: Vec, tolerance: number): CubicPoints | undefined {
  const run = runOf(points);
  let best: CubicPoints | undefined;
  let last = Infinity;
  for (let round = 0; round <= ROUNDS; round++) {
    const fitted = leastSquares(run, leaving, arriving, round === 0 ? 1 : ALONG);
    const worst = moveToFeet(fitted, run);
    if (worst === undefined) return best;
    if (worst <= tolerance && keepsWithin(fitted, run, tolerance)) {
      // One round more evens the misses out.
      if (best) return fitted;
      best = fitted;
    } else if (best || (worst > tolerance && round > 0 && worst > STALLED * last)) return best;
    last = worst;
  }
  return best;
}

/** The points in flat arrays, since a fit reads them a dozen times: places, directions of the curve there, parameters. */
interface Run {
  readonly size: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Unit direction from the point before to the point after. */
  readonly ux: Float64Array;
  readonly uy: Float64Array;
  readonly t: Float64Array;
}

function runOf(points: readonly Vec[]): Run {
  const size = points.length;
  const [x, y, ux, uy, t] = [0, 1, 2, 3, 4].map(() => new Float64Array(size)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  for (let i = 0; i < size; i++) {
    x[i] = points[i]!.x;
    y[i] = points[i]!.y;
  }
  for (let i = 1; i < size; i++) t[i] = t[i - 1]! + Math.sqrt((x[i]! - x[i - 1]!) ** 2 + (y[i]! - y[i - 1]!) ** 2);
  const total = t[size - 1]!;
  for (let i = 1; i < size; i++) t[i]! /= total;
  for (let i = 1; i < size - 1; i++) {
    const dx = x[i + 1]! - x[i - 1]!;
    const dy = y[i + 1]! - y[i - 1]!;
    const length = Math.sqrt(dx * dx + dy * dy);
    ux[i] = dx / length;
    uy[i] = dy / length;
  }
  return { size, x, y, ux, uy, t };
}

function leastSquares({ size, x, y, ux, uy, t }: Run, leaving: Vec, arriving: Vec, along: number): CubicPoints {
  const [ax, ay, dx, dy] = [x[0]!, y[0]!, x[size - 1]!, y[size - 1]!];
  let [c00, c01, c11, r0, r1] = [0, 0, 0, 0, 0];
  for (let i = 1; i < size - 1; i++) {
    const b = t[i]!;
    const a = 1 - b;
    const b1 = 3 * a * a * b;
    const b2 = 3 * a * b * b;
    const w0 = a * a * a + b1;
    const w3 = b * b * b + b2;
    const rx = x[i]! - w0 * ax - w3 * dx;
    const ry = y[i]! - w0 * ay - w3 * dy;
    const cx = ux[i]!;
    const cy = uy[i]!;
    // Each vector in the frame of the curve there, its part along the curve shrunk by the weight.
    const lx = b1 * along * (leaving.x * cx + leaving.y * cy);
    const ly = b1 * (cx * leaving.y - cy * leaving.x);
    const kx = -b2 * along * (arriving.x * cx + arriving.y * cy);
    const ky = -b2 * (cx * arriving.y - cy * arriving.x);
    const qx = along * (rx * cx + ry * cy);
    const qy = cx * ry - cy * rx;
    c00 += lx * lx + ly * ly;
    c01 += lx * kx + ly * ky;
    c11 += kx * kx + ky * ky;
    r0 += qx * lx + qy * ly;
    r1 += qx * kx + qy * ky;
  }
  const determinant = c00 * c11 - c01 * c01;
  const length = Math.sqrt((dx - ax) ** 2 + (dy - ay) ** 2);
  let first = determinant === 0 ? 0 : (r0 * c11 - r1 * c01) / determinant;
  let second = determinant === 0 ? 0 : (c00 * r1 - c01 * r0) / determinant;
  // Handles of no length or turned about come of too few points; a third of the chord is the even choice.
  if (!(first > 1e-6 * length) || !(second > 1e-6 * length)) first = second = length / 3;
  return [
    vec(ax, ay),
    vec(ax + leaving.x * first, ay + leaving.y * first),
    vec(dx - arriving.x * second, dy - arriving.y * second),
    vec(dx, dy),
  ];
}

/**
 * Moves each parameter by a step of Newton's method towards its point's foot on the curve. Gives the greatest distance from a point to the
 * curve, by the tangents before the step; undefined where the parameters would get out of order.
 */
function moveToFeet([a, b, c, d]: CubicPoints, { size, x, y, t }: Run): number | undefined {
  // The curve as a + t (p + t (q + t r)).
  const [px, py] = [3 * (b.x - a.x), 3 * (b.y - a.y)];
  const [qx, qy] = [3 * (c.x - 2 * b.x + a.x), 3 * (c.y - 2 * b.y + a.y)];
  const [rx, ry] = [d.x - 3 * c.x + 3 * b.x - a.x, d.y - 3 * c.y + 3 * b.y - a.y];
  let worst = 0;
  let last = 0;
  for (let i = 1; i < size - 1; i++) {
    const s = t[i]!;
    const mx = a.x - x[i]! + s * (px + s * (qx + s * rx));
    const my = a.y - y[i]! + s * (py + s * (qy + s * ry));
    const dx = px + s * (2 * qx + 3 * s * rx);
    const dy = py + s * (2 * qy + 3 * s * ry);
    const square = dx * dx + dy * dy;
    const across = Math.abs(mx * dy - my * dx) / Math.sqrt(square);
    if (!(across <= worst)) worst = across;
    const ex = 2 * qx + 6 * s * rx;
    const ey = 2 * qy + 6 * s * ry;
    const slope = square + mx * ex + my * ey;
    const next = slope > 0 ? s - (mx * dx + my * dy) / slope : s;
    if (!(next > last && next < 1)) return undefined;
    t[i] = last = next;
  }
  return worst;
}

/**
 * True where each part of the cubic, between the parameters of two points, keeps within `tolerance` of the side between them. The height
 * over the side and the way along it are cubic polynomials too, so on the part they stay within their own four coefficients there, of which the
 * inner two weigh at most 3/4 together.
 */
function keepsWithin([a, b, c, d]: CubicPoints, { size, x, y, t }: Run, tolerance: number): boolean {
  const [px, py] = [3 * (b.x - a.x), 3 * (b.y - a.y)];
  const [qx, qy] = [3 * (c.x - 2 * b.x + a.x), 3 * (c.y - 2 * b.y + a.y)];
  const [rx, ry] = [d.x - 3 * c.x + 3 * b.x - a.x, d.y - 3 * c.y + 3 * b.y - a.y];
  for (let i = 1; i < size; i++) {
    const length = Math.sqrt((x[i]! - x[i - 1]!) ** 2 + (y[i]! - y[i - 1]!) ** 2);
    const sx = (x[i]! - x[i - 1]!) / length;
    const sy = (y[i]! - y[i - 1]!) / length;
    const fx = a.x - x[i - 1]!;
    const fy = a.y - y[i - 1]!;
    // Height over the side and way along it, as polynomials of the parameter.
    const h0 = sx * fy - sy * fx;
    const h1 = sx * py - sy * px;
    const h2 = sx * qy - sy * qx;
    const h3 = sx * ry - sy * rx;
    const g0 = sx * fx + sy * fy;
    const g1 = sx * px + sy * py;
    const g2 = sx * qx + sy * qy;
    const g3 = sx * rx + sy * ry;
    const s = t[i - 1]!;
    const e = t[i]!;
    const third = (e - s) / 3;
    const start = h0 + s * (h1 + s * (h2 + s * h3));
    const end = h0 + e * (h1 + e * (h2 + e * h3));
    const near = start + third * (h1 + s * (2 * h2 + 3 * s * h3));
    const far = end - third * (h1 + e * (2 * h2 + 3 * e * h3));
    const ends = Math.max(Math.abs(start), Math.abs(end));
    const height = Math.max(ends, 0.25 * ends + 0.75 * Math.max(Math.abs(near), Math.abs(far)));
    // How far the part reaches beyond the side's ends: a little where it runs aslant to it, and far where it runs forth and back.
    const begun = g0 + s * (g1 + s * (g2 + s * g3));
    const done = g0 + e * (g1 + e * (g2 + e * g3));
    const early = begun + third * (g1 + s * (2 * g2 + 3 * s * g3));
    const late = done - third * (g1 + e * (2 * g2 + 3 * e * g3));
    const over = Math.max(0, -Math.min(begun, early, late, done), Math.max(begun, early, late, done) - length);
    if (height * height + over * over > tolerance * tolerance) return false;
  }
  return true;
}
