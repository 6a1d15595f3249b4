import type { Part } from "../contract.ts";
import { bracingChecks } from "./checks.ts";
import { bracingInPlace, drawBracing } from "./draw.ts";
import { bracingMaterials } from "./materials.ts";
import { measureBracing, type BracingMeasures } from "./measure.ts";
import type { BracingParams } from "./numbers.ts";
import { bracingParams } from "./params.ts";
import { bracingTemplates } from "./templates.ts";

export type { Brace, BraceCrossing, BracingMeasures, Patch } from "./measure.ts";
export type { BracingParams } from "./numbers.ts";

export const bracing: Part<BracingParams, BracingMeasures> = {
  kind: "bracing",
  label: "Bracing",
  about: "The braces of top and back, with the bridge plate.",
  version: 1,
  migrations: [],
  params: bracingParams,
  reads: ["instrument", "fingerboard", "body", "bridge", "soundhole", "sides"],
  measure: measureBracing,
  measureNames: ["topLength", "backLength"],
  draw: drawBracing,
  summary: (_p, m) => {
    const count = (plate: "top" | "back"): number => m.braces.filter((brace) => brace.plate === plate).length;
    const braces = (n: number): string => (n === 1 ? "1 brace" : `${n} braces`);
    return [`${braces(count("top"))} under the top, ${braces(count("back"))} on the back.`];
  },
  templates: (_p, m, from) => bracingTemplates(m, from),
  inPlace: (_p, m) => bracingInPlace(m),
  materials: (_p, m) => bracingMaterials(m),
  checks: bracingChecks,
};
