import { vec } from "../../geometry/vec.ts";
import { segmentPath } from "../../geometry/path.ts";
import type { Part } from "../contract.ts";
import { headstockChecks } from "./checks.ts";
import { drawHeadstock } from "./draw.ts";
import { headstockInPlace } from "./in-place.ts";
import { headstockMaterials } from "./materials.ts";
import { cornersOf, measureHeadstock, type HeadstockMeasures } from "./measure.ts";
import type { HeadstockParams } from "./numbers.ts";
import { headstockParams } from "./params.ts";
import { headstockTemplates } from "./templates.ts";

export type { HeadstockMeasures, HeadString, HeadTuner } from "./measure.ts";
export type { HeadstockParams } from "./numbers.ts";

export const headstock: Part<HeadstockParams, HeadstockMeasures> = {
  kind: "headstock",
  label: "Headstock",
  about: "The head with its tuners, seen square to its face.",
  version: 1,
  migrations: [],
  params: headstockParams,
  reads: ["instrument", "fingerboard", "nut", "neck"],
  measure: measureHeadstock,
  measureNames: ["startX", "topX", "greatestWidth", "scarfCutFace", "scarfLayout", "tiltRad"],
  draw: drawHeadstock,
  summary: (p, m) => [
    `${m.tuners.length} tuners, `,
    { value: m.startX - m.topX, quantity: "length" },
    " long, tilted ",
    { value: p.tilt, quantity: "angle" },
    ".",
  ],
  templates: headstockTemplates,
  outlines: (p, m, from) => [
    {
      key: "outline",
      title: "Outline of the head",
      origin: vec(m.startX, 0),
      mirrored: p.mirrored,
      mirrorKey: "mirrored",
      points: p.outline,
      ...cornersOf(p, from),
      guides: m.strings.map((string) =>
        segmentPath(vec(string.from.x - m.startX, string.from.y), vec(string.to.x - m.startX, string.to.y)),
      ),
    },
  ],
  materials: (_p, m, from) => headstockMaterials(m, from),
  inPlace: headstockInPlace,
  checks: headstockChecks,
};
