/** The pickguard's patterns: the guard, its adhesive, and one to lay over what it must hide. */
import type { Shape } from "../../drawing/drawing.ts";
import type { TemplateSource } from "../contract.ts";
import { grainLayer, guardShape, oldLayer } from "./draw.ts";
import type { PickguardMeasures } from "./measure.ts";
import type { PickguardParams } from "./numbers.ts";

export function pickguardTemplates(p: PickguardParams, m: PickguardMeasures): TemplateSource[] {
  const { outline, adhesive, cover } = m;
  if (!outline) return [];
  const guard = guardShape(m, outline);
  const templates: TemplateSource[] = [
    {
      name: "outline",
      title: "Outline",
      lineIs: "edge of the finished guard, its show face up; cut outside the line and scrape to its middle",
      drawing: { layers: [{ name: "outline", shapes: [guard] }, grainLayer(p, m, outline)], dimensions: [] },
      edge: "outline",
    },
  ];
  if (adhesive) {
    const sheet: Shape = {
      ...guard,
      id: "adhesive",
      path: adhesive,
      name: "adhesive",
      says: [{ label: "inside the guard's edge by", value: p.adhesiveInset, quantity: "length" }],
    };
    const flush = p.adhesiveInset === 0;
    templates.push({
      name: "adhesive",
      title: "Adhesive",
      lineIs: flush
        ? "edge of guard and adhesive together: stick first, then trim both flush"
        : "edge of the adhesive sheet, seen from the show face; mirror it to cut from the sheet's back",
      drawing: {
        layers: [
          {
            name: "outline",
            shapes: [...(flush ? [] : [{ ...guard, role: "guide", line: "narrow", id: "guard" } as const]), sheet],
          },
        ],
        dimensions: [],
      },
      edge: "adhesive",
    });
  }
  if (cover)
    templates.push({
      name: "over-old",
      title: "New guard over the old",
      lineIs: "edge of the new guard, to be laid on the top over the old one or its scar before anything is cut",
      drawing: { layers: [{ name: "outline", shapes: [guard] }, oldLayer(m)], dimensions: [] },
      edge: "outline",
      table: {
        title: "What the new guard hides",
        rows:
          cover.margin >= 0
            ? [{ label: "covers the old by at least", value: cover.margin }]
            : cover.bare.map(({ out }, i) => ({ label: `place ${i + 1}: the old stands out by`, value: out })),
      },
    });
  return templates;
}
