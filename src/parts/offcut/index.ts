import { pathBounds } from "../../geometry/measure.ts";
import { ORIGIN } from "../../geometry/vec.ts";
import type { Check, Part } from "../contract.ts";
import { fine, GEOMETRY } from "../finding.ts";
import { drawOffcut } from "./draw.ts";
import { measureOffcut, type OffcutMeasures } from "./measure.ts";
import type { OffcutParams } from "./numbers.ts";
import { offcutParams } from "./params.ts";

export type { OffcutMeasures } from "./measure.ts";
export type { OffcutParams } from "./numbers.ts";

const whole: Check<OffcutParams, OffcutMeasures> = {
  id: "outline",
  title: "The outline is whole",
  limits: {},
  run: ({ m }) => {
    const [crossing] = m.crossings;
    if (m.outline && !crossing) return [fine("outline", "The outline of the wood crosses itself nowhere.", GEOMETRY, "outline")];
    return [
      {
        id: "outline",
        severity: "stop",
        says: m.outline ? "The outline of the wood crosses itself." : "The points of the wood span no area.",
        basis: GEOMETRY,
        mend: m.outline ? "Move the points so that no side crosses another." : "Set at least three points.",
        ...(crossing ? { at: crossing, shape: "outline" } : {}),
      },
    ];
  },
};

export const offcut: Part<OffcutParams, OffcutMeasures> = {
  kind: "offcut",
  label: "Offcut",
  about: "A piece of wood at hand, to lay blanks on before it is sawn: no part of the instrument.",
  version: 1,
  migrations: [],
  params: offcutParams,
  reads: [],
  measure: measureOffcut,
  draw: drawOffcut,
  summary: (p, m) => {
    const box = m.outline && pathBounds(m.outline);
    const name = p.note.trim() === "" ? "Wood" : p.note.trim();
    if (!box) return [`${name}, without an outline.`];
    return [
      `${name}, `,
      { value: box.maxX - box.minX, quantity: "length" },
      " by ",
      { value: box.maxY - box.minY, quantity: "length" },
      ", ",
      { value: m.thickness, quantity: "length" },
      " thick.",
    ];
  },
  templates: () => [],
  outlines: (p) =>
    p.source === "points"
      ? [
          {
            key: "outline",
            title: "Outline of the wood",
            origin: ORIGIN,
            mirrored: false,
            points: p.outline,
            before: [],
            after: [],
            guides: [],
          },
        ]
      : [],
  checks: [whole],
};
