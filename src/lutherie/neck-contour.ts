/**
 * The shoulders of a neck from points taken off it with a contour gauge: for each side the exponent whose curve the points
 * miss by the least squares, width, depth and lean given. Source: ordinary least squares, searched by golden section.
 */
import { distance, type Vec } from "../geometry/vec.ts";
import { leastBetween } from "./least-between.ts";
import { GREATEST_EXPONENT, LEAST_EXPONENT, type NeckSection } from "./neck-section.ts";
import { wallAt } from "./neck-walls.ts";

/** The section found and how far off it the points lie, mm (root of the mean square, and the worst). */
export interface FittedContour {
  readonly section: NeckSection;
  readonly rms: number;
  readonly worst: number;
}

/**
 * The section nearest to `points` (as in NeckSection: x to the treble side, y from 0 down) with this half width, depth and
 * lean. Undefined unless each side has a point between its edge and the back.
 */
export function sectionFromContour(
  points: readonly Vec[],
  size: Pick<NeckSection, "halfWidth" | "depth" | "lean">,
): FittedContour | undefined {
  const onSide = (sign: 1 | -1): readonly Vec[] => points.filter(({ x, y }) => sign * (x - size.lean) > 0 && y < 0);
  const [bass, treble] = [onSide(-1), onSide(1)];
  if (bass.length === 0 || treble.length === 0) return undefined;
  const miss = (exponent: number, side: readonly Vec[]): number => {
    const section = { ...size, bassExponent: exponent, trebleExponent: exponent };
    return side.reduce((sum, p) => sum + wallAt(section, p).distance ** 2, 0);
  };
  const best = (side: readonly Vec[]): number => leastBetween((p) => miss(p, side), LEAST_EXPONENT, GREATEST_EXPONENT, 1e-6);
  const section = { ...size, bassExponent: best(bass), trebleExponent: best(treble) };
  const misses = [...bass, ...treble].map((p) => distance(p, wallAt(section, p).to));
  return {
    section,
    rms: Math.sqrt(misses.reduce((sum, m) => sum + m * m, 0) / misses.length),
    worst: Math.max(...misses),
  };
}
