import type { Dimension, Drawing, Layer, Shape } from "../../drawing/drawing.ts";
import { offsetPath } from "../../geometry/offset.ts";
import { roundedPolygon } from "../../geometry/arc.ts";
import { circle, rectangle, segmentPath, type Path } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import type { HeadstockMeasures, HeadTuner } from "./measure.ts";
import type { HeadstockParams } from "./numbers.ts";
import { centreAlong } from "../centre-line.ts";

const BEYOND = 8;
const ROW = 12;
const CROSS = 3;

export function drawHeadstock(p: HeadstockParams, m: HeadstockMeasures): Drawing {
  if (!m.outline) return { layers: [], dimensions: [] };
  return {
    layers: [
      outlineLayer(m),
      { name: "plate", shapes: plateShapes(p, m) },
      centreLayer(m),
      bendLayer(m),
      ...rodLayers(p, m),
      { name: "machines", shapes: p.rows === "slotted" ? [] : m.tuners.map((tuner) => footprint(p, tuner)) },
      { name: "tuners", shapes: p.rows === "slotted" ? slotShapes(p, m) : m.tuners.flatMap((tuner) => holeShapes(p, m, tuner)) },
      stringLayer(m),
    ],
    dimensions: dimensions(m),
  };
}

export const outlineLayer = (m: HeadstockMeasures): Layer => ({
  name: "outline",
  shapes: m.outline
    ? [
        {
          id: "outline",
          role: "cut",
          line: "visible",
          path: m.outline,
          name: "headstock",
          says: [
            { label: "length", value: m.startX - m.topX, quantity: "length" },
            { label: "greatest width", value: m.greatestWidth, quantity: "length" },
            { label: "behind the nut", value: m.widthAtNut, quantity: "length" },
            { label: "thickness", value: m.thickness, quantity: "length" },
          ],
          tint: "wood",
        },
      ]
    : [],
});

/** The edge of the headplate where it is not the head's own. */
export function platePath(p: HeadstockParams, m: HeadstockMeasures): Path | undefined {
  if (!m.outline || p.plateOverhang === 0) return m.outline;
  return offsetPath(m.outline, p.plateOverhang)[0]?.outer;
}

function plateShapes(p: HeadstockParams, m: HeadstockMeasures): Shape[] {
  const path = p.plateOverhang === 0 ? undefined : platePath(p, m);
  return path ? [{ id: "plate", role: "guide", line: "narrow", path, name: "edge of the headplate" }] : [];
}

export const centreLayer = (m: HeadstockMeasures): Layer => centreAlong(m.topX - BEYOND, m.startX + BEYOND);

/** Where the bend into the neck ends on the back. */
const bendLayer = (m: HeadstockMeasures): Layer => ({
  name: "behind",
  shapes:
    m.flatBackX === undefined || m.flatBackX <= m.topX
      ? []
      : [
          {
            id: "bend",
            role: "mark",
            line: "hidden",
            path: segmentPath(vec(m.flatBackX, -m.widthAtNut / 2), vec(m.flatBackX, m.widthAtNut / 2)),
            name: "end of the bend into the neck, behind",
            says: [{ label: "from the nut's back", value: m.startX - m.flatBackX, quantity: "length" }],
          },
        ],
});

/** The pocket behind the nut, round at its far end, and its cover. */
export function pocketPath(p: HeadstockParams, m: HeadstockMeasures, grown: number): Path {
  const half = p.pocketWidth / 2 + grown;
  const far = m.startX - p.pocketLength - grown;
  const radius = Math.min(half, p.pocketLength + grown) * 0.999;
  const corners = [vec(m.startX, -half), vec(m.startX, half), vec(far, half), vec(far, -half)];
  return roundedPolygon(corners, [0, 0, radius, radius]) ?? rectangle(far, -half, m.startX, half);
}

function rodLayers(p: HeadstockParams, m: HeadstockMeasures): Layer[] {
  if (!p.rodPocket) return [];
  return [
    {
      name: "rod",
      shapes: [
        {
          id: "rod-cover",
          role: "guide",
          line: "narrow",
          path: pocketPath(p, m, p.coverMargin),
          name: "cover over the rod",
        },
        {
          id: "rod-pocket",
          role: "pocket",
          line: "visible",
          path: pocketPath(p, m, 0),
          name: "pocket for the rod",
          says: [
            { label: "deep", value: p.pocketDepth, quantity: "length" },
            { label: "wood left under it", value: m.woodUnderPocket ?? 0, quantity: "length" },
          ],
          tint: "waste",
        },
      ],
    },
  ];
}

const footprint = (p: HeadstockParams, { string, at }: HeadTuner): Shape => ({
  id: `machine-${string}`,
  role: "guide",
  line: "hidden",
  path: rectangle(
    at.x - p.footprintLength / 2,
    at.y - p.footprintWidth / 2,
    at.x + p.footprintLength / 2,
    at.y + p.footprintWidth / 2,
  ),
  name: `machine of string ${string}, behind`,
});

export function holeShapes(p: HeadstockParams, m: HeadstockMeasures, { string, at, edgeWood }: HeadTuner): Shape[] {
  const says = [
    { label: "hole", value: p.hole, quantity: "length" },
    { label: "from the nut's back", value: m.startX - at.x, quantity: "length" },
    { label: "from the centre line", value: Math.abs(at.y), quantity: "length" },
    { label: "wood to the edge", value: edgeWood, quantity: "length" },
  ] as const;
  return [
    ...(p.ferrule > p.hole
      ? [
          {
            id: `ferrule-${string}`,
            role: "guide",
            line: "narrow",
            path: circle(at, p.ferrule / 2),
            name: `ferrule of string ${string}`,
          } as const,
        ]
      : []),
    {
      id: `tuner-${string}`,
      role: "drill",
      line: "visible",
      path: circle(at, p.hole / 2),
      name: `hole of string ${string}`,
      says,
    },
    ...crossAt(string, at),
  ];
}

/** A centre mark. */
const crossAt = (string: number, at: HeadTuner["at"]): Shape[] =>
  (["x", "y"] as const).map((axis) => ({
    id: `mark-${axis}-${string}`,
    role: "mark",
    line: "narrow",
    path:
      axis === "x"
        ? segmentPath(vec(at.x - CROSS, at.y), vec(at.x + CROSS, at.y))
        : segmentPath(vec(at.x, at.y - CROSS), vec(at.x, at.y + CROSS)),
    name: `middle of the hole of string ${string}`,
  }));

/** The two slots of a slotted head, and the rollers across them. */
export function slotShapes(p: HeadstockParams, m: HeadstockMeasures): Shape[] {
  const slots = ([1, -1] as const).flatMap((row): Shape[] => {
    const own = m.tuners.filter((tuner) => tuner.row === row);
    if (own.length === 0) return [];
    const xs = own.map(({ at }) => at.x);
    const y = own.reduce((sum, { at }) => sum + at.y, 0) / own.length;
    const half = p.slotWidth / 2;
    const [from, to] = [Math.min(...xs) - p.slotWidth, Math.max(...xs) + p.slotWidth];
    const radius = half * 0.999;
    const path = roundedPolygon(
      [vec(from, y - half), vec(to, y - half), vec(to, y + half), vec(from, y + half)],
      [radius, radius, radius, radius],
    );
    return path
      ? [{ id: row === 1 ? "slot-rising" : "slot-falling", role: "cut", line: "visible", path, name: "slot", tint: "waste" }]
      : [];
  });
  const rollers = m.tuners.map(({ string, at }): Shape => ({
    id: `tuner-${string}`,
    role: "drill",
    line: "hidden",
    path: rectangle(at.x - p.post / 2, at.y - p.slotWidth / 2 - 4, at.x + p.post / 2, at.y + p.slotWidth / 2 + 4),
    name: `roller of string ${string}`,
    says: [{ label: "from the nut's back", value: m.startX - at.x, quantity: "length" }],
  }));
  return [...slots, ...rollers];
}

export const stringLayer = (m: HeadstockMeasures): Layer => ({
  name: "strings",
  shapes: m.strings.map((string): Shape => ({
    id: `string-${string.string}`,
    role: "guide",
    line: "narrow",
    path: segmentPath(string.from, string.to),
    name: `string ${string.string}`,
    says: [
      { label: "sideways at the nut", value: string.angleAtNutRad, quantity: "angle" },
      { label: "bends down over the nut", value: string.breakRad, quantity: "angle" },
      ...(string.clearance === undefined
        ? []
        : [{ label: `air to the post of string ${string.besidePost}`, value: string.clearance, quantity: "length" } as const]),
    ],
  })),
});

function dimensions(m: HeadstockMeasures): Dimension[] {
  const half = m.greatestWidth / 2;
  const row = m.tuners.filter((tuner) => tuner.row === -1).toSorted((a, b) => b.at.x - a.at.x);
  const [first, second] = row;
  return [
    {
      id: "length",
      from: vec(m.topX, -half),
      to: vec(m.startX, -half),
      along: "x",
      offset: -2 * ROW,
      value: m.startX - m.topX,
      quantity: "length",
      edits: ".length",
      rank: 1,
    },
    {
      id: "width-at-nut",
      from: vec(m.startX, -m.widthAtNut / 2),
      to: vec(m.startX, m.widthAtNut / 2),
      along: "y",
      offset: -ROW,
      value: m.widthAtNut,
      quantity: "length",
      edits: ".widthAtNut",
      rank: 1,
    },
    ...(first
      ? [
          {
            id: "first",
            from: vec(first.at.x, -half),
            to: vec(m.startX, -half),
            along: "x",
            offset: -ROW,
            value: m.startX - first.at.x,
            quantity: "length",
            edits: ".first",
            rank: 2,
          } as const,
        ]
      : []),
    ...(first && second
      ? [
          {
            id: "pitch",
            from: vec(second.at.x, -half),
            to: vec(first.at.x, -half),
            along: "x",
            offset: -ROW,
            value: first.at.x - second.at.x,
            quantity: "length",
            edits: ".pitch",
            rank: 2,
          } as const,
        ]
      : []),
  ];
}
