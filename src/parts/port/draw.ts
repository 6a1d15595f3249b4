import type { Dimension, Drawing, Layer, Shape, Text } from "../../drawing/drawing.ts";
import { pathBounds, stationAt } from "../../geometry/measure.ts";
import { polygon, polyline, segmentPath, type Path } from "../../geometry/path.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { bentFace } from "../../lutherie/bent-face.ts";
import type { Sources } from "../contract.ts";
import type { PortMeasures } from "./measure.ts";
import { bentSideOf, type PortParams } from "./numbers.ts";

const ROW = 11;
/** Side that is drawn to either side of the port, mm. */
const ABOUT = 35;
const STEPS = 40;
const LABEL = 4;

export function drawPort(p: PortParams, m: PortMeasures, from: Sources): Drawing {
  if (!m.flat || !m.wrapped) return { layers: [], dimensions: [] };
  const side = sideEdges(p, m, from);
  const low = Math.min(side.low, pathBounds(m.ringOuter ?? m.wrapped).minY) - 32;
  const section = sectionAcross(p, m, from, low);
  return {
    layers: [
      { name: "side", shapes: side.shapes },
      ringLayer(m),
      { name: "outline", shapes: [portShape(m, m.flat), ...wrappedShapes(m)] },
      centreLayer(m),
      { name: "section", shapes: section.shapes },
      {
        name: "titles",
        shapes: [],
        texts: [...endTexts(m, side.high + 3), ...section.texts],
      },
    ],
    dimensions: [...dimensions(m, side), ...section.dimensions],
  };
}

export const portShape = (m: PortMeasures, path: Path): Shape => ({
  id: "outline",
  role: "cut",
  line: "visible",
  path,
  name: "port, on its flat template",
  says: [
    { label: "along the side, flat", value: m.length, quantity: "length" },
    { label: "along the side, on its face", value: m.lengthOnFace, quantity: "length" },
    { label: "across", value: m.width, quantity: "length" },
    ...(m.radius === undefined ? [] : [{ label: "radius of the side", value: m.radius, quantity: "length" } as const]),
  ],
  tint: "waste",
});

export const wrappedShapes = (m: PortMeasures): Shape[] =>
  m.wrapped
    ? [
        {
          id: "wrapped",
          role: "guide",
          line: "hidden",
          path: m.wrapped,
          name: "port as it lies on the bent face",
          says: [{ label: "beyond the flat outline at its ends", value: m.misfit, quantity: "length" }],
        },
      ]
    : [];

const ringLayer = (m: PortMeasures): Layer => ({
  name: "ring",
  shapes: m.ringOuter
    ? [
        {
          id: "ring",
          role: "guide",
          line: "narrow",
          path: m.ringOuter,
          ...(m.ringInner ? { holes: [m.ringInner] } : {}),
          name: "backing ring inside the side",
        },
      ]
    : [],
});

/** Both middle lines of the port. */
export function centreLayer(m: PortMeasures): Layer {
  const box = pathBounds(m.ringOuter ?? m.wrapped ?? m.flat!);
  const beyond = 6;
  const line = (id: string, a: Vec, b: Vec, name: string): Shape => ({
    id,
    role: "centre",
    line: "centre",
    path: segmentPath(a, b),
    name,
  });
  return {
    name: "centre",
    shapes: [
      line("centre-line", vec(box.minX - beyond, 0), vec(box.maxX + beyond, 0), "middle line along the side"),
      line("centre-across", vec(0, box.minY - beyond), vec(0, box.maxY + beyond), "middle line across the side"),
    ],
  };
}

/** Where neck and tail are, as seen from outside with the top up. */
export function endTexts(m: PortMeasures, y: number): Text[] {
  const box = pathBounds(m.ringOuter ?? m.wrapped ?? m.flat!);
  const text = (id: string, at: Vec, words: string, align: Text["align"]): Text => ({
    id,
    at,
    text: words,
    height: 3,
    align,
  });
  return [
    text("left-end", vec(box.minX - 4, y), m.neckAtLeft ? "to the neck" : "to the tail", "end"),
    text("right-end", vec(box.maxX + 4, y), m.neckAtLeft ? "to the tail" : "to the neck", "start"),
  ];
}

interface Edges {
  readonly shapes: Shape[];
  readonly low: number;
  readonly high: number;
}

/** Edges and linings of the side about the port, laid flat. */
function sideEdges(p: PortParams, m: PortMeasures, from: Sources): Edges {
  const side = bentSideOf(p, from);
  const box = pathBounds(m.wrapped!);
  const reach = Math.max(box.maxX, -box.minX) + ABOUT;
  const at = side && stationAt(side.plan, side.at);
  if (!side || !at) return { shapes: [], low: box.minY, high: box.maxY };
  const middle = side.top(at.point) - p.fromTop;
  const places = Array.from({ length: STEPS + 1 }, (_, i) => -reach + (2 * reach * i) / STEPS).flatMap((x) => {
    const plan = stationAt(side.plan, side.at + side.sign * x)?.point;
    return plan ? [{ x, top: side.top(plan) - middle, back: side.back(plan) - middle }] : [];
  });
  const run = (id: string, name: string, line: Shape["line"], y: (place: (typeof places)[number]) => number): Shape => ({
    id,
    role: "guide",
    line,
    path: polyline(places.map((place) => vec(place.x, y(place)))),
    name,
  });
  return {
    shapes: [
      run("top-edge", "edge of the side at the top", "adjacent", ({ top }) => top),
      run("back-edge", "edge of the side at the back", "adjacent", ({ back }) => back),
      run("top-lining", "lining at the top, inside", "hidden", ({ top }) => top - side.lining),
      run("back-lining", "lining at the back, inside", "hidden", ({ back }) => back + side.lining),
    ],
    low: Math.min(...places.map(({ back }) => back)),
    high: Math.max(...places.map(({ top }) => top)),
  };
}

/** The side cut along the port's middle, with a flat template on it and the walls that are cut square to the template. */
function sectionAcross(
  p: PortParams,
  m: PortMeasures,
  from: Sources,
  low: number,
): { readonly shapes: Shape[]; readonly texts: Text[]; readonly dimensions: Dimension[] } {
  const side = bentSideOf(p, from);
  const flat = pathBounds(m.flat!);
  const reach = Math.max(flat.maxX, -flat.minX) + ABOUT;
  const outer = side && bentFace(side.plan, side.at, reach);
  const inner = side && bentFace(side.plan, side.at, reach, p.sideThickness);
  if (!side || !outer || !inner) return { shapes: [], texts: [], dimensions: [] };
  const { sign } = side;
  // A hollow side is touched at the template's ends.
  const rest = Math.min(0, ...[flat.minX, flat.maxX].map((x) => outer.place(sign * x)?.fall ?? 0));
  const at = (x: number, down: number): Vec => vec(x, low - down + rest);
  const from0 = Math.max(-reach, Math.min(sign * outer.from, sign * outer.to), Math.min(sign * inner.from, sign * inner.to));
  const to0 = Math.min(reach, Math.max(sign * outer.from, sign * outer.to), Math.max(sign * inner.from, sign * inner.to));
  const along = (face: typeof outer, thickness: number, a: number, b: number): Vec[] =>
    Array.from({ length: STEPS + 1 }, (_, i) => a + ((b - a) * i) / STEPS).map((x) =>
      at(x, (face.place(sign * x)?.fall ?? 0) + thickness),
    );
  const wood = (id: string, a: number, b: number): Shape[] =>
    b - a > 1
      ? [
          {
            id,
            role: "guide",
            line: "visible",
            path: polygon([...along(outer, 0, a, b), ...along(inner, p.sideThickness, a, b).toReversed()]),
            name: "side, cut along the middle of the port",
            says: [{ label: "leans against the face by", value: m.leanRad, quantity: "angle" }],
            tint: "wood",
          },
        ]
      : [];
  const plate = 6;
  const shapes: Shape[] = [
    ...wood("section-left", from0, flat.minX),
    ...wood("section-right", flat.maxX, to0),
    {
      id: "section-template",
      role: "guide",
      line: "narrow",
      path: polygon([vec(-reach, low), vec(-reach, low + plate), vec(reach, low + plate), vec(reach, low)]),
      name: "flat template on the side",
    },
    ...(p.fill === "insert"
      ? [
          {
            id: "section-insert",
            role: "guide",
            line: "narrow",
            path: polygon([
              ...along(outer, 0, flat.minX, flat.maxX),
              ...along(outer, p.insertThickness, flat.minX, flat.maxX).toReversed(),
            ]),
            name: "insert, shaped to the side",
            says: [{ label: "out of a blank of at least", value: m.insertBlank, quantity: "length" }],
            tint: "inlay",
          } as const,
        ]
      : []),
  ];
  const widest = outer.radius > 0 || outer.radius === Infinity ? flat.maxX : 0;
  const foot = at(widest, outer.place(sign * widest)?.fall ?? 0);
  return {
    shapes,
    texts: [
      {
        id: "section-title",
        at: vec(-reach, Math.min(...shapes.map(({ path }) => pathBounds(path).minY)) - 3 - LABEL),
        text: "Along the middle, with a flat template on it",
        height: LABEL,
        align: "start",
      },
    ],
    dimensions:
      m.gap > 0.05
        ? [
            {
              id: "gap",
              from: foot,
              to: vec(widest, low),
              along: "y",
              offset: -(reach - widest + 6),
              value: m.gap,
              quantity: "length",
              rank: 1,
            },
          ]
        : [],
  };
}

function dimensions(m: PortMeasures, side: Edges): Dimension[] {
  const box = pathBounds(m.flat!);
  const right = pathBounds(m.ringOuter ?? m.wrapped!).maxX;
  const base = { quantity: "length" } as const;
  return [
    {
      ...base,
      id: "length",
      from: vec(box.minX, box.minY),
      to: vec(box.maxX, box.minY),
      along: "x",
      offset: -ROW - 8,
      value: m.length,
      rank: 1,
    },
    {
      ...base,
      id: "width",
      from: vec(box.maxX, box.minY),
      to: vec(box.maxX, box.maxY),
      along: "y",
      offset: -(right - box.maxX) - ROW,
      value: m.width,
      rank: 1,
    },
    ...(m.toTop && side.shapes.length > 0
      ? [
          {
            ...base,
            id: "from-top",
            from: vec(0, 0),
            to: vec(0, side.high),
            along: "y",
            offset: -box.minX + ROW,
            value: side.high,
            after: "below the top",
            edits: ".fromTop",
            rank: 2,
          } as const,
        ]
      : []),
  ];
}
