/** Signs and words of a stop on the board: what no dimension may hide. */
import type { Text } from "../../drawing/drawing.ts";
import type { Colours } from "./colours.ts";
import type { LabelBox } from "./label-box.ts";
import { textFont, type TextWidth } from "./paint-text.ts";
import type { ShapeIndex } from "./shape-index.ts";
import { toScreen, toScreenAngle, type View } from "./viewport.ts";

/** The boxes of all stops as they stand on the board. */
export function stopBoxes(
  index: ShapeIndex,
  texts: readonly Text[],
  view: View,
  colours: Colours,
  widthOf: TextWidth,
): readonly LabelBox[] {
  const signs = index.all.flatMap(({ shape, bounds }): LabelBox[] => {
    if (shape.tint !== "stop") return [];
    const a = toScreen(view, { x: bounds.minX, y: bounds.maxY });
    const b = toScreen(view, { x: bounds.maxX, y: bounds.minY });
    return [{ centre: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }, width: b.x - a.x, height: b.y - a.y, angle: 0 }];
  });
  const words = texts
    .filter(({ loud }) => loud)
    .map((text): LabelBox => {
      const height = text.height * view.camera.pxPerMm;
      const width = widthOf(text.text, textFont(text, height, colours));
      const angle = toScreenAngle(text.angle ?? 0);
      const at = toScreen(view, text.at);
      const along = text.align === "middle" ? 0 : text.align === "start" ? width / 2 : -width / 2;
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      // From the foot of the letters to the middle of a capital.
      const up = height / 2;
      return { centre: { x: at.x + along * c + up * s, y: at.y + along * s - up * c }, width, height, angle };
    });
  return [...signs, ...words];
}
