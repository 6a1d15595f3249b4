import type { Dimension, Drawing, Layer, Shape } from "../../drawing/drawing.ts";
import { pathsBounds } from "../../geometry/measure.ts";
import { polyline } from "../../geometry/path.ts";
import { add, polar, vec, type Vec } from "../../geometry/vec.ts";
import type { ShapeMeasures } from "./measure.ts";
import type { ShapeParams } from "./numbers.ts";
import { centreAlong } from "../centre-line.ts";

const BEYOND = 5;
const ROW = 10;

export function drawShape(p: ShapeParams, m: ShapeMeasures): Drawing {
  if (!m.host) return { layers: [], dimensions: [] };
  const box = pathsBounds(m.pieces.map(({ outer }) => outer));
  const name = p.name.trim() === "" ? "free shape" : p.name;
  return {
    layers: [outlineLayer(m, name), centreLayer(box.minX, box.maxX), grainLayer(p, m)],
    dimensions: dimensions(m, box),
  };
}

export function outlineLayer(m: ShapeMeasures, name: string): Layer {
  return {
    name: "outline",
    shapes: m.pieces.map(({ outer, holes }, i): Shape => ({
      id: i === 0 ? "outline" : `outline-${i + 1}`,
      role: "cut",
      line: "visible",
      path: outer,
      ...(holes.length > 0 ? { holes } : {}),
      name: i === 0 ? name : `${name}, piece ${i + 1}`,
      says: [
        { label: "length", value: m.length, quantity: "length" },
        { label: "width", value: m.width, quantity: "length" },
        { label: "thickness", value: m.thickness, quantity: "length" },
      ],
      tint: "wood",
    })),
  };
}

export const centreLayer = (from: number, to: number): Layer => centreAlong(from - BEYOND, to + BEYOND);

/** A double arrow along the grain. */
export function grainLayer(p: ShapeParams, m: ShapeMeasures): Layer {
  const reach = Math.min(m.length, m.width) / 4;
  const end = (angle: number): Vec => polar(vec(0, 0), reach, angle);
  const head = (at: Vec, angle: number): Vec[] => [2.6, -2.6].map((turn) => add(at, polar(vec(0, 0), reach / 4, angle + turn)));
  const [a, b] = [end(p.grain), end(p.grain + Math.PI)];
  const [a1, a2] = head(a, p.grain);
  const [b1, b2] = head(b, p.grain + Math.PI);
  return {
    name: "grain",
    shapes: [
      {
        id: "grain",
        role: "mark",
        line: "narrow",
        path: polyline([a1!, a, a2!, a, b, b1!, b, b2!]),
        name: "direction of the grain",
      },
    ],
  };
}

type Box = ReturnType<typeof pathsBounds>;

const dimensions = (m: ShapeMeasures, box: Box): Dimension[] => [
  {
    id: "length",
    from: vec(box.minX, box.minY),
    to: vec(box.maxX, box.minY),
    along: "x",
    offset: -ROW,
    value: m.length,
    quantity: "length",
    rank: 1,
  },
  {
    id: "width",
    from: vec(box.minX, box.minY),
    to: vec(box.minX, box.maxY),
    along: "y",
    offset: ROW,
    value: m.width,
    quantity: "length",
    rank: 1,
  },
];
