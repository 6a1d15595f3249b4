import type { Materials } from "../contract.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { rectangle } from "../../geometry/path.ts";
import type { BridgeMeasures } from "./measure.ts";
import type { BridgeParams } from "./numbers.ts";

/** How far a saddle's blank stands above the bridge. */
const PROUD = 6;

/** The bridge, its grain across the instrument, the saddle's blank, and the bit of its slot. */
export function bridgeMaterials(p: BridgeParams, m: BridgeMeasures): Materials {
  const { outline, saddle } = m;
  if (!outline) return { blanks: [] };
  const box = pathBounds(outline);
  const high = p.type === "floating" ? PROUD : p.slotDepth + PROUD;
  return {
    blanks: [
      {
        name: "bridge",
        title: "Bridge",
        outline,
        thickness: p.thickness,
        species: "rosewood-indian",
        sawn: "quartersawn",
        grain: Math.PI / 2,
        allowance: 3,
        planing: 1,
      },
      {
        name: "saddle",
        title: "Saddle",
        outline: rectangle(0, 0, saddle.length, high),
        thickness: p.saddleThickness,
        material: "bone",
        grain: 0,
        allowance: 0.5,
        planing: 0.2,
      },
    ],
    cutters: p.type === "floating" ? [] : [{ what: "bit", size: p.saddleThickness, for: "slot of the saddle" }],
    joints:
      p.type === "floating"
        ? []
        : [
            {
              name: "bridge-on-top",
              title: "Bridge on the top",
              blank: "bridge",
              on: { kind: "body", blank: "top" },
              along: box.maxX - box.minX,
              across: box.maxY - box.minY,
              crossed: true,
            },
          ],
  };
}
