/** The head's patterns: its outline with the holes to drill, the headplate, the cover, the scarf from the side. */
import type { Dimension } from "../../drawing/drawing.ts";
import { polygon } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import type { TemplateSource } from "../contract.ts";
import { centreLayer, holeShapes, outlineLayer, platePath, pocketPath, slotShapes, stringLayer } from "./draw.ts";
import type { HeadstockMeasures } from "./measure.ts";
import type { HeadstockParams } from "./numbers.ts";

export function headstockTemplates(p: HeadstockParams, m: HeadstockMeasures): TemplateSource[] {
  if (!m.outline) return [];
  const slotted = p.rows === "slotted";
  const plate = platePath(p, m);
  const templates: TemplateSource[] = [
    {
      name: "outline",
      title: "Headstock",
      lineIs: "edge of the finished head, in the plane of its face; the straight end lies against the nut",
      drawing: { layers: [outlineLayer(m), centreLayer(m)], dimensions: [] },
      edge: "outline",
      grain: "along-x",
    },
    {
      name: "drilling",
      title: slotted ? "Slots and rollers" : "Drilling pattern",
      lineIs: slotted
        ? "edges of the slots, and where the rollers cross them"
        : "middle of every hole; prick the crosses through, then drill square to the face",
      drawing: {
        layers: [
          outlineLayer(m),
          centreLayer(m),
          { name: "tuners", shapes: slotted ? slotShapes(p, m) : m.tuners.flatMap((tuner) => holeShapes(p, m, tuner)) },
          stringLayer(m),
        ],
        dimensions: [],
      },
      edge: "outline",
      table: {
        title: "From the nut's back along the head",
        rows: m.tuners.map(({ string, at }) => ({ label: `string ${string}`, value: m.startX - at.x })),
      },
    },
  ];
  if (plate)
    templates.push({
      name: "headplate",
      title: "Headplate",
      lineIs: "edge of the headplate; leave the end at the nut over-long",
      drawing: {
        layers: [
          {
            name: "outline",
            shapes: [{ id: "outline", role: "cut", line: "visible", path: plate, name: "headplate", tint: "wood" }],
          },
          centreLayer(m),
        ],
        dimensions: [],
      },
      edge: "outline",
      grain: "along-x",
    });
  if (p.rodPocket)
    templates.push({
      name: "rod-cover",
      title: "Cover over the rod",
      lineIs: "edge of the cover; the inner line is the pocket under it",
      drawing: {
        layers: [
          {
            name: "outline",
            shapes: [
              {
                id: "outline",
                role: "cut",
                line: "visible",
                path: pocketPath(p, m, p.coverMargin),
                name: "cover",
                tint: "wood",
              },
              { id: "rod-pocket", role: "pocket", line: "hidden", path: pocketPath(p, m, 0), name: "pocket for the rod" },
            ],
          },
        ],
        dimensions: [],
      },
      edge: "outline",
    });
  if (m.scarfCutFace !== undefined && m.scarfLayout !== undefined)
    templates.push(scarfSide(p.blankThickness, m.scarfLayout, m.scarfCutFace));
  return templates;
}

/** The blank from the side with the sawn scarf: both lengths named, since one is easily taken for the other. */
function scarfSide(thickness: number, layout: number, cutFace: number): TemplateSource {
  const body = 40;
  const tilt = Math.atan2(thickness, layout);
  const length = (
    id: string,
    from: ReturnType<typeof vec>,
    to: ReturnType<typeof vec>,
    offset: number,
    value: number,
    after: string,
  ): Dimension => ({
    id,
    from,
    to,
    along: "straight",
    offset,
    value,
    quantity: "length",
    after,
    rank: 1,
  });
  return {
    name: "scarf",
    title: "Scarf, from the side",
    lineIs: "edge of the blank and the saw cut; mark the layout on the face, plane the cut face",
    drawing: {
      layers: [
        {
          name: "outline",
          shapes: [
            {
              id: "outline",
              role: "cut",
              line: "visible",
              path: polygon([vec(0, 0), vec(layout + body, 0), vec(layout + body, thickness), vec(layout, thickness)]),
              name: "blank with its scarf",
              says: [
                { label: "cut face", value: cutFace, quantity: "length" },
                { label: "layout on the blank's face", value: layout, quantity: "length" },
              ],
              tint: "wood",
            },
          ],
          texts: [
            { id: "layout-word", at: vec(layout / 2, -5), text: "layout, on this face", height: 2.5, align: "middle" },
            {
              id: "cut-face-word",
              at: vec(layout / 2 - 3 * Math.sin(tilt), thickness / 2 + 3 * Math.cos(tilt)),
              text: "cut face",
              height: 2.5,
              align: "middle",
              angle: tilt,
            },
          ],
        },
      ],
      dimensions: [
        length("layout", vec(0, 0), vec(layout, 0), -10, layout, "layout on the blank's face"),
        length("cut-face", vec(0, 0), vec(layout, thickness), 8, cutFace, "cut face"),
      ],
    },
    edge: "outline",
    table: {
      title: "Scarf",
      rows: [
        { label: "layout on the blank's face", value: layout },
        { label: "cut face", value: cutFace },
      ],
    },
  };
}
