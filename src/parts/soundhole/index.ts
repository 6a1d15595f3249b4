import { segmentPath } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import type { Part } from "../contract.ts";
import { soundholeChecks } from "./checks.ts";
import { drawSoundhole, holeShape, ringShape } from "./draw.ts";
import { measureSoundhole, type SoundholeMeasures } from "./measure.ts";
import type { SoundholeParams } from "./numbers.ts";
import { soundholeParams } from "./params.ts";
import { soundholeTemplates } from "./templates.ts";

export type { RingMeasure, SoundholeMeasures } from "./measure.ts";
export type { SoundholeParams } from "./numbers.ts";

export const soundhole: Part<SoundholeParams, SoundholeMeasures> = {
  kind: "soundhole",
  label: "Soundhole",
  about: "The hole in the top, and the rings of the rosette round it.",
  version: 1,
  migrations: [],
  params: soundholeParams,
  balances: [{ members: ["middle", "fromBoard", "fromBridge"], given: 1, yields: ["middle", "fromBoard", "fromBridge"] }],
  reads: ["instrument", "fingerboard", "body", "bridge"],
  measure: measureSoundhole,
  measureNames: ["middleX", "middleY", "frontX", "backX", "length", "width", "perimeter", "toBoard", "toBridge", "underBoard"],
  draw: drawSoundhole,
  summary: (p, m) => [
    p.shape === "round" ? "Round, " : p.shape === "oval" ? "Oval, " : "Drawn, ",
    { value: m.length, quantity: "length" },
    ...(p.shape === "round" ? [] : [" by ", { value: m.width, quantity: "length" } as const]),
    m.rings.length === 0 ? ", no rosette." : m.rings.length === 1 ? ", one ring." : `, ${m.rings.length} rings.`,
  ],
  templates: soundholeTemplates,
  outlines: (p, m) =>
    p.shape === "free"
      ? [
          {
            key: "outline",
            title: "Outline of the soundhole",
            origin: vec(m.middleX, m.middleY),
            mirrored: p.mirrored,
            mirrorKey: "mirrored",
            points: p.outline,
            before: [],
            after: [],
            guides: [segmentPath(vec(-200, 0), vec(200, 0))],
          },
        ]
      : [],
  inPlace: (_p, m) => ({
    front: {
      layers: [
        {
          name: "soundhole",
          shapes: [
            ...m.rings.flatMap((ring) => ringShape(ring, "guide", "narrow")),
            ...(m.outline ? [holeShape(m, m.outline)] : []),
          ],
        },
      ],
      dimensions: [],
    },
  }),
  materials: (_p, m) => ({
    blanks: [],
    strips: m.rings
      .filter(({ length }) => length > 0)
      .map(({ id, name, length, width, depth }) => ({
        name: id,
        title: `Rosette, ${name}`,
        lengths: [length],
        spare: 20,
        width,
        height: depth,
      })),
  }),
  checks: soundholeChecks,
};
