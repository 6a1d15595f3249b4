import { describe, expect, it } from "vitest";
import type { Drawing, Shape } from "../../../src/drawing/drawing.ts";
import { outlinePoint } from "../../../src/geometry/drawn/point.ts";
import { circle, polygon, type Path } from "../../../src/geometry/path.ts";
import { ORIGIN, vec } from "../../../src/geometry/vec.ts";
import type { PointOutline } from "../../../src/parts/contract.ts";
import { arcThroughThree, bowed, scaled, start } from "../../../src/ui/board/outline-editor/actions.ts";
import { drawnOf } from "../../../src/ui/board/outline-editor/points.ts";
import { dimensionsOf, endAt, measureSpan, placeOfEnd, shapesOf } from "../../../src/ui/board/tools/spans.ts";
import { tracedPoints } from "../../../src/ui/board/tools/trace.ts";

const shape = (id: string, path: Path): Shape => ({ id, role: "cut", line: "visible", path, name: id });
const drawing = (side: number): Drawing => ({
  layers: [
    {
      name: "all",
      shapes: [
        shape("square", polygon([vec(0, 0), vec(side, 0), vec(side, side), vec(0, side)])),
        shape("hole", circle(vec(100, 50), 5)),
      ],
    },
  ],
  dimensions: [],
});

describe("the dividers", () => {
  const shapes = shapesOf(drawing(60));

  it("set their legs on a corner, on a middle, on a line, or where they are put", () => {
    const at = (x: number, y: number) => placeOfEnd(endAt(shapes, vec(x, y), 2), shapes);
    expect(at(59, 61)).toEqual(vec(60, 60));
    expect(at(101, 50.5)).toEqual(vec(100, 50));
    expect(at(30, 1.5)).toEqual(vec(30, 0));
    expect(at(-20, -20)).toEqual(vec(-20, -20));
  });

  it("give distance, both directions and angle of a 3-4-5 triangle", () => {
    const found = measureSpan({ from: { at: [0, 0] }, to: { at: [-30, 40] } }, shapes)!;
    expect([found.distance, found.along, found.across]).toEqual([50, 30, 40]);
    // From the centre line: 180 - atan(4 / 3) = 126.8699 degrees.
    expect((found.angle * 180) / Math.PI).toBeCloseTo(126.8699, 4);
  });

  it("give the angle between the two lines that they stand on", () => {
    const found = measureSpan({ from: endAt(shapes, vec(30, 1), 2), to: endAt(shapes, vec(59, 30), 2) }, shapes)!;
    expect(found.between).toBeCloseTo(Math.PI / 2, 12);
  });

  it("keep what they measured: it follows the drawing, and is left out where its line is gone", () => {
    const span = { between: ["square", "hole"] } as const;
    // From the corner (60, 60) or the side x = 60 at y = 50: 40 to the middle of the hole less 5.
    expect(dimensionsOf([span], drawing(60))[0]!.value).toBeCloseTo(35, 6);
    expect(dimensionsOf([span], drawing(80))[0]!.value).toBeCloseTo(15, 6);
    expect(dimensionsOf([{ between: ["square", "lost"] }], drawing(60))).toEqual([]);
    const corner = endAt(shapes, vec(60, 60), 1);
    expect(placeOfEnd(corner, shapesOf(drawing(80)))).toEqual(vec(80, 80));
  });
});

const outline = (given: Partial<PointOutline>): PointOutline => ({
  key: "outline",
  title: "Outline",
  origin: ORIGIN,
  mirrored: true,
  points: [],
  before: [],
  after: [],
  guides: [],
  ...given,
});
const places = (...at: readonly (readonly [number, number])[]) => at.map(([x, y]) => ({ at: vec(x, y), corner: false }));

describe("an outline that was traced", () => {
  it("begins where the part begins it, whichever half was traced and whichever way", () => {
    const head = outline({ before: [outlinePoint(0, 22)] });
    const wanted = [
      [-40, 36],
      [-180, 40],
      [-190, 0],
    ];
    for (const traced of [
      places([-40, 36], [-180, 40], [-190, 0.4]),
      places([-190, 0.4], [-180, 40], [-40, 36], [-0.5, 22.3]),
      places([-40, -36], [-180, -40], [-190, 0.4]),
    ])
      expect(tracedPoints(head, traced)!.map(({ x, y }) => [x, y])).toEqual(wanted);
  });

  it("meets its image on the centre line, and needs enough places", () => {
    const points = tracedPoints(outline({}), places([-10, 0.8], [0, 40], [12, -0.6]))!;
    expect(points.map(({ y }) => y)).toEqual([0, 40, 0]);
    expect(tracedPoints(outline({}), places([0, 0]))).toBeUndefined();
    expect(tracedPoints(outline({ mirrored: false }), places([0, 0], [9, 0]))).toBeUndefined();
  });
});

describe("a true arc", () => {
  const points = [outlinePoint(-30, 0), outlinePoint(0, 10), outlinePoint(30, 0), outlinePoint(0, -40)];
  const free = outline({ mirrored: false, points });

  it("runs through three points, the middle one of which gives way", () => {
    const edit = arcThroughThree(start(free, new Set([0, 1, 2])))!;
    expect(edit.points).toHaveLength(3);
    const { segment, from } = drawnOf(free, edit.points)!.sides[0]!;
    if (segment.kind !== "arc") throw new Error("no arc was drawn");
    // Chord 60, rise 10: r = 60^2 / 80 + 10 / 2 = 50, its middle at (0, -40).
    expect(Math.hypot(from.x - segment.centre.x, from.y - segment.centre.y)).toBeCloseTo(50, 9);
    expect([segment.centre.x, segment.centre.y]).toEqual([expect.closeTo(0, 9), expect.closeTo(-40, 9)]);
    expect(arcThroughThree(start(free, new Set([0, 1])))).toBeUndefined();
    expect(arcThroughThree(start(free, new Set([0, 1, 3])))).toBeUndefined();
  });

  it("bows out by as much as its handle is dragged", () => {
    // From (30, 0) to (0, -40): 50 long; a rise of 5 to its right gives r = 50^2 / 40 + 5 / 2 = 65.
    const { segment, from } = drawnOf(free, bowed(start(free, new Set([2])), 2, 5).points)!.sides[2]!;
    if (segment.kind !== "arc") throw new Error("no arc was drawn");
    expect(Math.hypot(from.x - segment.centre.x, from.y - segment.centre.y)).toBeCloseTo(65, 9);
  });

  it("keeps its shape where several points are scaled along one direction alone", () => {
    const edit = scaled(start(free, new Set([0, 2])), 2, 1);
    expect(edit.points.map(({ x, y }) => [x, y])).toEqual([
      [-60, 0],
      [0, 10],
      [60, 0],
      [0, -40],
    ]);
  });
});
