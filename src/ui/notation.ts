/** Numbers as they are shown: lengths in the design's units, angles in degrees. */
import type { Design } from "../document/design.ts";
import type { AnySpec } from "../parts/derived.ts";
import type { Words } from "../parts/contract.ts";
import { formatLength, formatQuantity, inFull, type LengthStyle } from "../units/format.ts";
import type { QuantityKind } from "../units/quantity.ts";
import { readQuantity } from "../units/read.ts";
import { bareUnitOf, inside, UNIT_WORDS } from "../units/unit.ts";

export type Notation = LengthStyle;
export type Quantity = QuantityKind;

/** A number in pieces: shown large, and small what a fraction leaves, "+ 0.004", and the unit. */
export interface Shown {
  readonly text: string;
  readonly rest: string;
  readonly unit: string;
  /** The whole number without its unit, as it may be typed. */
  readonly typed: string;
}

export const notationOf = (design: Design): Notation => ({
  unit: design.units,
  fractions: design.units === "in" && design.fractions === true,
});

/** The kind of number that a field of this type holds; undefined for words, choices and lists. */
export function quantityOf(type: AnySpec["type"]): Quantity | undefined {
  const plain = type.replace("optional-", "");
  return plain === "length" || plain === "angle" || plain === "number" || plain === "count" ? plain : undefined;
}

export function show(value: number, quantity: Quantity, notation: Notation): Shown {
  if (quantity !== "length") {
    const { text, unit } = formatQuantity(value, quantity, notation);
    return { text, rest: "", unit, typed: text };
  }
  const { text, main, rest, unit } = formatLength(value, notation);
  return { text: main, rest, unit, typed: text };
}

/**
 * The number and its unit in one, for a sentence: "1 11/16 in", "14°", "20". An inch that is no fraction of a rule is said in decimals
 * there: "24.9 in", not "24 29/32 - 0.006 in".
 */
export function say(value: number, quantity: Quantity, notation: Notation): string {
  const exact = quantity !== "length" || !notation.fractions || formatLength(value, notation).rest === "";
  return inFull(formatQuantity(value, quantity, exact ? notation : { ...notation, fractions: false }));
}

export const sayWords = (words: Words, notation: Notation): string =>
  words.map((piece) => (typeof piece === "string" ? piece : say(piece.value, piece.quantity, notation))).join("");

/** A length in mm, or a range of two, within words; with the same in inches behind it where the words give that too. */
const MM_IN_WORDS = /(\d+(?:\.\d+)?)( to (\d+(?:\.\d+)?))? mm\b( \(([^()]*\d in)\))?/g;

/** Words in which lengths stand in mm, as they are said in the units shown: "8 mm, or what is left" is "0.315 in, or what is left". */
export function wordsIn(words: string, notation: Notation): string {
  if (notation.unit === "mm") return words;
  const inUnit = (mm: string): string => say(Number(mm), "length", notation);
  return words.replace(
    MM_IN_WORDS,
    (
      _,
      one: string,
      range: string | undefined,
      two: string | undefined,
      behind: string | undefined,
      inches: string | undefined,
    ) => {
      if (behind !== undefined && inches !== undefined) return inches;
      return range !== undefined && two !== undefined ? `${inUnit(one)} to ${inUnit(two)}` : inUnit(one);
    },
  );
}

const UNIT_AT_END = new RegExp(
  String.raw`^(.*[\d⅛¼⅜½⅝¾⅞].*?)\s*(${[...UNIT_WORDS].toSorted((a, b) => b.length - a.length).join("|")}|["″”°])$`,
  "iu",
);
const MARKS: Readonly<Record<string, string>> = { '"': "in", "″": "in", "”": "in" };

/** The maker's own typing, its unit apart where one stands at the end; a bare number has the field's own unit. */
export function splitTyped(typed: string, bare: string): Shown {
  const text = typed.trim();
  const match = text.startsWith("=") ? null : UNIT_AT_END.exec(text);
  const [, number, unit] = match ?? [];
  if (number === undefined || unit === undefined) return { text, rest: "", unit: bare, typed: text };
  // Feet and inches, or a unit in the middle, are one text that must stay whole.
  return /['′a-z]/iu.test(number)
    ? { text, rest: "", unit: "", typed: text }
    : { text: number, rest: "", unit: MARKS[unit] ?? unit, typed: text };
}

/** What a bare number means in a field of this kind. */
export const bareUnit = (quantity: Quantity, notation: Notation): string =>
  quantity === "length" ? notation.unit : quantity === "angle" ? "°" : "";

const INCH_STEPS = [0.001, 0.005, 0.01, 0.05, 0.1, 0.5, 1];
const RULE_STEPS = [1 / 64, 1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1];

/** One press of an arrow key, in mm or radians: the parameter's own step brought to a round one of the units shown. */
export function stepOf(step: number | undefined, quantity: Quantity, notation: Notation): number {
  if (quantity === "count" || quantity === "number") return step ?? 1;
  if (quantity === "angle") return step ?? Math.PI / 360;
  const wanted = step ?? 0.1;
  if (notation.unit === "mm") return wanted;
  const inch = inside(1, bareUnitOf("in"));
  const steps = notation.fractions ? RULE_STEPS : INCH_STEPS;
  return (steps.find((s) => s * inch >= wanted * 0.999) ?? 1) * inch;
}

/** The value of a text that needs no other number, or undefined. */
export function plainValue(text: string, quantity: Quantity, notation: Notation): number | undefined {
  if (text.trim().startsWith("=")) return undefined;
  const read = readQuantity(text, { quantity, bareUnit: notation.unit });
  return read.ok ? read.value.value : undefined;
}
