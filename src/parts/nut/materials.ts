import type { Materials } from "../contract.ts";
import { rectangle } from "../../geometry/path.ts";
import type { NutMeasures } from "./measure.ts";

/** The blank, seen on its broad face: as long as the neck is wide, as high as the nut with what is filed away. */
export const nutMaterials = (m: NutMeasures): Materials => ({
  blanks: [
    {
      name: "nut",
      title: "Nut",
      outline: rectangle(0, 0, m.length, m.blankHeight),
      thickness: m.thickness,
      material: "bone",
      grain: 0,
      allowance: 0.5,
      planing: 0.5,
    },
  ],
});
