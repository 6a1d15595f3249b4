import type { Part } from "../contract.ts";
import { nutChecks } from "./checks.ts";
import { drawNut } from "./draw.ts";
import { nutMaterials } from "./materials.ts";
import { nutInPlace } from "./in-place.ts";
import { measureNut, type NutMeasures } from "./measure.ts";
import { nutParams, type NutParams } from "./params.ts";
import { nutTemplates } from "./templates.ts";

export type { NutMeasures, NutSlot } from "./measure.ts";
export type { NutParams } from "./params.ts";

export const nut: Part<NutParams, NutMeasures> = {
  kind: "nut",
  label: "Nut",
  about: "The bar at the head that spaces the strings and sets their height.",
  version: 1,
  migrations: [],
  params: nutParams,
  reads: ["instrument", "fingerboard"],
  measure: measureNut,
  measureNames: ["faceX", "backX", "height", "blankHeight", "crest", "slantRad"],
  draw: (_p, m, from) => drawNut(m, from),
  summary: (p, m) => [
    `${m.slots.length} ${m.slots.length === 1 ? "slot" : "slots"}, `,
    { value: p.thickness, quantity: "length" },
    " thick.",
  ],
  templates: (_p, m, from) => nutTemplates(m, from),
  materials: (_p, m) => nutMaterials(m),
  inPlace: (_p, m, from) => nutInPlace(m, from),
  checks: nutChecks,
};
