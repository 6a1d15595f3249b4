/** The soundhole's patterns: the hole, the rosette's channels, and how a cutter on a pivot is set for each. */
import { circle } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import type { TemplateSource } from "../contract.ts";
import { centreLayer, holeShape, ringShape } from "./draw.ts";
import type { SoundholeMeasures } from "./measure.ts";
import type { SoundholeParams } from "./numbers.ts";

type Row = NonNullable<TemplateSource["table"]>["rows"][number];

/** The pin that a circle cutter turns about, mm; to be drilled to the maker's own. */
const PIN = 3;

export function soundholeTemplates(p: SoundholeParams, m: SoundholeMeasures): TemplateSource[] {
  const { outline, rosette } = m;
  if (!outline || !rosette) return [];
  const places: Row[] = [
    { label: "middle from the nut", value: m.middleX },
    { label: "end of the board to the hole", value: m.toBoard },
    { label: "hole to the bridge", value: m.toBridge },
    ...(p.aside === 0 ? [] : [{ label: "middle off the centre line", value: Math.abs(p.aside) }]),
  ];
  const hole: TemplateSource = {
    name: "hole",
    title: "Hole",
    lineIs: "edge of the open hole, on the outer face of the top; cut inside the line",
    drawing: { layers: [{ name: "hole", shapes: [holeShape(m, outline)] }, centreLayer(m, outline)], dimensions: [] },
    edge: "hole",
    table: { title: "Where it lies", rows: places },
  };
  if (m.rings.every(({ inner, outer }) => !inner || !outer)) return [hole];
  const rows = m.rings.flatMap(({ name, innerRadius, outerRadius, distance, width, depth }): Row[] => [
    ...(innerRadius === undefined || outerRadius === undefined
      ? [
          { label: `${name}: from the hole`, value: distance },
          { label: `${name}: width`, value: width },
        ]
      : [
          { label: `${name}: inner radius`, value: innerRadius },
          { label: `${name}: outer radius`, value: outerRadius },
        ]),
    { label: `${name}: depth`, value: depth },
  ]);
  return [
    hole,
    {
      name: "rosette",
      title: "Rosette channels",
      lineIs:
        "edges of the channels in the top, on its outer face; cut them before the hole, while the middle still holds the pin",
      drawing: {
        layers: [
          { name: "rosette", shapes: m.rings.flatMap((ring) => ringShape(ring, "pocket", "visible")) },
          {
            name: "hole",
            shapes: [
              { ...holeShape(m, outline), role: "guide", line: "narrow" },
              ...(p.shape === "round"
                ? [
                    {
                      id: "pivot",
                      role: "drill",
                      line: "visible",
                      path: circle(vec(m.middleX, m.middleY), PIN / 2),
                      name: "pin of the circle cutter",
                      says: [{ label: "diameter", value: PIN, quantity: "length" }],
                    } as const,
                  ]
                : []),
            ],
          },
          centreLayer(m, rosette),
        ],
        dimensions: [],
      },
      table: { title: p.shape === "round" ? "Radii from the pin, and depths" : "Lines round the hole, and depths", rows },
    },
  ];
}
