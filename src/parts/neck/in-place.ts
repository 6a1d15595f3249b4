import { segmentPath } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import type { InPlace, Sources } from "../contract.ts";
import type { NeckMeasures } from "./measure.ts";
import { modelOf } from "./model.ts";
import type { NeckParams } from "./numbers.ts";
import { planPath } from "./plan.ts";
import { heelCap, sideChannels, sidePath } from "./side.ts";

/** The wood under the board without its tongue, and from the side the channels in it and the strings at the middle over it. */
export function neckInPlace(p: NeckParams, m: NeckMeasures, from: Sources): InPlace {
  const model = modelOf(p, from);
  const wood = { role: "cut", line: "visible", name: "neck", tint: "wood", id: "outline" } as const;
  return {
    front: { layers: [{ name: "outline", shapes: [{ ...wood, path: planPath(model, undefined) }] }], dimensions: [] },
    side: {
      layers: [
        {
          name: "outline",
          shapes: [
            { ...wood, path: sidePath(p, model, undefined) },
            ...heelCap(p, model, ""),
            ...sideChannels(model, ""),
            {
              id: "string",
              role: "guide",
              line: "narrow",
              path: segmentPath(
                vec(model.nutX, m.fretPlane + p.nutHeight),
                vec(m.saddleX, m.fretPlane + m.stringsOverTop - m.fretPlaneAtBridge),
              ),
              name: "strings, at the middle",
            },
          ],
        },
      ],
      dimensions: [],
    },
  };
}
