/** What is pointed at, what is chosen, what a finding points to and where the work stops, over the drawing. */
import type { Shape } from "../../drawing/drawing.ts";
import type { Vec } from "../../geometry/vec.ts";
import type { Colours } from "./colours.ts";
import { penFor } from "./line-types.ts";
import { strokePaths, type Canvas } from "./paint-drawing.ts";
import { toScreen, type View } from "./viewport.ts";

/** A place to look at, and the shape that it is about. */
interface Place {
  readonly at: Vec;
  readonly shape?: Shape | undefined;
}

export interface Marks {
  readonly hover?: Shape | undefined;
  readonly selected?: Shape | undefined;
  readonly highlight?: Place | undefined;
  /** Places of findings that stop the work. */
  readonly stops?: readonly Place[];
}

const RING_PX = 14;

export function paintMarks(
  canvas: Canvas,
  { hover, selected, highlight, stops = [] }: Marks,
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
  const ring = (place: Vec, colour: string): void => {
    const at = toScreen(view, place);
    for (const [width, stroke] of [
      [5, colours.board],
      [2, colour],
    ] as const) {
      canvas.beginPath();
      canvas.arc(at.x, at.y, RING_PX, 0, 2 * Math.PI);
      canvas.strokeStyle = stroke;
      canvas.lineWidth = width;
      canvas.stroke();
    }
  };
  for (const { shape } of stops) if (shape) over(shape, 1.5, colours.lost);
  for (const { at } of stops) ring(at, colours.lost);
  if (highlight?.shape) over(highlight.shape, 1.5, colours.pen);
  if (hover && hover !== selected) over(hover, 1, colours.pen);
  if (selected) {
    over(selected, 5, colours.wash);
    over(selected, 1.5, colours.pen);
  }
  if (highlight) ring(highlight.at, colours.pen);
}
