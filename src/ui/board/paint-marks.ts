/** What is pointed at, what is chosen and what a finding points to, over the drawing. */
import type { Shape } from "../../drawing/drawing.ts";
import type { Vec } from "../../geometry/vec.ts";
import type { Colours } from "./colours.ts";
import { penFor } from "./line-types.ts";
import { strokePaths, type Canvas } from "./paint-drawing.ts";
import { toScreen, type View } from "./viewport.ts";

export interface Marks {
  readonly hover?: Shape | undefined;
  readonly selected?: Shape | undefined;
  /** A place to look at, and the shape that it is about. */
  readonly highlight?: { readonly at: Vec; readonly shape?: Shape | undefined } | undefined;
}

const RING_PX = 14;

export function paintMarks(
  canvas: Canvas,
  { hover, selected, highlight }: Marks,
  view: View,
  colours: Colours,
  ratio: number,
): void {
  const over = (shape: Shape, wider: number, colour: string): void =>
    strokePaths(
      canvas,
      [shape.path, ...(shape.holes ?? [])],
      { width: penFor(shape, view.camera.pxPerMm).width + wider, dash: [] },
      colour,
      view,
      ratio,
    );
  if (highlight?.shape) over(highlight.shape, 1.5, colours.pen);
  if (hover && hover !== selected) over(hover, 1, colours.pen);
  if (selected) {
    over(selected, 5, colours.wash);
    over(selected, 1.5, colours.pen);
  }
  if (highlight) {
    const at = toScreen(view, highlight.at);
    for (const [radius, width, colour] of [
      [RING_PX, 5, colours.board],
      [RING_PX, 2, colours.pen],
    ] as const) {
      canvas.beginPath();
      canvas.arc(at.x, at.y, radius, 0, 2 * Math.PI);
      canvas.strokeStyle = colour;
      canvas.lineWidth = width;
      canvas.stroke();
    }
  }
}
