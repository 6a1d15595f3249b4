/** Braces from the side, their glued faces down and arched to the dome, and the gauges of the dome itself. */
import { arcOfRise } from "../../geometry/arc.ts";
import type { Shape, Text } from "../../drawing/drawing.ts";
import { cubic, line, segmentPath, type Path, type Segment } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import type { TemplateSource } from "../contract.ts";
import type { Brace, BracingMeasures } from "./measure.ts";

/** How far the middle of an arc over `length` stands above its chord: R - sqrt(R² - (L/2)²); the circle's own geometry. */
export const riseOf = (radius: number | undefined, length: number): number =>
  radius === undefined ? 0 : (length / 2) ** 2 / (radius + Math.sqrt(Math.max(0, radius ** 2 - (length / 2) ** 2)));

/**
 * A brace from the side, its glued face up and bulging with the plate: the face from end to end, then the free edge with its scoops, which
 * leave the ends level and reach the height level.
 */
export function profilePath(brace: Brace, x: number, y: number): Path {
  const { length, height, endHeight, scoop } = brace;
  const rise = riseOf(brace.radius, length);
  const [left, right] = [vec(x, y), vec(x + length, y)];
  const deep = y + rise - height;
  const ends = y - endHeight;
  const scooped: Segment[] =
    scoop > 0
      ? [
          cubic(vec(right.x - scoop / 2, ends), vec(right.x - scoop / 2, deep), vec(right.x - scoop, deep)),
          ...(length - 2 * scoop > 1e-9 ? [line(vec(left.x + scoop, deep))] : []),
          cubic(vec(left.x + scoop / 2, deep), vec(left.x + scoop / 2, ends), vec(left.x, ends)),
        ]
      : [line(vec(right.x, deep)), line(vec(left.x, deep)), line(vec(left.x, ends))];
  return {
    start: left,
    segments: [rise > 1e-9 ? arcOfRise(left, right, -rise) : line(right), line(vec(right.x, ends)), ...scooped, line(left)],
    closed: true,
  };
}

const GAP = 14;

/** All braces of a plate from the side, one under the other, with their joints marked. */
export function profileTemplate(m: BracingMeasures, plate: Brace["plate"]): TemplateSource[] {
  const braces = m.braces.filter((brace) => brace.plate === plate);
  if (braces.length === 0) return [];
  let y = 0;
  const shapes: Shape[] = [];
  const texts: Text[] = [];
  for (const brace of braces) {
    shapes.push({
      id: `profile-${brace.id}`,
      role: "cut",
      line: "visible",
      path: profilePath(brace, 0, y),
      name: brace.name,
      tint: "wood",
    });
    for (const [k, along] of jointsOn(m, brace).entries())
      shapes.push({
        id: `joint-${brace.id}-${k + 1}`,
        role: "mark",
        line: "narrow",
        path: segmentPath(vec(along, y - brace.height), vec(along, y + 2)),
        name: "where another brace crosses",
      });
    texts.push({
      id: `name-${brace.id}`,
      at: vec(brace.length + 4, y - brace.height / 2),
      text: `${brace.number}  ${brace.name}`,
      height: 3.5,
      align: "start",
    });
    y -= brace.height + GAP;
  }
  return [
    {
      name: `${plate}-braces`,
      title: plate === "top" ? "Braces of the top" : "Braces of the back",
      lineIs: "each brace from the side; its arched edge is glued to the plate",
      drawing: { layers: [{ name: "braces", shapes, texts }], dimensions: [] },
      table: {
        title: "Length, width and height",
        rows: braces.flatMap(({ number, name, length, width, height }) => [
          { label: `${number} ${name}, length`, value: length },
          { label: `${number} ${name}, width`, value: width },
          { label: `${number} ${name}, height`, value: height },
        ]),
      },
    },
  ];
}

const jointsOn = (m: BracingMeasures, brace: Brace): number[] =>
  m.crossings.flatMap(({ first, second, alongFirst, alongSecond }) =>
    first === brace.id ? [alongFirst] : second === brace.id ? [alongSecond] : [],
  );

const HANDLE = 30;

/** A strip with the dome's arc: the hollow one is laid on the finished plate, the bulging one into the dish. */
export function gaugeTemplate(m: BracingMeasures, plate: Brace["plate"], span: number): TemplateSource[] {
  const radius = plate === "top" ? m.topRadius : m.backRadius;
  if (radius === undefined || !(span > 10)) return [];
  const length = Math.min(span, 1.8 * radius);
  const rise = riseOf(radius, length);
  const [left, right] = [vec(0, 0), vec(length, 0)];
  const high = rise + HANDLE;
  return [
    {
      name: `${plate}-dome-gauge`,
      title: plate === "top" ? "Gauge of the top's dome" : "Gauge of the back's dome",
      lineIs: "the arc parts a hollow gauge above, for the outside of the plate, from a bulging one below, for dish and braces",
      drawing: {
        layers: [
          {
            name: "gauge",
            shapes: [
              {
                id: "outline",
                role: "cut",
                line: "visible",
                path: {
                  start: left,
                  segments: [arcOfRise(left, right, -rise), line(vec(length, high)), line(vec(0, high)), line(left)],
                  closed: true,
                },
                name: "hollow gauge",
                says: [
                  { label: "radius", value: radius, quantity: "length" },
                  { label: "rise of the arc", value: rise, quantity: "length" },
                ],
                tint: "wood",
              },
              {
                id: "bulging",
                role: "cut",
                line: "visible",
                path: {
                  start: vec(0, -HANDLE),
                  segments: [line(vec(length, -HANDLE)), line(right), arcOfRise(right, left, rise), line(vec(0, -HANDLE))],
                  closed: true,
                },
                name: "bulging gauge",
              },
              {
                id: "middle",
                role: "mark",
                line: "centre",
                path: segmentPath(vec(length / 2, -HANDLE), vec(length / 2, high)),
                name: "middle",
              },
            ],
          },
        ],
        dimensions: [],
      },
      edge: "outline",
      table: {
        title: "Dome",
        rows: [
          { label: "radius", value: radius },
          { label: "rise of the arc in the middle", value: rise },
        ],
      },
    },
  ];
}
