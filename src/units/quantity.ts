/** The kinds of number that a design is made of, and how large each may be. */
import { done, refuse, type Reading, type Result, type Span } from "./result.ts";
import type { LengthUnit } from "./unit.ts";

/** What a field wants: a length in mm, an angle in radians, a plain number, or a whole number. */
export type QuantityKind = "length" | "angle" | "number" | "count";

/** A settled number that a formula may name, in mm or radians where it is not plain. */
export interface NamedQuantity {
  readonly quantity: "length" | "angle" | "number";
  readonly value: number;
}

/** Gives the value of a dimension, or says why there is none: unknown, in a circle, not settled. */
export type Resolve = (name: string) => Result<NamedQuantity, { readonly message: string; readonly mend: string }>;

/** A field that typed text is read for. */
export interface Wanted {
  readonly quantity: QuantityKind;
  /** What a number without a unit means in a length. Angles without a unit are in degrees. */
  readonly bareUnit: LengthUnit;
}

/** A field, and where its formulas find the dimensions that they name. Without `resolve` a formula may not name any. */
export interface FieldReading extends Wanted {
  readonly resolve?: Resolve;
}

/** An example of each kind as it is typed, for messages. */
export const EXAMPLE: Readonly<Record<QuantityKind, string>> = {
  length: "1 11/16 in",
  angle: "14 deg",
  number: "1.5",
  count: "12",
};

/** Each kind with its article, for messages. */
export const A_KIND: Readonly<Record<QuantityKind, string>> = {
  length: "a length",
  angle: "an angle",
  number: "a plain number",
  count: "a whole number",
};

/** No instrument, and no board for one, is longer. */
const MOST_MM = 20_000;
const MOST_RAD = 2 * Math.PI;
const MOST_NUMBER = 1e9;
/** A whole number that was calculated may be off by this much for rounding in binary. */
const WHOLE_WITHIN = 1e-9;

/** The value if it is of a size that can be meant: a length up to 20 m, an angle up to a full turn, a number up to 1e9, a count whole. */
export function accept(value: number, quantity: QuantityKind, place: Span): Reading<number> {
  const size = Math.abs(value);
  switch (quantity) {
    case "length":
      if (!(size <= MOST_MM)) return refuse(place, "this is longer than 20 m", "Check the number and its unit.");
      break;
    case "angle":
      if (!(size <= MOST_RAD * (1 + WHOLE_WITHIN)))
        return refuse(place, "this is more than a full turn", "Write an angle of at most 360 degrees.");
      break;
    case "number":
    case "count":
      if (!(size <= MOST_NUMBER)) return refuse(place, "this is over 1,000,000,000", "Check the number.");
  }
  const whole = Math.round(value);
  if (quantity === "count" && Math.abs(value - whole) > WHOLE_WITHIN)
    return refuse(place, "a whole number is wanted", `Write one without a fraction, such as ${EXAMPLE.count}.`);
  // Adding 0 turns -0 into 0.
  return done((quantity === "count" ? whole : value) + 0);
}
