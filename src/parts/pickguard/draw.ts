import type { Dimension, Drawing, Layer, Shape } from "../../drawing/drawing.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { polyline, segmentPath, type Path } from "../../geometry/path.ts";
import { add, polar, vec, type Vec } from "../../geometry/vec.ts";
import { growBounds } from "../../geometry/bounds.ts";
import { companyLayer } from "../company.ts";
import type { Sources } from "../contract.ts";
import { middleOf, type PickguardMeasures } from "./measure.ts";
import { instrumentOf, type PickguardParams } from "./numbers.ts";

const ROW = 12;
const BEYOND = 10;
/** How far about the guard its company is drawn, mm. */
const ABOUT = 60;

export function drawPickguard(p: PickguardParams, m: PickguardMeasures, from: Sources): Drawing {
  if (!m.outline) return { layers: [], dimensions: [] };
  return {
    layers: [
      companyLayer(from, growBounds(pathBounds(m.outline), ABOUT), from.get("soundhole")),
      { name: "outline", shapes: [guardShape(m, m.outline)] },
      adhesiveLayer(m),
      oldLayer(m),
      grainLayer(p, m, m.outline),
      centreLayer(m, m.outline),
    ],
    dimensions: dimensions(m, m.outline, from),
  };
}

export const guardShape = (m: PickguardMeasures, path: Path): Shape => ({
  id: "outline",
  role: "cut",
  line: "visible",
  path,
  name: "pickguard",
  says: [
    { label: "along the instrument", value: m.length, quantity: "length" },
    { label: "across", value: m.width, quantity: "length" },
    { label: "thickness", value: m.thickness, quantity: "length" },
    { label: "round the edge", value: m.perimeter, quantity: "length" },
  ],
  tint: "wood",
});

export const adhesiveLayer = (m: PickguardMeasures): Layer => ({
  name: "adhesive",
  shapes:
    m.adhesive && m.adhesive !== m.outline
      ? [{ id: "adhesive", role: "guide", line: "hidden", path: m.adhesive, name: "edge of the adhesive" }]
      : [],
});

/** What the guard must hide, and the pieces of it that it does not. */
export const oldLayer = (m: PickguardMeasures): Layer => ({
  name: "old",
  shapes: [
    ...m.old.map(({ outer, holes }, i): Shape => ({
      id: `old-${i + 1}`,
      role: "guide",
      line: "adjacent",
      path: outer,
      ...(holes.length > 0 ? { holes } : {}),
      name: m.old.length === 1 ? "old guard or scar" : `old guard or scar, piece ${i + 1}`,
    })),
    ...(m.cover?.bare ?? []).map(({ outline, out, area }, i): Shape => ({
      id: `bare-${i + 1}`,
      role: "mark",
      line: "visible",
      path: outline,
      name: "not hidden",
      says: [
        { label: "stands out by", value: out, quantity: "length" },
        { label: "as large as a square of", value: Math.sqrt(area), quantity: "length" },
      ],
      tint: "waste",
    })),
  ],
});

/** A double arrow along the grain, in the middle of the guard; none in plastic. */
export function grainLayer(p: PickguardParams, m: PickguardMeasures, outline: Path): Layer {
  if (p.material === "plastic") return { name: "grain", shapes: [] };
  const middle = middleOf(m, outline);
  const reach = Math.min(m.length, m.width) / 5;
  const end = (angle: number): Vec => polar(middle, reach, angle);
  const head = (at: Vec, angle: number): [Vec, Vec] => [
    add(at, polar(vec(0, 0), reach / 4, angle + 2.6)),
    add(at, polar(vec(0, 0), reach / 4, angle - 2.6)),
  ];
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
        path: polyline([a1, a, a2, a, b, b1, b, b2]),
        name: "direction of the grain",
        says: [{ label: "from the centre line", value: p.grain, quantity: "angle" }],
      },
    ],
  };
}

/** The instrument's centre line beside it, which no half can be made about: a guide. */
function centreLayer(m: PickguardMeasures, outline: Path): Layer {
  const box = pathBounds(outline);
  return {
    name: "centre",
    shapes: [
      {
        id: "instrument-centre",
        role: "guide",
        line: "centre",
        path: segmentPath(vec(Math.min(box.minX, m.origin.x) - BEYOND, 0), vec(Math.max(box.maxX, m.origin.x) + BEYOND, 0)),
        name: "centre line of the instrument",
      },
    ],
  };
}

function dimensions(m: PickguardMeasures, outline: Path, from: Sources): Dimension[] {
  const box = pathBounds(outline);
  const outward = instrumentOf(from).side === 1 ? box.maxY : box.minY;
  const sign = instrumentOf(from).side;
  const rooms = [
    { id: "to-board", room: m.atBoard, after: "to the board" },
    { id: "to-bridge", room: m.atBridge, after: "to the bridge" },
  ] as const;
  return [
    {
      id: "length",
      from: vec(box.minX, outward),
      to: vec(box.maxX, outward),
      along: "x",
      offset: sign * ROW,
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
    ...rooms.flatMap(({ id, room, after }): Dimension[] =>
      room && room.distance > 0
        ? [
            {
              id,
              from: room.at,
              to: room.to,
              along: "straight",
              offset: 0,
              value: room.distance,
              quantity: "length",
              after,
              rank: 2,
            },
          ]
        : [],
    ),
    ...(m.cover && m.cover.margin < 0
      ? [
          {
            id: "stands-out",
            from: m.cover.to,
            to: m.cover.at,
            along: "straight",
            offset: 0,
            value: -m.cover.margin,
            quantity: "length",
            after: "not hidden",
            rank: 1,
          } as const,
        ]
      : []),
  ];
}
