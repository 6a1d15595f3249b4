/** Words of a drawing on the canvas. */
import type { Text } from "../../drawing/drawing.ts";
import type { Colours } from "./colours.ts";
import { toScreen, toScreenAngle, type View } from "./viewport.ts";

/** Height of a capital over the size of the type, for the face of words. */
const CAPITAL = 0.67;
/** Words in smaller type are hard to read and are left out, px. */
const LEAST_TYPE_PX = 9;

/** Height of a capital on the board. */
export const capitalPx = ({ height }: Text, view: View): number => height * view.camera.pxPerMm;

export const isReadable = (text: Text, view: View): boolean => capitalPx(text, view) >= LEAST_TYPE_PX * CAPITAL;

/** The font of a text whose capitals are so many px high. */
export const textFont = ({ loud }: Text, capital: number, colours: Colours): string =>
  `${loud ? 700 : 400} ${capital / CAPITAL}px ${colours.words}`;

export function paintText(canvas: CanvasRenderingContext2D, text: Text, view: View, colours: Colours): void {
  if (!isReadable(text, view)) return;
  const at = toScreen(view, text.at);
  canvas.save();
  canvas.translate(at.x, at.y);
  canvas.rotate(toScreenAngle(text.angle ?? 0));
  canvas.font = textFont(text, capitalPx(text, view), colours);
  canvas.textAlign = text.align === "middle" ? "center" : text.align;
  canvas.textBaseline = "alphabetic";
  canvas.fillStyle = text.loud ? colours.lost : colours.ink;
  canvas.fillText(text.text, 0, 0);
  canvas.restore();
}

/** Width of a text in a font, px. */
export type TextWidth = (text: string, font: string) => number;

/** What a share of the size a character takes where there is no canvas to ask. */
const USUAL_ADVANCE = 0.6;

export function widthOnCanvas(): TextWidth {
  const canvas = document.createElement("canvas").getContext("2d");
  return (text, font) => {
    if (!canvas) return text.length * USUAL_ADVANCE * Number(/([\d.]+)px/.exec(font)?.[1] ?? 0);
    canvas.font = font;
    return canvas.measureText(text).width;
  };
}
