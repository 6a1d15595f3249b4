import type { Dimension, Drawing, Layer, Shape } from "../../drawing/drawing.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { arc, circle, line, segmentPath, type Path } from "../../geometry/path.ts";
import { add, leftOf, scale, sub, unit, vec, type Vec } from "../../geometry/vec.ts";
import { centreAlong } from "../centre-line.ts";
import type { Sources } from "../contract.ts";
import type { BridgeMeasures, Point } from "./measure.ts";
import { instrumentOf, type BridgeParams } from "./numbers.ts";

const BEYOND = 10;
const ROW = 12;

const at = ([x, y]: Point): Vec => vec(x, y);

/** The saddle's slot: straight walls, ends of the cutter's radius, its whole length from end to end. Undefined where it is no longer than wide. */
export function slotPath(p: BridgeParams, m: BridgeMeasures): Path | undefined {
  const [a, b] = [at(m.saddle.ends[0]), at(m.saddle.ends[1])];
  const radius = p.saddleThickness / 2;
  if (!(m.saddle.length > 2.01 * radius)) return undefined;
  const way = unit(sub(b, a));
  const left = scale(leftOf(way), radius);
  const [c, d] = [add(a, scale(way, radius)), sub(b, scale(way, radius))];
  const start = sub(c, left);
  return {
    start,
    segments: [line(sub(d, left)), arc(add(d, left), d, true), line(add(c, left)), arc(start, c, true)],
    closed: true,
  };
}

export function drawBridge(p: BridgeParams, m: BridgeMeasures, from: Sources): Drawing {
  if (!m.outline) return { layers: [], dimensions: [] };
  return {
    layers: [
      outlineLayer(m),
      oldLayer(m),
      centreLayer(m.outline),
      footLayer(m),
      saddleLayer(p, m),
      pinLayer(p, m),
      stringLayer(m, from),
    ],
    dimensions: dimensions(p, m, m.outline),
  };
}

export const outlineLayer = (m: BridgeMeasures): Layer => ({
  name: "outline",
  shapes: m.outline
    ? [
        {
          id: "outline",
          role: "cut",
          line: "visible",
          path: m.outline,
          name: "bridge",
          says: [
            { label: "thickness", value: m.thickness, quantity: "length" },
            { label: "saddle from the nut, on the centre line", value: m.saddleX, quantity: "length" },
          ],
          tint: "wood",
        },
      ]
    : [],
});

/** The footprint of the old bridge, and what of it shows beside the new one. */
export const oldLayer = (m: BridgeMeasures): Layer => ({
  name: "old",
  shapes: [
    ...(m.old
      ? [{ id: "old", role: "guide", line: "adjacent", path: m.old, name: "footprint of the old bridge" } satisfies Shape]
      : []),
    ...(m.cover?.bare ?? []).map(({ outline, out }, i): Shape => ({
      id: `bare-${i + 1}`,
      role: "mark",
      line: "narrow",
      path: outline,
      name: "old footprint that still shows",
      says: [{ label: "stands out by", value: out, quantity: "length" }],
      tint: "waste",
    })),
  ],
});

/** What stands on the top under a floating bridge. */
export const footLayer = (m: BridgeMeasures): Layer => ({
  name: "foot",
  shapes: m.feet.map((path, i): Shape => ({
    id: `foot-${i + 1}`,
    role: "guide",
    line: "hidden",
    path,
    name: m.feet.length > 1 ? `foot ${i + 1} of ${m.feet.length}, on the top` : "foot, on the top",
  })),
});

export const centreLayer = (outline: Path): Layer => {
  const box = pathBounds(outline);
  return centreAlong(box.minX - BEYOND, box.maxX + BEYOND);
};

export function saddleLayer(p: BridgeParams, m: BridgeMeasures): Layer {
  const slot = slotPath(p, m);
  const shapes: Shape[] = [];
  if (slot)
    shapes.push({
      id: "saddle",
      role: p.type === "floating" ? "guide" : "slot",
      line: p.type === "floating" ? "narrow" : "visible",
      path: slot,
      name: p.type === "floating" ? "saddle" : "slot for the saddle",
      says: [
        { label: "length", value: m.saddle.length, quantity: "length" },
        { label: "width", value: p.saddleThickness, quantity: "length" },
        { label: "turned from square", value: m.saddle.angleRad, quantity: "angle" },
      ],
      tint: "waste",
    });
  for (const string of m.strings) {
    const [x, y] = string.wished;
    if (string.setback === undefined) continue;
    if (string.least !== undefined && string.most !== undefined && string.most > string.least)
      shapes.push({
        id: `band-${string.string}`,
        role: "mark",
        line: "narrow",
        path: segmentPath(vec(x - string.setback + string.least, y), vec(x - string.setback + string.most, y)),
        name: `where string ${string.string} may want its saddle`,
      });
    shapes.push({
      id: `wish-${string.string}`,
      role: "mark",
      line: "narrow",
      path: circle(vec(x, y), 0.5),
      name: `saddle of string ${string.string}`,
      says: [
        { label: "behind the scale", value: string.setback, quantity: "length" },
        ...(string.least === undefined || string.most === undefined
          ? []
          : [
              { label: "at least", value: string.least, quantity: "length" } as const,
              { label: "at most", value: string.most, quantity: "length" } as const,
            ]),
        { label: "left over by the straight saddle", value: string.residual, quantity: "length" },
      ],
    });
  }
  return { name: "saddle", shapes };
}

export const pinLayer = (p: BridgeParams, m: BridgeMeasures): Layer => ({
  name: "pins",
  shapes: m.pins.map(({ string, at: place }): Shape => ({
    id: `pin-${string}`,
    role: "drill",
    line: "visible",
    path: circle(at(place), p.pinHole / 2),
    name: `pin of string ${string}`,
    says: [
      { label: "hole", value: p.pinHole, quantity: "length" },
      { label: "from the nut", value: place[0], quantity: "length" },
    ],
  })),
});

const stringLayer = (m: BridgeMeasures, from: Sources): Layer => ({
  name: "strings",
  shapes: m.strings.flatMap(({ string, given }): Shape[] => {
    const one = instrumentOf(from).strings.find(({ number }) => number === string);
    if (!one) return [];
    const rise = (one.saddle.y - one.nut.y) / one.scale;
    const pin = m.pins.find((entry) => entry.string === string);
    const before = vec(given[0] - 30, given[1] - 30 * rise);
    return [
      {
        id: `string-${string}`,
        role: "guide",
        line: "narrow",
        path: pin
          ? { start: before, segments: [line(at(given)), line(at(pin.at))], closed: false }
          : segmentPath(before, at(given)),
        name: `string ${string}`,
      },
    ];
  }),
});

function dimensions(p: BridgeParams, m: BridgeMeasures, outline: Path): Dimension[] {
  const box = pathBounds(outline);
  const trebleEnd = m.saddle.ends[1];
  const pin = m.pins.at(-1);
  return [
    {
      id: "across",
      from: vec(box.maxX, box.minY),
      to: vec(box.maxX, box.maxY),
      along: "y",
      offset: -ROW,
      value: box.maxY - box.minY,
      quantity: "length",
      edits: ".span",
      rank: 1,
    },
    {
      id: "along",
      from: vec(box.minX, box.minY),
      to: vec(box.maxX, box.minY),
      along: "x",
      offset: -ROW,
      value: box.maxX - box.minX,
      quantity: "length",
      rank: 1,
    },
    {
      id: "saddle-length",
      from: at(m.saddle.ends[0]),
      to: at(trebleEnd),
      along: "straight",
      offset: p.front + ROW,
      value: m.saddle.length,
      quantity: "length",
      rank: 2,
    },
    ...(pin && p.pinLine === "follow"
      ? [
          {
            id: "pins",
            from: vec(pin.at[0] - p.pinBehindTreble, box.maxY),
            to: vec(pin.at[0], box.maxY),
            along: "x",
            offset: ROW,
            value: p.pinBehindTreble,
            quantity: "length",
            edits: ".pinBehindTreble",
            rank: 2,
          } as const,
        ]
      : []),
    ...(m.pinsBehind && p.pinLine === "straight"
      ? (["Bass", "Treble"] as const).map((end, i): Dimension => {
          const at = (i === 0 ? m.pins[0]! : m.pins.at(-1)!).at;
          const y = at[1] < 0 ? box.minY : box.maxY;
          return {
            id: `pins-${end.toLowerCase()}`,
            from: vec(at[0] - m.pinsBehind![i]!, y),
            to: vec(at[0], y),
            along: "x",
            offset: at[1] < 0 ? -2 * ROW : ROW,
            value: m.pinsBehind![i]!,
            quantity: "length",
            after: end.toLowerCase(),
            edits: `.pinBehind${end}`,
            rank: 2,
          };
        })
      : []),
  ];
}
