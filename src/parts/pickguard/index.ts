import type { Part } from "../contract.ts";
import { pickguardChecks } from "./checks.ts";
import { drawPickguard, guardShape } from "./draw.ts";
import { measurePickguard, type PickguardMeasures } from "./measure.ts";
import type { PickguardParams } from "./numbers.ts";
import { pickguardParams } from "./params.ts";
import { pickguardTemplates } from "./templates.ts";
import { woodSpecies } from "../../lutherie/wood-species.ts";

export type { PickguardMeasures } from "./measure.ts";
export type { PickguardParams } from "./numbers.ts";

export const pickguard: Part<PickguardParams, PickguardMeasures> = {
  kind: "pickguard",
  label: "Pickguard",
  about: "The thin plate beside the soundhole that takes what the hand would do to the top.",
  version: 1,
  migrations: [],
  params: pickguardParams,
  reads: ["instrument", "fingerboard", "body", "bridge", "soundhole"],
  measure: measurePickguard,
  measureNames: ["length", "width", "perimeter"],
  draw: drawPickguard,
  summary: (_p, m) => {
    if (!m.outline) return ["No outline yet."];
    const words = ["", { value: m.thickness, quantity: "length" as const }, ` thick, ${grams(m.massG)}`];
    return m.cover && m.cover.margin < 0 ? [...words, ". Does not hide the old one."] : [...words, "."];
  },
  templates: pickguardTemplates,
  outlines: (p, m) => [
    {
      key: "outline",
      title: "Outline of the pickguard",
      origin: m.origin,
      mirrored: false,
      points: p.outline,
      before: [],
      after: [],
      guides: [],
    },
    ...(p.old === "points"
      ? [
          {
            key: "oldOutline",
            title: "Outline of the old one",
            origin: m.origin,
            mirrored: false,
            points: p.oldOutline,
            before: [],
            after: [],
            guides: [],
          },
        ]
      : []),
  ],
  inPlace: (_p, m) => ({
    front: {
      layers: [{ name: "pickguard", shapes: m.outline ? [{ ...guardShape(m, m.outline), id: "pickguard" }] : [] }],
      dimensions: [],
    },
  }),
  materials: (p, m) => ({
    blanks: m.outline
      ? [
          {
            name: "pickguard",
            title: "Pickguard",
            outline: m.outline,
            thickness: m.thickness,
            ...(woodSpecies(p.material)
              ? { species: p.material, sawn: "quartersawn" as const }
              : { material: p.material === "plastic" ? "sheet plastic" : "sheet" }),
            grain: p.grain,
            allowance: 3,
            planing: 0.3,
          },
        ]
      : [],
    joints: m.outline
      ? [
          {
            name: "guard-on-top",
            title: "Pickguard on the top",
            blank: "pickguard",
            on: { kind: "body", blank: "top" },
            along: m.length,
            across: m.width,
          },
        ]
      : [],
  }),
  checks: pickguardChecks,
};

/** Grams with as many places as tell one guard from another. */
const grams = (massG: number): string => `${massG < 10 ? massG.toFixed(1) : massG.toFixed(0)} g`;
