/** The layers of the board, from the bottom up: the drawing with its dimensions, the rulers, the marks. One Konva shape each. */
import { memo } from "react";
import { useStore } from "zustand";
import type { Text } from "../../drawing/drawing.ts";
import type { LengthStyle } from "../../units/format.ts";
import type { Colours } from "./colours.ts";
import type { Placed } from "./dimension-layout.ts";
import { Painted } from "./konva-stage.tsx";
import { paintDimensions } from "./paint-dimensions.ts";
import { paintDrawing, paintStops } from "./paint-drawing.ts";
import { paintMarks, type Marks } from "./paint-marks.ts";
import { paintCursor, paintRulers, RULER_PX } from "./paint-rulers.ts";
import type { PointerStore } from "./pointer.ts";
import type { ShapeIndex } from "./shape-index.ts";
import type { View } from "./viewport.ts";

interface Drawn {
  readonly view: View;
  readonly colours: Colours;
  /** Device pixels a px. */
  readonly ratio: number;
  /** Another number: the faces have changed, draw again. */
  readonly faces: number;
}

export const DrawingLayer = memo(function DrawingLayer(
  props: Drawn & { readonly index: ShapeIndex; readonly texts: readonly Text[]; readonly placed: readonly Placed[] },
) {
  const { view, colours, ratio, index, texts, placed } = props;
  return (
    <Painted
      paint={(canvas) => {
        paintDrawing(canvas, index, texts, view, colours, ratio);
        paintDimensions(canvas, placed, colours, ratio);
        paintStops(canvas, index, texts, view, colours, ratio);
      }}
    />
  );
});

export const RulerLayer = memo(function RulerLayer({ view, colours, ratio, units }: Drawn & { readonly units: LengthStyle }) {
  return <Painted paint={(canvas) => paintRulers(canvas, view, units, colours, ratio)} />;
});

export const MarkLayer = memo(function MarkLayer(
  props: Drawn & { readonly pointer: PointerStore; readonly marks: Omit<Marks, "hover"> },
) {
  const { view, colours, ratio, pointer, marks } = props;
  const { at, over } = useStore(pointer);
  return (
    <Painted
      paint={(canvas) => {
        canvas.save();
        canvas.beginPath();
        canvas.rect(RULER_PX, RULER_PX, view.width, view.height);
        canvas.clip();
        paintMarks(canvas, { ...marks, hover: over?.shape }, view, colours, ratio);
        canvas.restore();
        if (at) paintCursor(canvas, at, colours, ratio);
      }}
    />
  );
});
