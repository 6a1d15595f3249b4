/** The bracing's patterns: both plans, the bridge plate, the braces from the side, the domes' gauges. */
import type { Sources, TemplateSource } from "../contract.ts";
import { planLayers } from "./draw.ts";
import type { Brace, BracingMeasures } from "./measure.ts";
import { gaugeTemplate, profileTemplate } from "./profiles.ts";

export function bracingTemplates(m: BracingMeasures, from: Sources): TemplateSource[] {
  const body = from.get("body");
  if (!body?.outline) return [];
  const span = Math.max(body.greatestWidth, body.length);
  return [
    ...plan(m, from, "top"),
    ...plan(m, from, "back"),
    ...(m.bridgePlate
      ? [
          {
            name: "bridge-plate",
            title: "Bridge plate",
            lineIs:
              "edge of the plate, its glued face up, as seen from the front of the instrument; trim it to the braces that it meets",
            drawing: {
              layers: [
                {
                  name: "outline",
                  shapes: [
                    {
                      id: "outline",
                      role: "cut",
                      line: "visible",
                      path: m.bridgePlate.outline,
                      name: "bridge plate",
                      tint: "wood",
                    },
                    ...(from.get("bridge")?.host?.holes ?? []).map((path, i) => ({
                      id: `pin-${i + 1}`,
                      role: "mark" as const,
                      line: "narrow" as const,
                      path,
                      name: "pin",
                    })),
                  ],
                },
              ],
              dimensions: [],
            },
            edge: "outline",
            table: { title: "Bridge plate", rows: [{ label: "thickness", value: m.bridgePlate.thickness }] },
          } satisfies TemplateSource,
        ]
      : []),
    ...profileTemplate(m, "top"),
    ...profileTemplate(m, "back"),
    ...gaugeTemplate(m, "top", span),
    ...gaugeTemplate(m, "back", span),
  ];
}

const plan = (m: BracingMeasures, from: Sources, plate: Brace["plate"]): TemplateSource[] =>
  m.braces.some((brace) => brace.plate === plate)
    ? [
        {
          name: `${plate}-plan`,
          title: plate === "top" ? "Bracing on the inside of the top" : "Bracing on the inside of the back",
          lineIs: `edge of the body and the braces' glued faces, seen from inside, as the ${plate} lies on the bench with its inside face up; both sides are named on it`,
          drawing: { layers: planLayers(m, from, plate), dimensions: [] },
          edge: plate === "top" ? "outline" : "back-outline",
        },
      ]
    : [];
