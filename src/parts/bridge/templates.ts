/** The bridge's patterns: its outline, one to set it by on the top, and the arch of its foot. */
import type { Layer } from "../../drawing/drawing.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { arc, line, segmentPath, type Segment } from "../../geometry/path.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import type { TemplateSource } from "../contract.ts";
import { centreLayer, footLayer, outlineLayer, pinLayer, saddleLayer } from "./draw.ts";
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
      grain: "along-y",
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
        layers: [outlineLayer(m), centreLayer(m.outline), saddleLine(m), footLayer(m), pinLayer(p, m)],
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
  if (p.type === "floating")
    templates.push({
      name: "feet",
      title: m.feet.length > 1 ? "Feet" : "Foot",
      lineIs: "edge of what stands on the top, seen from above; lay the cross on the centre line at the saddle's distance",
      drawing: {
        layers: [
          {
            name: "outline",
            shapes: m.feet.map((path, i) => ({
              id: i === 0 ? "outline" : `outline-${i + 1}`,
              role: "cut" as const,
              line: "visible" as const,
              path,
              name: m.feet.length > 1 ? `foot ${i + 1}` : "foot",
              tint: "wood" as const,
            })),
          },
          centreLayer(m.outline),
          saddleLine(m),
        ],
        dimensions: [],
      },
      edge: "outline",
    });
  const underside = undersideOf(p, box);
  if (underside) templates.push(underside);
  return templates;
}

/** Where the saddle's middle line runs, and where it crosses the centre line. */
const saddleLine = (m: BridgeMeasures): Layer => ({
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
});

/** The bridge, or the foot of a floating one, from behind: fitted to the arch of the top, open between its ends where it is. */
function undersideOf(p: BridgeParams, box: ReturnType<typeof pathBounds>): TemplateSource | undefined {
  const floating = p.type === "floating";
  const wanted = (floating ? p.footSpan : box.maxY - box.minY) / 2;
  const open = floating ? Math.min(p.footOpening, p.footSpan - 2) / 2 : 0;
  if (p.topRadius === undefined && open <= 0) return undefined;
  const radius = p.topRadius ?? Infinity;
  const half = Math.min(wanted, radius * 0.9);
  // At a distance x from its middle the top has fallen by R - sqrt(R^2 - x^2).
  const under = (x: number): Vec => vec(x, Number.isFinite(radius) ? Math.sqrt(radius ** 2 - x ** 2) - radius : 0);
  const along = (to: number): Segment => (Number.isFinite(radius) ? arc(under(to), vec(0, -radius), false) : line(under(to)));
  const height = p.thickness;
  const roof = Math.min(p.footOpeningHeight, height - 0.5);
  const bottom: Segment[] =
    open > 0 ? [along(-open), line(vec(-open, roof)), line(vec(open, roof)), line(under(open)), along(half)] : [along(half)];
  const left = under(-half);
  return {
    name: "foot",
    title: "Arch of the foot",
    lineIs: "underside across the top, seen from the tail; fit to the line",
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
                segments: [...bottom, line(vec(half, height)), line(vec(-half, height)), line(left)],
                closed: true,
              },
              name: floating ? "foot from behind" : "bridge from behind",
              says: [
                ...(p.topRadius === undefined
                  ? []
                  : [{ label: "radius of the top", value: p.topRadius, quantity: "length" } as const]),
                { label: "fall at the ends", value: -under(half).y, quantity: "length" },
              ],
              tint: "wood",
            },
          ],
        },
      ],
      dimensions: [],
    },
    edge: "outline",
  };
}
