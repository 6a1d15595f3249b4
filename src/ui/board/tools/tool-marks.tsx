/** What the tools in hand show over the drawing: the places that were traced, the legs of the dividers. */
import { Shape } from "react-konva";
import type { Vec } from "../../../geometry/vec.ts";
import type { PointOutline } from "../../../parts/contract.ts";
import type { Colours } from "../colours.ts";
import { toScreen, type View } from "../viewport.ts";
import { pointOnBoard } from "../outline-editor/points.ts";
import { placeOfEnd } from "./spans.ts";
import type { TracedPlace } from "./trace.ts";
import type { Dividers } from "./use-dividers.ts";

interface Drawn {
  readonly view: View;
  readonly colours: Colours;
}

export function TraceMarks({
  places,
  outline,
  view,
  colours,
}: Drawn & { readonly places: readonly TracedPlace[]; readonly outline: PointOutline }) {
  return (
    <Shape
      listening={false}
      sceneFunc={(context) => {
        const at = places.map((place) => toScreen(view, pointOnBoard(outline, place.at)));
        for (const [colour, width] of [
          [colours.sheet, 4],
          [colours.pen, 1.75],
        ] as const) {
          context.setAttr("strokeStyle", colour);
          context.setAttr("lineWidth", width);
          context.beginPath();
          at.forEach(({ x, y }, i) => (i === 0 ? context.moveTo(x, y) : context.lineTo(x, y)));
          context.stroke();
        }
        at.forEach(({ x, y }, i) => {
          context.beginPath();
          if (places[i]!.corner) context.rect(x - 4.5, y - 4.5, 9, 9);
          else context.arc(x, y, 5, 0, 2 * Math.PI);
          context.setAttr("fillStyle", colours.sheet);
          context.fill();
          context.setAttr("strokeStyle", colours.pen);
          context.setAttr("lineWidth", 2);
          context.stroke();
        });
      }}
    />
  );
}

export function DividerMarks({ dividers, view, colours }: Drawn & { readonly dividers: Dividers }) {
  const { measured, hover, ends, shapes } = dividers;
  return (
    <Shape
      listening={false}
      sceneFunc={(context) => {
        const ring = (p: Vec, radius: number): void => {
          const { x, y } = toScreen(view, p);
          for (const [colour, width] of [
            [colours.sheet, 4.5],
            [colours.pen, 2],
          ] as const) {
            context.beginPath();
            context.arc(x, y, radius, 0, 2 * Math.PI);
            context.setAttr("strokeStyle", colour);
            context.setAttr("lineWidth", width);
            context.stroke();
          }
        };
        if (hover) ring(hover, 4);
        const places = measured ? [measured.from, measured.to] : ends.flatMap((end) => placeOfEnd(end, shapes) ?? []);
        const [a, b] = places.map((p) => toScreen(view, p));
        if (a && b)
          for (const [colour, width] of [
            [colours.sheet, 4.5],
            [colours.pen, 2],
          ] as const) {
            context.beginPath();
            context.moveTo(a.x, a.y);
            context.lineTo(b.x, b.y);
            context.setAttr("strokeStyle", colour);
            context.setAttr("lineWidth", width);
            context.stroke();
          }
        for (const p of places) ring(p, 7);
      }}
    />
  );
}
