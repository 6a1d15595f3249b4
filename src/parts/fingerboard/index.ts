import type { Part, Words } from "../contract.ts";
import { fingerboardChecks } from "./checks.ts";
import { drawFingerboard } from "./draw.ts";
import { fingerboardMaterials } from "./materials.ts";
import { fingerboardInPlace } from "./in-place.ts";
import { measureFingerboard, type FingerboardMeasures } from "./measure.ts";
import type { FingerboardParams } from "./numbers.ts";
import { fingerboardBalances, fingerboardParams } from "./params.ts";
import { fingerboardTemplates } from "./templates.ts";

export type { FingerboardFret, FingerboardMeasures } from "./measure.ts";
export type { FingerboardParams } from "./numbers.ts";

export const fingerboard: Part<FingerboardParams, FingerboardMeasures> = {
  kind: "fingerboard",
  label: "Fingerboard",
  about: "The board under the strings, with its frets, binding and markers.",
  version: 1,
  migrations: [],
  params: fingerboardParams,
  balances: fingerboardBalances,
  reads: ["instrument"],
  measure: measureFingerboard,
  measureNames: [
    "boundWidthAtNut",
    "boundWidthAtEnd",
    "blankWidthAtNut",
    "blankWidthAtEnd",
    "startX",
    "endX",
    "edgeHeightAtNut",
    "edgeHeightAtEnd",
    "bindingHeightAtNut",
    "bindingHeightAtEnd",
    "wireLength",
  ],
  draw: drawFingerboard,
  summary,
  templates: fingerboardTemplates,
  materials: fingerboardMaterials,
  inPlace: fingerboardInPlace,
  checks: fingerboardChecks,
};

function summary(p: FingerboardParams, m: FingerboardMeasures): Words {
  const count = m.frets.length - 1;
  const frets = `${count === 0 ? "No frets" : count === 1 ? "1 fret" : `${count} frets`}, ${m.bindingThickness > 0 ? "bound" : "unbound"}, `;
  if (p.radius === undefined) return [`${frets}flat.`];
  const radius = { value: p.radius, quantity: "length" } as const;
  return p.radiusAtEnd === undefined
    ? [frets, radius, " radius."]
    : [frets, radius, " to ", { value: p.radiusAtEnd, quantity: "length" }, " radius."];
}
