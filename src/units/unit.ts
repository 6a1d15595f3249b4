/**
 * The units that may stand behind a number.
 *
 * The inch is exactly 25.4 mm: the international yard of 1959 is 0.9144 m, and 36 in make a yard. Thou and mil are both a
 * thousandth of an inch; mil never means a millimetre here.
 */
export const MM_PER_INCH = 25.4;

/** A unit that a design may be shown in, and that a bare number may mean. */
export type LengthUnit = "in" | "mm";

export interface Unit {
  readonly measures: "length" | "angle";
  readonly name: "mm" | "cm" | "m" | "in" | "ft" | "thou" | "deg" | "rad";
  /**
   * A number in this unit times `times`, then divided by `by`, gives mm or radians. In two steps of whole numbers, so that 25 1/2 in is
   * 647.7 mm to the last bit, which 25.5 times the double nearest 25.4 is not.
   */
  readonly times: number;
  readonly by: number;
}

const unit = (measures: Unit["measures"], name: Unit["name"], times: number, by = 1): Unit => ({ measures, name, times, by });

const MM = unit("length", "mm", 1);
const CM = unit("length", "cm", 10);
const METRE = unit("length", "m", 1000);
const INCH = unit("length", "in", 254, 10);
const FOOT = unit("length", "ft", 12 * 254, 10);
const THOU = unit("length", "thou", 254, 10_000);
const DEGREE = unit("angle", "deg", Math.PI, 180);
const RADIAN = unit("angle", "rad", 1);

const WORDS: readonly (readonly [Unit, readonly string[]])[] = [
  [MM, ["mm", "millimetre", "millimetres", "millimeter", "millimeters"]],
  [CM, ["cm", "centimetre", "centimetres", "centimeter", "centimeters"]],
  [METRE, ["m", "metre", "metres", "meter", "meters"]],
  [INCH, ["in", "inch", "inches"]],
  [FOOT, ["ft", "foot", "feet"]],
  [THOU, ["thou", "mil", "mils"]],
  [DEGREE, ["deg", "degree", "degrees"]],
  [RADIAN, ["rad", "radian", "radians"]],
];
const BY_WORD = new Map(WORDS.flatMap(([unit, words]) => words.map((word) => [word, unit] as const)));

/** Every word that stands for a unit. */
export const UNIT_WORDS: readonly string[] = [...BY_WORD.keys()];

/** The unit that a word stands for, in capitals or not. */
export const unitNamed = (word: string): Unit | undefined => BY_WORD.get(word.toLowerCase());

/** What a number without a unit means. */
export const bareUnitOf = (wanted: LengthUnit | "deg"): Unit => (wanted === "in" ? INCH : wanted === "mm" ? MM : DEGREE);

/** The unit of a mark: two strokes are inches, one is feet, a ring is degrees. */
export const UNIT_OF_MARK = { '"': INCH, "'": FOOT, "°": DEGREE } as const;

/** A number in a unit, in mm or radians. */
export const inside = (value: number, unit: Unit): number => (value * unit.times) / unit.by;
