import type { Part } from "../contract.ts";
import { sidesChecks } from "./checks.ts";
import { drawSides, sidesInPlace } from "./draw.ts";
import { sidesMaterials } from "./materials.ts";
import { measureSides, type SidesMeasures } from "./measure.ts";
import type { SidesParams } from "./numbers.ts";
import { sidesParams } from "./params.ts";
import { sidesTemplates } from "./templates.ts";

export type { Horn, SideMark, SidePiece, SidesMeasures } from "./measure.ts";
export type { SidesParams } from "./numbers.ts";

export const sides: Part<SidesParams, SidesMeasures> = {
  kind: "sides",
  label: "Sides",
  about: "The bent sides, laid flat: their curved edges, linings and blocks.",
  version: 1,
  migrations: [],
  params: sidesParams,
  reads: ["instrument", "neck", "body"],
  measure: measureSides,
  measureNames: ["thickness", "trebleLength", "bassLength", "leastDepth", "greatestDepth"],
  draw: drawSides,
  summary: (p, m) =>
    m.pieces.length === 0
      ? ["No body to follow."]
      : [
          { value: p.depthNeck, quantity: "length" },
          " to ",
          { value: p.depthTail, quantity: "length" },
          " deep, ",
          { value: m.trebleLength, quantity: "length" },
          m.trebleLength === m.bassLength ? " long each." : " long on the treble side.",
        ],
  templates: sidesTemplates,
  inPlace: (_p, m) => sidesInPlace(m),
  materials: (_p, m) => sidesMaterials(m),
  checks: sidesChecks,
};
