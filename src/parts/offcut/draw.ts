import type { Drawing, Shape } from "../../drawing/drawing.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { polyline } from "../../geometry/path.ts";
import { add, polar, vec, type Vec } from "../../geometry/vec.ts";
import type { OffcutMeasures } from "./measure.ts";
import type { OffcutParams } from "./numbers.ts";

const ROW = 10;

export function drawOffcut(p: OffcutParams, m: OffcutMeasures): Drawing {
  const { outline } = m;
  if (!outline) return { layers: [], dimensions: [] };
  const box = pathBounds(outline);
  const middle = vec((box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2);
  const reach = Math.min(box.maxX - box.minX, box.maxY - box.minY) / 4;
  const end = (turn: number): Vec => add(middle, polar(vec(0, 0), reach, p.grain + turn));
  const barb = (turn: number, bend: number): Vec => add(end(turn), polar(vec(0, 0), reach / 4, p.grain + turn + bend));
  return {
    layers: [
      {
        name: "outline",
        shapes: [{ id: "outline", role: "guide", line: "visible", path: outline, name: "offcut", tint: "wood" }],
      },
      {
        name: "knots",
        shapes: m.knots.map((path, i): Shape => ({
          id: `knot-${i + 1}`,
          role: "mark",
          line: "narrow",
          path,
          name: `knot ${i + 1}`,
          tint: "waste",
        })),
      },
      {
        name: "grain",
        shapes: [
          {
            id: "grain",
            role: "mark",
            line: "narrow",
            path: polyline([
              barb(0, 2.6),
              end(0),
              barb(0, -2.6),
              end(0),
              end(Math.PI),
              barb(Math.PI, 2.6),
              end(Math.PI),
              barb(Math.PI, -2.6),
            ]),
            name: "direction of the grain",
          },
        ],
      },
    ],
    dimensions: [
      {
        id: "length",
        from: vec(box.minX, box.minY),
        to: vec(box.maxX, box.minY),
        along: "x",
        offset: -ROW,
        value: box.maxX - box.minX,
        quantity: "length",
        ...(p.source === "rectangle" ? { edits: ".length" } : {}),
        rank: 1,
      },
      {
        id: "width",
        from: vec(box.minX, box.minY),
        to: vec(box.minX, box.maxY),
        along: "y",
        offset: ROW,
        value: box.maxY - box.minY,
        quantity: "length",
        ...(p.source === "rectangle" ? { edits: ".width" } : {}),
        rank: 1,
      },
    ],
  };
}
