import { cubicDerivative, cubicPart, cubicPoint, cubicSecondDerivative, type CubicPoints } from "./bezier.ts";
import { add, cross, distance, distanceToSegment, dot, scale, sub, unit, type Vec } from "./vec.ts";

/** Rounds of moving the parameters to the feet of the points; gains fade after a few. */
const ROUNDS = 8;
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
  const parameters = chordLengths(points);
  let best: CubicPoints | undefined;
  let last = Infinity;
  for (let round = 0; round <= ROUNDS; round++) {
    const fitted = leastSquares(points, parameters, leaving, arriving, round === 0 ? 1 : ALONG);
    if (!moveToFeet(fitted, points, parameters)) return best;
    const worst = worstMiss(fitted, points, parameters);
    // Far off and not closing in fast, more rounds will not bring it back.
    if (round > 0 && worst > 4 * tolerance && worst > last / 2) return best;
    last = worst;
    if (worst <= tolerance && keepsWithin(fitted, points, parameters, tolerance)) {
      if (best) return fitted;
      best = fitted;
    }
  }
  return best;
}

/** True where each part of the cubic between the parameters of two points keeps within `tolerance` of the side between them. */
function keepsWithin(p: CubicPoints, points: readonly Vec[], parameters: Float64Array, tolerance: number): boolean {
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1]!;
    const b = points[i]!;
    const [q0, q1, q2, q3] = cubicPart(p, parameters[i - 1]!, parameters[i]!);
    const ends = Math.max(distanceToSegment(q0, a, b), distanceToSegment(q3, a, b));
    const handles = Math.max(distanceToSegment(q1, a, b), distanceToSegment(q2, a, b));
    // The distance to a side is convex, so on the part it stays under the mean of the hull's distances by the weights of its points;
    // the two handles weigh at most 3/4 together.
    if (Math.max(ends, 0.25 * ends + 0.75 * handles) > tolerance) return false;
  }
  return true;
}

function chordLengths(points: readonly Vec[]): Float64Array {
  const lengths = new Float64Array(points.length);
  for (let i = 1; i < points.length; i++) lengths[i] = lengths[i - 1]! + distance(points[i - 1]!, points[i]!);
  const total = lengths.at(-1)!;
  return lengths.map((s) => s / total);
}

function leastSquares(points: readonly Vec[], parameters: Float64Array, leaving: Vec, arriving: Vec, along: number): CubicPoints {
  const a = points[0]!;
  const d = points.at(-1)!;
  const back = scale(arriving, -1);
  let [c00, c11, x0, x1] = [0, 0, 0, 0];
  let c01 = 0;
  for (let i = 1; i < points.length - 1; i++) {
    const t = parameters[i]!;
    const s = 1 - t;
    const b1 = 3 * s * s * t;
    const b2 = 3 * s * t * t;
    const w0 = s * s * s + b1;
    const w3 = t * t * t + b2;
    const rx = points[i]!.x - w0 * a.x - w3 * d.x;
    const ry = points[i]!.y - w0 * a.y - w3 * d.y;
    const chord = unit(sub(points[i + 1]!, points[i - 1]!));
    // Each vector in the frame of the curve there, along shrunk by its weight.
    const [lx, ly] = [along * dot(leaving, chord), cross(chord, leaving)];
    const [kx, ky] = [along * dot(back, chord), cross(chord, back)];
    const [qx, qy] = [along * (rx * chord.x + ry * chord.y), chord.x * ry - chord.y * rx];
    c00 += b1 * b1 * (lx * lx + ly * ly);
    c01 += b1 * b2 * (lx * kx + ly * ky);
    c11 += b2 * b2 * (kx * kx + ky * ky);
    x0 += b1 * (qx * lx + qy * ly);
    x1 += b2 * (qx * kx + qy * ky);
  }
  const determinant = c00 * c11 - c01 * c01;
  const length = distance(a, d);
  let first = determinant === 0 ? 0 : (x0 * c11 - x1 * c01) / determinant;
  let second = determinant === 0 ? 0 : (c00 * x1 - c01 * x0) / determinant;
  // Handles of no length or turned about come of too few points; a third of the chord is the even choice.
  if (!(first > 1e-6 * length) || !(second > 1e-6 * length)) first = second = length / 3;
  return [a, add(a, scale(leaving, first)), add(d, scale(back, second)), d];
}

function worstMiss(p: CubicPoints, points: readonly Vec[], parameters: Float64Array): number {
  let worst = 0;
  for (let i = 1; i < points.length - 1; i++) {
    const q = cubicPoint(p, parameters[i]!);
    worst = Math.max(worst, Math.hypot(q.x - points[i]!.x, q.y - points[i]!.y));
  }
  return worst;
}

/** One step of Newton's method towards each point's foot on the curve; false where the parameters would get out of order. */
function moveToFeet(p: CubicPoints, points: readonly Vec[], parameters: Float64Array): boolean {
  let last = 0;
  for (let i = 1; i < points.length - 1; i++) {
    const t = parameters[i]!;
    const miss = sub(cubicPoint(p, t), points[i]!);
    const d = cubicDerivative(p, t);
    const slope = dot(d, d) + dot(miss, cubicSecondDerivative(p, t));
    const next = slope > 0 ? t - dot(miss, d) / slope : t;
    if (!(next > last && next < 1)) return false;
    parameters[i] = last = next;
  }
  return true;
}
