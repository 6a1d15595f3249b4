import type { Limits, Part, Words } from "../contract.ts";
import { neckChecks } from "./checks.ts";
import { shapeWord } from "./checks-shape.ts";
import { drawNeck } from "./draw.ts";
import { neckMaterials } from "./materials.ts";
import { neckInPlace } from "./in-place.ts";
import { measureNeck, type NeckMeasures } from "./measure.ts";
import type { NeckParams } from "./numbers.ts";
import { neckOutlines } from "./outlines.ts";
import { neckBalances, neckParams } from "./params.ts";
import { neckTemplates } from "./templates.ts";
import { leastBehind } from "./stops.ts";

export type { NeckMeasures } from "./measure.ts";
export type { NeckParams } from "./numbers.ts";

export const neck: Part<NeckParams, NeckMeasures> = {
  kind: "neck",
  label: "Neck",
  about: "The wood under the board: its section, truss rod and bars, heel and joint, and the heights from board to saddle.",
  version: 1,
  migrations: [],
  params: neckParams,
  balances: neckBalances,
  reads: ["instrument", "fingerboard", "nut", "body"],
  measure: measureNeck,
  measureNames: [
    "depthAtNut",
    "depthAtJoin",
    "leastWood",
    "nutX",
    "headX",
    "joinX",
    "tiltRad",
    "headWood",
    "heelFrom",
    "heelFootX",
    "heelUndercut",
    "resetAtFoot",
    "tongueWidth",
    "tongueLength",
    "tongueDepth",
    "scarfCutFace",
    "scarfLayout",
    "scarfFromNut",
    "pitchRad",
    "saddleX",
    "fretPlaneAtBridge",
    "stringsOverTop",
    "extensionGap",
  ],
  draw: drawNeck,
  summary,
  templates: neckTemplates,
  outlines: neckOutlines,
  materials: neckMaterials,
  inPlace: neckInPlace,
  checks: neckChecks,
};

function summary(p: NeckParams, m: NeckMeasures, limits: Limits): Words {
  const length = (value: number) => ({ value, quantity: "length" as const });
  const head = [`${shapeWord(p.firstFullness)}, `, length(p.firstDepth), " to ", length(p.secondDepth), " deep with the board"];
  if (m.leastWood === undefined) return [...head, ", no channels."];
  if (m.leastWood <= 0) return [...head, ". A channel breaks through the back."];
  return [...head, m.leastWood < leastBehind(limits) ? ". Only " : ", ", length(m.leastWood), " of wood behind the channels."];
}
