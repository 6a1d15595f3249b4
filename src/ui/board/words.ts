/** Shapes and dimensions in words and formatted numbers. */
import type { Dimension, Shape } from "../../drawing/drawing.ts";
import { formatLength, formatQuantity, inFull, type LengthStyle } from "../../units/format.ts";

/** "14.086 in to the join", "R 6 mm". */
export function dimensionText({ before, value, quantity, after }: Dimension, style: LengthStyle): string {
  return `${before ? `${before} ` : ""}${inFull(formatQuantity(value, quantity, style))}${after ? ` ${after}` : ""}`;
}

/** The value alone as a maker would type it, with its unit: a fraction only where it leaves nothing. */
export function typedText({ value, quantity }: Dimension, style: LengthStyle): string {
  const exact = quantity !== "length" || formatLength(value, style).rest === "";
  return inFull(formatQuantity(value, quantity, exact ? style : { ...style, fractions: false }));
}

/** The numbers of a shape, each with what it is. */
export const shapeNumbers = ({ says = [] }: Shape, style: LengthStyle): { readonly label: string; readonly value: string }[] =>
  says.map(({ label, value, quantity }) => ({ label, value: inFull(formatQuantity(value, quantity, style)) }));

/** "fret 12, from the nut 12.7 in, slot 2.137 in". */
export const shapeText = (shape: Shape, style: LengthStyle): string =>
  [shape.name, ...shapeNumbers(shape, style).map(({ label, value }) => `${label} ${value}`)].join(", ");

/** The scale of the board in words: "1 : 1.4", "2.5 : 1". `ratio` is px of the board over px at true size. */
export const scaleText = (ratio: number): string => (ratio >= 1 ? `${short(ratio)} : 1` : `1 : ${short(1 / ratio)}`);

const short = (n: number): string => (n >= 100 ? n.toFixed(0) : n.toFixed(1)).replace(/\.0$/, "");
