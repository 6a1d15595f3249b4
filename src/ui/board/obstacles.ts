/** What dimensions keep clear of on the board: signs and words of stops, and all other words. */
import type { Text } from "../../drawing/drawing.ts";
import type { Colours } from "./colours.ts";
import type { Obstacles } from "./dimension-layout.ts";
import type { LabelBox } from "./label-box.ts";
import { capitalPx, isReadable, textFont, type TextWidth } from "./paint-text.ts";
import type { ShapeIndex } from "./shape-index.ts";
import { toScreen, toScreenAngle, type View } from "./viewport.ts";

/** As they stand on the board. */
export function obstaclesOf(
  index: ShapeIndex,
  texts: readonly Text[],
  view: View,
  colours: Colours,
  widthOf: TextWidth,
): Obstacles {
  const signs = index.all.flatMap(({ shape, bounds }): LabelBox[] => {
    if (shape.tint !== "stop") return [];
    const a = toScreen(view, { x: bounds.minX, y: bounds.maxY });
    const b = toScreen(view, { x: bounds.maxX, y: bounds.minY });
    return [{ centre: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }, width: b.x - a.x, height: b.y - a.y, angle: 0 }];
  });
  const seen = texts.filter((text) => isReadable(text, view));
  const boxOf = (text: Text): LabelBox => boxOfText(text, view, colours, widthOf);
  return {
    stops: [...signs, ...seen.filter(({ loud }) => loud).map(boxOf)],
    words: seen.filter(({ loud }) => !loud).map(boxOf),
  };
}

function boxOfText(text: Text, view: View, colours: Colours, widthOf: TextWidth): LabelBox {
  const height = capitalPx(text, view);
  const width = widthOf(text.text, textFont(text, height, colours));
  const angle = toScreenAngle(text.angle ?? 0);
  const at = toScreen(view, text.at);
  const along = text.align === "middle" ? 0 : text.align === "start" ? width / 2 : -width / 2;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  // From the foot of the letters to the middle of a capital.
  const up = height / 2;
  return { centre: { x: at.x + along * c + up * s, y: at.y + along * s - up * c }, width, height, angle };
}
