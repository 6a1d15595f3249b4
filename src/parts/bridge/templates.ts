/** The bridge's patterns: its outline, one to set it by on the top, and the arch of its foot. */
import { arcOfRise } from "../../geometry/arc.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { line, segmentPath } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import type { TemplateSource } from "../contract.ts";
import { centreLayer, outlineLayer, pinLayer, saddleLayer } from "./draw.ts";
import type { BridgeMeasures } from "./measure.ts";
import type { BridgeParams } from "./numbers.ts";

export function bridgeTemplates(p: BridgeParams, m: BridgeMeasures): TemplateSource[] {
  if (!m.outline) return [];
  const box = pathBounds(m.outline);
  const templates: TemplateSource[] = [
    {
      name: "outline",
      title: "Bridge",
      lineIs: "edge of the bridge with its slot and pins, seen from above; cut outside the line",
      drawing: { layers: [outlineLayer(m), centreLayer(m.outline), saddleLayer(p, m), pinLayer(p, m)], dimensions: [] },
      edge: "outline",
      table: {
        title: "Behind the scale length",
        rows: m.strings.flatMap(({ string, setback }) =>
          setback === undefined ? [] : [{ label: `string ${string}`, value: setback }],
        ),
      },
    },
    {
      name: "locating",
      title: "Locating template",
      lineIs:
        "edge of the bridge on the top; lay the centre line on the top's and measure to the saddle line from the nut or fret 12",
      drawing: {
        layers: [
          outlineLayer(m),
          centreLayer(m.outline),
          {
            name: "saddle",
            shapes: [
              {
                id: "saddle-line",
                role: "mark",
                line: "narrow",
                path: segmentPath(vec(...m.saddle.ends[0]), vec(...m.saddle.ends[1])),
                name: "middle line of the saddle",
              },
              {
                id: "saddle-cross",
                role: "mark",
                line: "narrow",
                path: segmentPath(vec(m.saddleX - 3, 0), vec(m.saddleX + 3, 0)),
                name: "saddle on the centre line",
              },
            ],
          },
          pinLayer(p, m),
        ],
        dimensions: [],
      },
      edge: "outline",
      table: {
        title: "To the saddle on the centre line",
        rows: [
          { label: "from the nut", value: m.saddleX },
          { label: "from fret 12", value: m.fromFret12 },
          { label: "from the join", value: m.fromJoin },
        ],
      },
    },
  ];
  if (p.topRadius !== undefined) {
    const half = Math.min((box.maxY - box.minY) / 2, p.topRadius * 0.9);
    // Over half the span the top falls R - sqrt(R^2 - half^2).
    const fall = p.topRadius - Math.sqrt(p.topRadius ** 2 - half ** 2);
    const [left, right] = [vec(-half, -fall), vec(half, -fall)];
    const height = p.thickness;
    templates.push({
      name: "foot",
      title: "Arch of the foot",
      lineIs: "underside of the bridge across the top, seen from the tail; fit to the line",
      drawing: {
        layers: [
          {
            name: "outline",
            shapes: [
              {
                id: "outline",
                role: "cut",
                line: "visible",
                path: {
                  start: left,
                  segments: [arcOfRise(left, right, -fall), line(vec(half, height)), line(vec(-half, height)), line(left)],
                  closed: true,
                },
                name: "bridge from behind",
                says: [
                  { label: "radius of the top", value: p.topRadius, quantity: "length" },
                  { label: "fall at the wings", value: fall, quantity: "length" },
                ],
                tint: "wood",
              },
            ],
          },
        ],
        dimensions: [],
      },
      edge: "outline",
    });
  }
  return templates;
}
