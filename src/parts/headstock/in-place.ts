import type { Shape } from "../../drawing/drawing.ts";
import { moveShape } from "../../drawing/move.ts";
import { polygon, segmentPath } from "../../geometry/path.ts";
import { compose, rotation, scaling, transformPoint, translation } from "../../geometry/transform.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import type { InPlace, Sources } from "../contract.ts";
import { holeShapes, outlineLayer, slotShapes } from "./draw.ts";
import type { HeadstockMeasures } from "./measure.ts";
import type { HeadstockParams } from "./numbers.ts";

/** The head as it leans back: shorter from the front by the cosine of its tilt, and from the side its wood with the posts. */
export function headstockInPlace(p: HeadstockParams, m: HeadstockMeasures, from: Sources): InPlace {
  if (!m.outline) return {};
  const leaning = scaling(Math.cos(p.tilt), 1, vec(m.startX, 0));
  const tuners = p.rows === "slotted" ? slotShapes(p, m) : m.tuners.flatMap((tuner) => holeShapes(p, m, tuner));
  const strings = m.strings.map((string): Shape => ({
    id: `string-${string.string}`,
    role: "guide",
    line: "narrow",
    path: segmentPath(string.from, string.to),
    name: `string ${string.string}`,
  }));
  const front = [...outlineLayer(m).shapes, ...tuners, ...strings].map((shape) => moveShape(leaning, shape));
  const board = from.get("fingerboard")?.thickness ?? 0;
  // The head's own plane, turned down about where its face begins.
  const face = board - p.faceBelowBoard;
  const tilted = compose(rotation(p.tilt, vec(m.startX, 0)), translation(vec(0, face)));
  const at = (x: number, up: number): Vec => transformPoint(tilted, vec(x, up));
  return {
    front: { layers: [{ name: "outline", shapes: front }], dimensions: [] },
    fromOwn: leaning,
    side: {
      layers: [
        {
          name: "outline",
          shapes: [
            {
              id: "outline",
              role: "cut",
              line: "visible",
              path: polygon([at(m.startX, 0), at(m.topX, 0), at(m.topX, -p.thickness), at(m.startX, -p.thickness)]),
              name: "headstock",
              tint: "wood",
            },
            ...(p.rows === "slotted"
              ? []
              : m.tuners.map(({ string, at: post }): Shape => ({
                  id: `post-${string}`,
                  role: "guide",
                  line: "narrow",
                  path: segmentPath(at(post.x, -p.thickness), at(post.x, p.stringHeight)),
                  name: `post of string ${string}`,
                }))),
          ],
        },
      ],
      dimensions: [],
    },
  };
}
