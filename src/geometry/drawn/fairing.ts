import { distance, vec, type Vec } from "../vec.ts";

/** A run made fair: the new points, the greatest move, mm, and the change of bend (the sum that is made small) before and after. */
export interface Fairing {
  readonly points: readonly Vec[];
  readonly moved: number;
  readonly roughBefore: number;
  readonly roughAfter: number;
}

/** Weights of smoothness are tried over this range of powers of ten, relative to the run. */
const POWERS = [-9, 9] as const;

/**
 * The points of a run moved by no more than `deviation` mm each, its ends not at all, so that its bend changes as evenly as that allows:
 * of all points q the sum of |q - p|^2 + w * (third divided differences of q along the chords)^2 is least (E. T. Whittaker, "On a new
 * method of graduation", Proc. Edinburgh Math. Soc. 41, 1923), w the greatest that keeps the deviation. Fewer than four points, and points
 * that coincide, stay where they are.
 */
export function fairRun(run: readonly Vec[], deviation: number): Fairing {
  const n = run.length;
  const lengths = run.slice(1).map((p, i) => distance(run[i]!, p));
  const whole = lengths.reduce((sum, length) => sum + length, 0);
  const still = { points: run, moved: 0, roughBefore: 0, roughAfter: 0 };
  if (n < 4 || !(deviation > 0) || !lengths.every((length) => length > 1e-9 * whole)) return still;
  const places = [0];
  for (const length of lengths) places.push(places.at(-1)! + (length / whole) * (n - 1));
  const rows = thirdDifferences(places);
  const rough = (points: readonly Vec[]): number =>
    rows.reduce((sum, { from, weights }) => {
      const x = weights.reduce((s, w, k) => s + w * points[from + k]!.x, 0);
      const y = weights.reduce((s, w, k) => s + w * points[from + k]!.y, 0);
      return sum + x * x + y * y;
    }, 0);
  const at = (power: number): { readonly points: Vec[]; readonly moved: number } => {
    const points = smoothed(run, rows, 10 ** power);
    return { points, moved: Math.max(...points.map((p, i) => distance(p, run[i]!))) };
  };
  let [low, high]: [number, number] = [...POWERS];
  let best = at(high);
  if (best.moved > deviation) {
    for (let k = 0; k < 50; k++) {
      const middle = (low + high) / 2;
      if (at(middle).moved > deviation) high = middle;
      else low = middle;
    }
    best = at(low);
    if (best.moved > deviation) return still;
  }
  return { ...best, roughBefore: rough(run), roughAfter: rough(best.points) };
}

interface Row {
  readonly from: number;
  readonly weights: readonly number[];
}

/** Weights of four neighbours in the third divided difference over the places. */
const thirdDifferences = (places: readonly number[]): Row[] =>
  places.slice(3).map((_, from) => {
    const four = places.slice(from, from + 4);
    return { from, weights: four.map((s, i) => four.reduce((product, t, j) => (i === j ? product : product / (s - t)), 1)) };
  });

/** Solves (I + w D'D) q = p with both ends held, by elimination inside the band of seven. */
function smoothed(run: readonly Vec[], rows: readonly Row[], weight: number): Vec[] {
  const n = run.length;
  const width = 3;
  const band = Array.from({ length: n }, () => new Float64Array(2 * width + 1));
  const x = run.map((p) => p.x);
  const y = run.map((p) => p.y);
  for (let i = 0; i < n; i++) band[i]![width] = 1;
  for (const { from, weights } of rows)
    weights.forEach((a, i) => {
      const row = from + i;
      if (row === 0 || row === n - 1) return;
      weights.forEach((b, j) => (band[row]![width + j - i]! += weight * a * b));
    });
  for (let k = 0; k < n; k++) {
    for (let i = k + 1; i <= Math.min(n - 1, k + width); i++) {
      const factor = band[i]![width + k - i]! / band[k]![width]!;
      if (factor === 0) continue;
      for (let j = k; j <= Math.min(n - 1, k + width); j++) band[i]![width + j - i]! -= factor * band[k]![width + j - k]!;
      x[i]! -= factor * x[k]!;
      y[i]! -= factor * y[k]!;
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let j = i + 1; j <= Math.min(n - 1, i + width); j++) {
      const b = band[i]![width + j - i]!;
      x[i]! -= b * x[j]!;
      y[i]! -= b * y[j]!;
    }
    x[i]! /= band[i]![width]!;
    y[i]! /= band[i]![width]!;
  }
  return run.map((p, i) => (i === 0 || i === n - 1 ? p : vec(x[i]!, y[i]!)));
}
