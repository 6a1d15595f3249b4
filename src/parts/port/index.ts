import { flatten } from "../../geometry/flatten.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { polygon, polyline } from "../../geometry/path.ts";
import { ORIGIN, vec } from "../../geometry/vec.ts";
import { bentFace } from "../../lutherie/bent-face.ts";
import type { InPlace, Part, Sources } from "../contract.ts";
import { portChecks } from "./checks.ts";
import { drawPort } from "./draw.ts";
import { measurePort, type PortMeasures } from "./measure.ts";
import { seenSide } from "../seen-side.ts";
import { bentSideOf, instrumentOf, type PortParams } from "./numbers.ts";
import { portParams } from "./params.ts";
import { portTemplates } from "./templates.ts";

export type { PortMeasures } from "./measure.ts";
export type { PortParams } from "./numbers.ts";

export const port: Part<PortParams, PortMeasures> = {
  kind: "port",
  label: "Side port",
  about: "An opening in the side that lets the player hear more, on the side's own curve.",
  version: 1,
  migrations: [],
  params: portParams,
  reads: ["instrument", "body", "soundhole", "sides"],
  measure: measurePort,
  measureNames: ["radius", "length", "width", "lengthOnFace", "gap", "leanRad", "misfit", "insertBlank"],
  draw: drawPort,
  summary: (p, m) => [
    p.side === "bass" ? "In the bass side, " : "In the treble side, ",
    { value: m.length, quantity: "length" },
    " by ",
    { value: m.width, quantity: "length" },
    p.fill === "insert" ? ", pierced insert." : ", open.",
  ],
  templates: portTemplates,
  outlines: (p) =>
    p.shape === "free"
      ? [
          {
            key: "outline",
            title: "Outline of the port",
            origin: ORIGIN,
            turn: p.turn,
            mirrored: false,
            points: p.outline,
            before: [],
            after: [],
            guides: [],
          },
        ]
      : [],
  inPlace,
  materials: (p, m) => {
    const wood = { species: "rosewood-indian", sawn: "quartersawn", grain: 0, allowance: 2, planing: 0.5 } as const;
    return {
      blanks: [
        ...(p.fill === "insert" && m.flat
          ? [{ ...wood, name: "insert", title: "Insert of the side port", outline: m.flat, thickness: m.insertBlank }]
          : []),
        ...(m.ringOuter && m.ringInner
          ? [
              {
                ...wood,
                name: "ring",
                title: "Backing ring of the side port",
                outline: m.ringOuter,
                holes: [m.ringInner],
                thickness: p.ringThickness,
              },
            ]
          : []),
      ],
    };
  },
  checks: portChecks,
};

/** From the front the stretch of the side that it takes; from the side its outline as it is seen there. */
function inPlace(p: PortParams, m: PortMeasures, from: Sources): InPlace {
  const side = bentSideOf(p, from);
  if (!side || !m.wrapped) return {};
  const { minX, maxX } = pathBounds(m.wrapped);
  const face = bentFace(side.plan, side.at, Math.max(maxX, -minX) + 1);
  if (!face) return {};
  const points = flatten(m.wrapped, 0.02).map((at) => ({ at, plan: face.plan(side.sign * at.x) ?? face.at }));
  const inner = points.map(({ at, plan }) => ({ along: side.sign * at.x, plan })).toSorted((a, b) => a.along - b.along);
  const shape = { id: "port", role: "guide", line: "visible", name: "side port" } as const;
  const behind = p.side !== seenSide(instrumentOf(from));
  const front = inner.map(({ plan }) => vec(plan.x, side.sign * plan.y));
  return {
    plane: "body",
    front: {
      layers: [{ name: "port", shapes: [{ ...shape, path: polyline(front) }] }],
      dimensions: [],
    },
    side: {
      layers: [
        {
          name: "port",
          shapes: [
            {
              ...shape,
              ...(behind ? { line: "hidden" } : {}),
              path: polygon(points.map(({ at, plan }) => vec(plan.x, m.height + at.y))),
            },
          ],
        },
      ],
      dimensions: [],
    },
  };
}
