/**
 * Whether a strip can be bent round a curve: a flat strip on an inside radius R has faces that differ in length by t / R.
 *
 * Cold and dry, wood takes a difference of 2 to 3 percent; the rule given with it is a radius of 20 to 30 times the thickness.
 * Source: E. Wengert, The Wood Doctor's Rx, chapter on bending (read in an excerpt). On a hot iron makers go to about 12 times;
 * that is common practice, from memory, and no published source was found.
 */

/** Radius over thickness down to which a strip bends cold for certain, perhaps, and hot. */
export const BEND_RATIOS = { coldSurely: 30, coldPerhaps: 20, hot: 12 } as const;

/** How a bend can be made: cold, cold with luck, on a hot iron, or not at all. */
export type Bend = "cold" | "perhaps-cold" | "hot" | "too-tight";

/** The bend of a strip `thickness` mm thick on an inside radius (mm); both above 0, the radius Infinity for a straight run. */
export function bendOf(thickness: number, insideRadius: number): Bend {
  if (!(thickness > 0 && thickness < Infinity && insideRadius > 0))
    throw new RangeError("bendOf: thickness and radius must be above 0");
  const ratio = insideRadius / thickness;
  if (ratio >= BEND_RATIOS.coldSurely) return "cold";
  if (ratio >= BEND_RATIOS.coldPerhaps) return "perhaps-cold";
  return ratio >= BEND_RATIOS.hot ? "hot" : "too-tight";
}
