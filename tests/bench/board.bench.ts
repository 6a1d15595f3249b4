/** What the board itself costs a frame, without the canvas: laying out dimensions, walking the shapes, finding what is pointed at. */
import { bench, describe } from "vitest";
import type { Dimension, Drawing } from "../../src/drawing/drawing.ts";
import { circle, cubic, line } from "../../src/geometry/path.ts";
import { vec } from "../../src/geometry/vec.ts";
import { layOut } from "../../src/ui/board/dimension-layout.ts";
import { paintDrawing, type Canvas } from "../../src/ui/board/paint-drawing.ts";
import { pickShape } from "../../src/ui/board/pick.ts";
import { indexShapes } from "../../src/ui/board/shape-index.ts";
import type { Colours } from "../../src/ui/board/colours.ts";
import type { View } from "../../src/ui/board/viewport.ts";

const SHAPES = 5000;
const drawing: Drawing = {
  layers: [
    {
      name: "pieces",
      shapes: Array.from({ length: SHAPES }, (_, i) => {
        const x = (i % 100) * 5;
        const y = Math.floor(i / 100) * 5;
        return {
          id: `piece-${i}`,
          role: "cut" as const,
          line: (["visible", "narrow", "hidden"] as const)[i % 3]!,
          name: `piece ${i}`,
          path:
            i % 2
              ? circle(vec(x, y), 2)
              : {
                  start: vec(x, y),
                  segments: [
                    cubic(vec(x + 2, y + 3), vec(x + 3, y - 2), vec(x + 4, y)),
                    line(vec(x + 2, y - 2)),
                    line(vec(x, y)),
                  ],
                  closed: true,
                },
        };
      }),
    },
  ],
  dimensions: [],
};
const dimensions = Array.from({ length: 30 }, (_, i): Dimension => ({
  id: `d${i}`,
  from: vec(0, 0),
  to: vec(20 + i * 14, i % 2 ? 0 : 250),
  along: i % 3 ? "x" : "y",
  offset: (i % 2 ? 1 : -1) * (10 + (i % 4) * 10),
  value: i,
  quantity: "length",
  rank: ((i % 3) + 1) as 1 | 2 | 3,
}));
const view: View = { camera: { centre: vec(250, 125), pxPerMm: 2.4 }, width: 1440, height: 900 };
const index = indexShapes(drawing);
const nothing = new Proxy({}, { get: () => () => {}, set: () => true }) as Canvas;
const colours = new Proxy({}, { get: () => "#000" }) as Colours;

describe("the board", () => {
  bench("walks 5,000 shapes onto a canvas that draws nothing", () => paintDrawing(nothing, index, [], view, colours, 1));
  bench("lays out 30 dimensions", () => {
    layOut(dimensions, view, { left: 28, top: 28, right: 1436, bottom: 848 }, () => ({ text: "", width: 90, height: 24 }));
  });
  bench("finds what is pointed at among 5,000 shapes", () => {
    pickShape(index, vec(251, 124), view.camera.pxPerMm);
  });
  bench("indexes 5,000 shapes, once a drawing", () => {
    indexShapes(drawing);
  });
});
