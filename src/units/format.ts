/**
 * Numbers as they are shown. Rounding happens here and nowhere before, once, halves away from zero. What is shown reads back to the
 * same number within half of the last place. Nothing is ever shown as -0.
 */
import type { QuantityKind } from "./quantity.ts";
import { MM_PER_INCH, type LengthUnit } from "./unit.ts";

/** How a design shows its lengths. `fractions` only matters in inches. */
export interface LengthStyle {
  readonly unit: LengthUnit;
  readonly fractions: boolean;
}

/** "fixed" keeps the zeros at the end, so that the decimal points of a column stand below each other. Fractions have none. */
export type Digits = "trimmed" | "fixed";

/** A number as shown, its unit apart. */
export interface QuantityText {
  readonly text: string;
  readonly unit: LengthUnit | "°" | "";
}

export interface LengthText extends QuantityText {
  readonly unit: LengthUnit;
  /** The text in its two pieces: the number or the nearest 1/64 in, and the thousandths that this leaves, "+ 0.004" or "". */
  readonly main: string;
  readonly rest: string;
  /** What `main` leaves of the length, mm, exactly: above 0 where the length is more. */
  readonly remainderMm: number;
}

const PLACES: Readonly<Record<LengthUnit, number>> = { in: 3, mm: 2 };
const ANGLE_PLACES = 2;
const NUMBER_PLACES = 4;
const FINEST = 64;

/** A length in mm, as inches to 0.001, as inches and 1/64 with the thousandths that remain, or as millimetres to 0.01. */
export function formatLength(mm: number, { unit, fractions }: LengthStyle, digits: Digits = "trimmed"): LengthText {
  const value = unit === "in" ? mm / MM_PER_INCH : mm;
  if (unit === "in" && fractions) {
    const sixtyFourths = roundedHalfOut(value * FINEST);
    const rest = decimal(value - sixtyFourths / FINEST, PLACES.in, "trimmed");
    if (sixtyFourths !== 0 || rest === "0") {
      const main = mixedNumber(sixtyFourths);
      const said = rest === "0" ? "" : rest.startsWith("-") ? `- ${rest.slice(1)}` : `+ ${rest}`;
      return {
        text: said === "" ? main : `${main} ${said}`,
        unit,
        main,
        rest: said,
        remainderMm: mm - (sixtyFourths * MM_PER_INCH) / FINEST,
      };
    }
  }
  const main = decimal(value, PLACES[unit], digits);
  return { text: main, unit, main, rest: "", remainderMm: mm - Number(main) * (unit === "in" ? MM_PER_INCH : 1) };
}

/** A length with its unit: "1 11/16 in", "42.86 mm". */
export const lengthInFull = (mm: number, style: LengthStyle, digits: Digits = "trimmed"): string =>
  inFull(formatLength(mm, style, digits));

/** The same for a sentence or an overview: an inch that is no fraction of a rule in decimals, "24.9 in", not "24 29/32 - 0.006 in". */
export const lengthInShort = (mm: number, style: LengthStyle): string =>
  inFull(formatLength(mm, formatLength(mm, style).rest === "" ? style : { ...style, fractions: false }));

/** An angle in radians, in degrees to 0.01. */
export const formatAngle = (radians: number, digits: Digits = "trimmed"): QuantityText => ({
  text: decimal((radians * 180) / Math.PI, ANGLE_PLACES, digits),
  unit: "°",
});

/** A number of any kind as a field of that kind shows it: lengths and angles as above, plain numbers to 0.0001, counts whole. */
export function formatQuantity(
  value: number,
  quantity: QuantityKind,
  style: LengthStyle,
  digits: Digits = "trimmed",
): QuantityText {
  switch (quantity) {
    case "length":
      return formatLength(value, style, digits);
    case "angle":
      return formatAngle(value, digits);
    case "number":
      return { text: decimal(value, NUMBER_PLACES, digits), unit: "" };
    case "count":
      return { text: decimal(value, 0, digits), unit: "" };
  }
}

/** The text with its unit: "42.86 mm", "14.5°", "12". */
export const inFull = ({ text, unit }: QuantityText): string =>
  unit === "" || unit === "°" ? `${text}${unit}` : `${text} ${unit}`;

function decimal(value: number, places: number, digits: Digits): string {
  if (!Number.isFinite(value)) throw new RangeError(`a number to be shown must be finite, not ${value}`);
  const fixed = (roundedHalfOut(value * 10 ** places) / 10 ** places).toFixed(places);
  return digits === "fixed" || places === 0 ? fixed : fixed.replace(/\.?0+$/, "");
}

/** Two units in the last place of a double: what two steps of arithmetic may take from a number that stands for an exact half. */
const SLACK = 1 + 2 ** -51;

/** The nearest whole number; halves, and what misses one by rounding in binary alone, go away from zero. Never -0. */
function roundedHalfOut(value: number): number {
  const size = Math.floor(Math.abs(value) * SLACK + 0.5);
  return size === 0 ? 0 : Math.sign(value) * size;
}

/** 108 gives "1 11/16". */
function mixedNumber(sixtyFourths: number): string {
  const sign = sixtyFourths < 0 ? "-" : "";
  const size = Math.abs(sixtyFourths);
  const whole = Math.floor(size / FINEST);
  let top = size % FINEST;
  let bottom = FINEST;
  while (top !== 0 && top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  if (top === 0) return `${sign}${whole}`;
  return whole === 0 ? `${sign}${top}/${bottom}` : `${sign}${whole} ${top}/${bottom}`;
}
