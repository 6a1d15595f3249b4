import { segmentPath } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import type { Part } from "../contract.ts";
import { bodyChecks } from "./checks.ts";
import { bodyInPlace, drawBody } from "./draw.ts";
import { bodyMaterials } from "./materials.ts";
import { measureBody, type BodyMeasures } from "./measure.ts";
import type { BodyParams } from "./numbers.ts";
import { bodyParams } from "./params.ts";
import { bodyTemplates } from "./templates.ts";

export type { BodyHalf, BodyLevel, BodyMeasures, Ledge } from "./measure.ts";
export type { BodyParams } from "./numbers.ts";

export const body: Part<BodyParams, BodyMeasures> = {
  kind: "body",
  label: "Body",
  about: "The outline of top and back, with the binding round its edge.",
  version: 1,
  migrations: [],
  params: bodyParams,
  reads: ["instrument", "fingerboard"],
  measure: measureBody,
  measureNames: ["joinX", "tailX", "greatestWidth", "perimeter", "trebleSide", "bassSide", "riseAtScale", "bindingThickness"],
  draw: drawBody,
  summary: (p, m) => [
    p.build === "solid" ? "Solid, " : `Hollow, ${p.outlineBy === "measures" ? cutawayWords(p) : ""}`,
    { value: m.length, quantity: "length" },
    " long, ",
    { value: m.greatestWidth, quantity: "length" },
    " across.",
  ],
  templates: bodyTemplates,
  outlines: (p, m) =>
    p.outlineBy === "points"
      ? [
          {
            key: "outline",
            title: "Outline of the body",
            origin: vec(m.joinX, 0),
            mirrored: p.mirrored,
            mirrorKey: "mirrored",
            points: p.outline,
            before: [],
            after: [],
            guides: [segmentPath(vec(0, 0), vec(p.length, 0))],
          },
        ]
      : [],
  inPlace: bodyInPlace,
  materials: (_p, m) => bodyMaterials(m),
  checks: bodyChecks,
};

function cutawayWords({ cutaway, bassCutaway }: BodyParams): string {
  if (cutaway === "none") return bassCutaway === "none" ? "" : `${bassCutaway} cutaway on the bass side, `;
  if (bassCutaway === "none") return `${cutaway} cutaway, `;
  return cutaway === bassCutaway ? `two ${cutaway} cutaways, ` : `${cutaway} cutaway, on the bass side ${bassCutaway}, `;
}
