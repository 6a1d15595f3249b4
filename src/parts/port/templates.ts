/** The port's patterns: the window that a router runs in, what fills it, the paper that is stuck round the side, and the ring inside. */
import type { Layer, Shape } from "../../drawing/drawing.ts";
import type { TemplateSource } from "../contract.ts";
import { centreLayer, endTexts, portShape } from "./draw.ts";
import type { PortMeasures } from "./measure.ts";
import type { PortParams } from "./numbers.ts";

type Row = NonNullable<TemplateSource["table"]>["rows"][number];

export function portTemplates(p: PortParams, m: PortMeasures): TemplateSource[] {
  const { flat, wrapped } = m;
  if (!flat || !wrapped) return [];
  const curve: Row[] = [
    ...(m.radius === undefined
      ? []
      : [{ label: m.bends === "in" ? "radius of the side, hollow" : "radius of the side", value: m.radius }]),
    { label: "gap under a flat template", value: m.gap },
    { label: "longer on the face, each end", value: m.misfit },
    { label: "from the neck", value: p.fromNeck },
    { label: "below the top's edge", value: p.fromTop },
  ];
  const words = (): Layer => ({ name: "labels", shapes: [], texts: endTexts(m, 3) });
  const drawing = (shapes: readonly Shape[]): TemplateSource["drawing"] => ({
    layers: [{ name: "outline", shapes }, centreLayer(m), words()],
    dimensions: [],
  });
  return [
    {
      name: "opening",
      title: "Inside template",
      lineIs:
        "edge of the opening on a flat template, seen from outside with the top up; back the side with the ring or a block before it is cut, and let the bit lean with the template, not with the side",
      drawing: drawing([portShape(m, flat)]),
      edge: "outline",
      table: { title: "On the side", rows: curve },
    },
    {
      name: "insert",
      title: p.fill === "insert" ? "Insert, the reverse of the template" : "Reverse of the template",
      lineIs: "edge of the piece that fills the opening, flat, seen from outside; it goes with the inside template",
      drawing: drawing([
        { ...portShape(m, flat), name: p.fill === "insert" ? "insert" : "reverse of the opening", tint: "wood" },
      ]),
      edge: "outline",
      ...(p.fill === "insert"
        ? {
            table: {
              title: "The insert",
              rows: [
                { label: "thickness, shaped", value: p.insertThickness },
                { label: "thickness of its blank, at least", value: m.insertBlank },
              ],
            },
          }
        : {}),
    },
    {
      name: "wrapped",
      title: "Outline to wrap round the side",
      lineIs:
        "edge of the opening along the bent face: cut from paper or thin plastic, stick it round the side and mark its edge",
      drawing: drawing([{ ...portShape(m, wrapped), name: "port, along the bent face", line: "visible" }]),
      edge: "outline",
      table: { title: "On the side", rows: curve },
    },
    ...(m.ringOuter && m.ringInner
      ? [
          {
            name: "ring",
            title: "Backing ring",
            lineIs:
              "edges of the ring along the inner face, flat, seen from outside; bend it, then glue it inside the side before the port is cut",
            drawing: drawing([
              {
                id: "outline",
                role: "cut",
                line: "visible",
                path: m.ringOuter,
                name: "backing ring",
                says: [{ label: "thickness", value: p.ringThickness, quantity: "length" }],
                tint: "wood",
              },
              { id: "ring-inner", role: "cut", line: "visible", path: m.ringInner, name: "opening of the ring", tint: "waste" },
              ...(m.inside && p.ringLip > 0
                ? [{ id: "port", role: "guide", line: "narrow", path: m.inside, name: "edge of the port" } as const]
                : []),
            ]),
            edge: "outline",
          },
        ]
      : []),
  ];
}
