import { rectangle } from "../../geometry/path.ts";
import type { InPlace, Sources } from "../contract.ts";
import { drawNut } from "./draw.ts";
import type { NutMeasures } from "./measure.ts";

export function nutInPlace(m: NutMeasures, from: Sources): InPlace {
  const board = from.get("fingerboard")?.thickness ?? 0;
  return {
    front: { layers: drawNut(m, from).layers.filter(({ name }) => name === "outline"), dimensions: [] },
    side: {
      layers: [
        {
          name: "outline",
          shapes: [
            {
              id: "outline",
              role: "cut",
              line: "visible",
              path: rectangle(m.backX, board - m.seatDepth, m.faceX, board + m.crest),
              name: "nut",
              tint: "wood",
            },
          ],
        },
      ],
      dimensions: [],
    },
  };
}
