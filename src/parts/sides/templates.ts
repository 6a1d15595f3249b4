/** The sides' patterns: each piece laid flat, the block at the point of a horn, the end graft. */
import { circle, line, polygon, segmentPath } from "../../geometry/path.ts";
import type { Shape } from "../../drawing/drawing.ts";
import { add, scale, unit, vec } from "../../geometry/vec.ts";
import { mitreOf } from "../../lutherie/mitre.ts";
import type { Sources, TemplateSource } from "../contract.ts";
import { mitreLayer, type PlacedMitre } from "../mitre-mark.ts";
import type { Horn, SidesMeasures } from "./measure.ts";
import { hollowOf, type SidesParams } from "./numbers.ts";
import { flatShapes, flatSide } from "./unrolled.ts";

export function sidesTemplates(p: SidesParams, m: SidesMeasures, from: Sources): TemplateSource[] {
  return [
    ...m.pieces.map((piece): TemplateSource => {
      const flat = flatSide(m, piece);
      const { shapes, texts } = flatShapes(p, flat);
      return {
        name: `side-${piece.id}`,
        title: capital(piece.name),
        lineIs: `edge of the side laid flat, ${p.face === "outer" ? "along its outer face" : "along the middle of its wood"}; the printed face is the show face`,
        drawing: { layers: [{ name: "side", shapes, texts }], dimensions: [] },
        edge: "outline",
        table: {
          title: "Along from its end at the tail, and depth there",
          rows: [
            ...piece.marks.flatMap((mark) => [
              { label: `${mark.name}, along`, value: mark.along },
              { label: `${mark.name}, depth`, value: mark.depth },
            ]),
            { label: "lining, between the blocks", value: piece.lining },
          ],
        },
      };
    }),
    ...m.horns
      .map((horn, i) => accentTemplate(p, m, horn, m.horns.length > 1 ? i + 1 : undefined))
      .filter((one) => one !== undefined),
    ...graftTemplate(p, m, from),
  ];
}

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** The block at the point of a horn in plan: it shows along both sides and is held between their mitred ends. */
function accentTemplate(p: SidesParams, m: SidesMeasures, horn: Horn, nth: number | undefined): TemplateSource | undefined {
  if (!(p.accent > 0)) return undefined;
  const [a, b] = horn.along;
  // The ends of the sides are cut along the bisector, as far in as the sides are thick.
  const inwards = unit(add(a, b));
  const deep = m.thickness / Math.sin(horn.angleRad / 2);
  const [p1, p2] = [add(horn.at, scale(a, p.accent)), add(horn.at, scale(b, p.accent))];
  return {
    name: nth === undefined ? "accent-block" : `accent-block-${nth}`,
    title: "Accent block at the horn's point",
    lineIs: "section of the block, seen from the front; the sides' ends lie against its two flanks",
    drawing: {
      layers: [
        {
          name: "outline",
          shapes: [
            {
              id: "outline",
              role: "cut",
              line: "visible",
              path: polygon([horn.at, p1, add(p1, scale(inwards, deep)), add(p2, scale(inwards, deep)), p2]),
              name: "accent block",
              says: [
                { label: "point", value: horn.angleRad, quantity: "angle" },
                { label: "height", value: horn.depth, quantity: "length" },
              ],
              tint: "wood",
            },
          ],
        },
      ],
      dimensions: [],
    },
    edge: "outline",
    table: {
      title: "Accent block",
      rows: [
        { label: "height, with some to spare", value: horn.depth },
        { label: "shows along each side", value: p.accent },
        { label: "flank against a side's end", value: deep },
      ],
    },
  };
}

/** The wedge at the tail from behind: top's edge up, its purfling, the hole. */
function graftTemplate(p: SidesParams, m: SidesMeasures, from: Sources): TemplateSource[] {
  if (p.graft === "none" || m.pieces.length === 0) return [];
  const [top, bottom] = [p.graftTop / 2, p.graftBottom / 2];
  const strip = p.graftPurfling;
  const low = -m.depthTail;
  const shapes: Shape[] = [
    {
      id: "outline",
      role: "cut",
      line: "visible",
      path: polygon([vec(-bottom, low), vec(bottom, low), vec(top, 0), vec(-top, 0)]),
      name: "end graft",
      tint: "wood",
    },
    {
      id: "centre-line",
      role: "centre",
      line: "centre",
      path: segmentPath(vec(0, low - 8), vec(0, 8)),
      name: "middle of the tail",
    },
  ];
  if (strip > 0)
    shapes.push({
      id: "channel",
      role: "guide",
      line: "narrow",
      path: {
        start: vec(-bottom - strip, low),
        segments: [
          line(vec(bottom + strip, low)),
          line(vec(top + strip, 0)),
          line(vec(-top - strip, 0)),
          line(vec(-bottom - strip, low)),
        ],
        closed: true,
      },
      name: "cut in the sides for graft and purfling",
    });
  if (m.endHole)
    shapes.push({
      id: "end-hole",
      role: "drill",
      line: "visible",
      path: circle(vec(0, m.endHole.height), m.endHole.diameter / 2),
      name: "hole at the tail",
    });
  return [
    {
      name: "end-graft",
      title: "End graft",
      lineIs: "the graft itself, seen from behind with the top up; leave it long below and drive it in from the top",
      drawing: {
        layers: [{ name: "outline", shapes }, ...mitreLayer(strip > 0 ? graftMitres(p, m, from) : [])],
        dimensions: [],
      },
      edge: "outline",
    },
  ];
}

/** Where the graft's purfling meets the inmost layer round the top, and that round the back. */
function graftMitres(p: SidesParams, m: SidesMeasures, from: Sources): PlacedMitre[] {
  const body = hollowOf(from);
  const [top, bottom] = [p.graftTop / 2, p.graftBottom / 2];
  // Beside a graft that narrows, its purfling opens by the taper against the square corner at the top, and closes at the back.
  const taper = Math.atan2(top - bottom, m.depthTail);
  const both = [
    { id: "mitre", plate: "top", layer: body?.topLedges.at(-1), at: vec(top, 0), corner: Math.PI / 2 + taper, down: -1 },
    {
      id: "mitre-back",
      plate: "back",
      layer: body?.backLedges.at(-1),
      at: vec(bottom, -m.depthTail),
      corner: Math.PI / 2 - taper,
      down: 1,
    },
  ];
  return both.flatMap(({ id, plate, layer, at, corner, down }): PlacedMitre[] => {
    if (!layer) return [];
    const mitre = mitreOf(p.graftPurfling, layer.thickness, corner);
    return [
      {
        id,
        name: `mitre of the graft's purfling with the ${layer.name} round the ${plate}`,
        at,
        way: vec(Math.cos(mitre.second), down * Math.sin(mitre.second)),
        mitre,
        edges: ["graft", plate],
        inside: true,
      },
    ];
  });
}
