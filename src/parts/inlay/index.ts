import { ORIGIN } from "../../geometry/vec.ts";
import type { Part, PartKind, Words } from "../contract.ts";
import { cuttingChecks } from "./checks-cutting.ts";
import { placeChecks } from "./checks-place.ts";
import { drawInlay, inlayOnHost } from "./draw.ts";
import { inlayMaterials } from "./materials.ts";
import { measureInlay, type InlayMeasures } from "./measure.ts";
import type { InlayParams } from "./numbers.ts";
import { inlayParams } from "./params.ts";
import { inlayTemplates } from "./templates.ts";
import { inlayWork } from "./work.ts";

export type { InlayMeasures } from "./measure.ts";
export type { InlayParams } from "./numbers.ts";

export const inlay: Part<InlayParams, InlayMeasures> = {
  kind: "inlay",
  label: "Inlay",
  about: "Letters, rings and ornaments let into a part: the pocket, the piece that fills it, and whether your bits can cut them.",
  version: 1,
  migrations: [],
  params: inlayParams,
  reads: ["instrument", "fingerboard", "headstock", "bridge", "pickguard" as PartKind, "shape"],
  measure: measureInlay,
  measureNames: ["pocketCutter", "pieceCutter", "width", "height"],
  draw: drawInlay,
  summary: summaryOf,
  templates: inlayTemplates,
  outlines: (p) =>
    p.beside === "drawn"
      ? [
          {
            key: "outline",
            title: "Outline beside the letters",
            origin: ORIGIN,
            mirrored: false,
            points: p.outline,
            before: [],
            after: [],
            guides: [],
          },
        ]
      : [],
  onHost: inlayOnHost,
  works: [inlayWork],
  materials: inlayMaterials,
  checks: [...cuttingChecks, ...placeChecks],
};

const METHOD_WORDS = { machine: ", cut by machine.", bush: ", cut along templates.", knife: ", cut by knife." };

function summaryOf(p: InlayParams, m: InlayMeasures): Words {
  const what = p.text.trim() === "" ? "Figures" : `“${p.text.trim().slice(0, 30).trimEnd()}”`;
  const where = m.hasHost && p.on !== "none" ? ` in the ${p.on === "shape" ? "free shape" : p.on}` : "";
  if (m.width === 0) return [`${what}${where}.`];
  return [
    `${what}${where}, `,
    { value: m.width, quantity: "length" },
    " by ",
    { value: m.height, quantity: "length" },
    METHOD_WORDS[p.method],
  ];
}
