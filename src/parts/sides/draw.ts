import type { Dimension, Drawing, Shape, Text } from "../../drawing/drawing.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { line, polyline, segmentPath, type Path } from "../../geometry/path.ts";
import { piecesOf, pointAt, reversePath } from "../../geometry/segment.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { curvePath } from "../../geometry/curve-path.ts";
import { plateHeight, type DomedPlate } from "../../lutherie/domed-plate.ts";
import type { InPlace } from "../contract.ts";
import type { SidesMeasures } from "./measure.ts";
import type { SidesParams } from "./numbers.ts";
import { laidPieces, prefixOf } from "./places.ts";
import { flatShapes } from "./unrolled.ts";

const ROW = 12;
/** Height of words that are read on the drawing as a whole, at about a fifth of its size, mm. */
const ON_BOARD = 8;

/** All pieces laid flat, one under the other, the treble side on top. */
export function drawSides(p: SidesParams, m: SidesMeasures): Drawing {
  const shapes: Shape[] = [];
  const texts: Text[] = [];
  const dimensions: Dimension[] = [];
  for (const flat of laidPieces(m)) {
    const { piece } = flat;
    const drawn = flatShapes(p, flat, prefixOf(piece), ON_BOARD);
    shapes.push(...drawn.shapes);
    texts.push(...drawn.texts);
    const box = pathBounds(flat.outline);
    const [start, end] = [piece.marks[0]!, piece.marks.at(-1)!];
    dimensions.push({
      id: `${piece.id}-length`,
      from: vec(box.minX, box.minY),
      to: vec(box.maxX, box.minY),
      along: "x",
      offset: -ROW,
      value: flat.length,
      quantity: "length",
      rank: 1,
    });
    for (const [mark, edits] of [
      [start, ".depthTail"],
      [end, ".depthNeck"],
    ] as const) {
      const atLeft = (mark === start) === flat.tailAtLeft;
      const [low, high] = [flat.place(mark.along, mark.back), flat.place(mark.along, mark.top)];
      dimensions.push({
        id: `${piece.id}-${mark.id}`,
        from: low,
        to: high,
        along: "y",
        offset: atLeft ? ROW : -ROW,
        value: mark.depth,
        quantity: "length",
        // On a domed side only the ends on the centre line are what is typed.
        ...(mark.name === "tail" || mark.name === "neck" ? { edits } : {}),
        rank: 2,
      });
    }
  }
  return { layers: [{ name: "sides", shapes, texts }], dimensions };
}

/** A plate's height along the centre line, from the neck to the tail. */
export const profileOf = (plate: DomedPlate): Path =>
  plate.radius === undefined
    ? segmentPath(vec(plate.neck.x, plate.neck.height), vec(plate.tail.x, plate.tail.height))
    : curvePath(
        {
          at: (x) => vec(x, plateHeight(plate, vec(x, 0))),
          direction: (x) => {
            const [a, b] = [x - 0.5, x + 0.5];
            const rise = plateHeight(plate, vec(b, 0)) - plateHeight(plate, vec(a, 0));
            const size = Math.hypot(1, rise);
            return vec(1 / size, rise / size);
          },
        },
        plate.neck.x,
        plate.tail.x,
        0.01,
      );

/** The body from the side: its plates on the centre line, and the edges of the sides where a dome lifts them off. */
export function sidesInPlace(m: SidesMeasures): InPlace {
  if (m.pieces.length === 0) return {};
  const [top, back] = [profileOf(m.top), profileOf(m.back)];
  const up = reversePath(top);
  const outline: Path = {
    start: back.start,
    segments: [...back.segments, line(up.start), ...up.segments, line(back.start)],
    closed: true,
  };
  const edges: Shape[] = [
    { plate: m.top, id: "top-edge", name: "edge of the side at the top" },
    { plate: m.back, id: "back-edge", name: "edge of the side at the back" },
  ].flatMap(({ plate, id, name }): Shape[] =>
    plate.radius === undefined ? [] : [{ id, role: "guide", line: "narrow", path: edgeFromSide(m, plate), name }],
  );
  const hole = m.endHole;
  const holes: Shape[] = hole
    ? [-1, 1].map((end): Shape => {
        const z = hole.height + (end * hole.diameter) / 2;
        return {
          id: end < 0 ? "end-hole-low" : "end-hole-high",
          role: "guide",
          line: "hidden",
          path: segmentPath(vec(m.top.tail.x - m.tailBlock.length - m.thickness, z), vec(m.top.tail.x, z)),
          name: "hole at the tail",
        };
      })
    : [];
  return {
    side: {
      layers: [
        {
          name: "outline",
          shapes: [
            { id: "outline", role: "cut", line: "visible", path: outline, name: "sides", tint: "wood" },
            ...edges,
            ...holes,
          ],
        },
      ],
      dimensions: [],
    },
    plane: "body",
  };
}

const LOOKS = 10;

/** The treble side's edge under a plate, seen from the side. */
function edgeFromSide(m: SidesMeasures, plate: DomedPlate): Path {
  const points = m.pieces
    .filter(({ side }) => side === "treble")
    .flatMap(({ plan }) => piecesOf(plan))
    .flatMap((piece): Vec[] => Array.from({ length: LOOKS + 1 }, (_, k) => pointAt(piece, k / LOOKS)))
    .map((at) => vec(at.x, plateHeight(plate, at)));
  return polyline(points);
}
