import { formatLength, formatQuantity, inFull, type LengthStyle } from "../units/format.ts";
import type { QuantityKind } from "../units/quantity.ts";

/** Says a number of a report with its unit. */
export type Say = (value: number, quantity: QuantityKind) => string;

/** An inch that is no fraction of a rule is said in decimals: "24.9 in", not "24 29/32 - 0.006 in". */
export const sayer =
  (style: LengthStyle): Say =>
  (value, quantity) => {
    const exact = quantity !== "length" || !style.fractions || formatLength(value, style).rest === "";
    return inFull(formatQuantity(value, quantity, exact ? style : { ...style, fractions: false }));
  };
