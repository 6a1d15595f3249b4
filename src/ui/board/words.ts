/** Shapes and dimensions in words and formatted numbers. */
import type { Dimension, Shape } from "../../drawing/drawing.ts";
import { formatQuantity, inFull, type LengthStyle } from "../../units/format.ts";

/** "14.086 in to the join", "R6 mm". */
export function dimensionText({ before, value, quantity, after }: Dimension, style: LengthStyle): string {
  return `${before ?? ""}${inFull(formatQuantity(value, quantity, style))}${after ? ` ${after}` : ""}`;
}

/** The numbers of a shape: "12.7 in from the nut, 55.1 mm long". Empty where it has none. */
export function shapeNumbers({ says = [] }: Shape, style: LengthStyle): string {
  return says.map(({ label, value, quantity }) => `${inFull(formatQuantity(value, quantity, style))} ${label}`).join(", ");
}

/** "fret 12, 12.7 in from the nut, 55.1 mm long". */
export function shapeText(shape: Shape, style: LengthStyle): string {
  const numbers = shapeNumbers(shape, style);
  return numbers ? `${shape.name}, ${numbers}` : shape.name;
}

/** The scale of the board in words: "1 : 1.4", "2.5 : 1". `ratio` is px of the board over px at true size. */
export const scaleText = (ratio: number): string => (ratio >= 1 ? `${short(ratio)} : 1` : `1 : ${short(1 / ratio)}`);

const short = (n: number): string => (n >= 100 ? n.toFixed(0) : n.toFixed(1)).replace(/\.0$/, "");
