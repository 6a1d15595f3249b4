import type { Shape } from "../../drawing/drawing.ts";
import { polygon, segmentPath } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import type { InPlace, Sources } from "../contract.ts";
import { drawFingerboard } from "./draw.ts";
import type { FingerboardMeasures } from "./measure.ts";
import type { FingerboardParams } from "./numbers.ts";

const SEEN = new Set(["outline", "frets", "markers"]);

/** The board with its frets and markers, and from the side its edge under the frets' crowns. */
export function fingerboardInPlace(p: FingerboardParams, m: FingerboardMeasures, from: Sources): InPlace {
  const front = drawFingerboard(p, m, from);
  const frets = m.frets
    .slice(1)
    .filter(({ fromNut }) => fromNut < m.endX)
    .map(({ number, fromNut }): Shape => ({
      id: `fret-${number}`,
      role: "guide",
      line: "narrow",
      path: segmentPath(vec(fromNut, p.thickness), vec(fromNut, p.thickness + m.crownHeight)),
      name: `fret ${number}`,
    }));
  return {
    front: { layers: front.layers.filter(({ name }) => SEEN.has(name)), dimensions: [] },
    side: {
      layers: [
        {
          name: "outline",
          shapes: [
            {
              id: "outline",
              role: "cut",
              line: "visible",
              path: polygon([vec(m.startX, 0), vec(m.endX, 0), vec(m.endX, p.thickness), vec(m.startX, p.thickness)]),
              name: "fingerboard",
              tint: "wood",
            },
            ...frets,
          ],
        },
      ],
      dimensions: [],
    },
  };
}
