import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import BufferOp from "jsts/org/locationtech/jts/operation/buffer/BufferOp.js";
import BufferParameters from "jsts/org/locationtech/jts/operation/buffer/BufferParameters.js";
import { describe, expect, it } from "vitest";
import { flatten } from "../../src/geometry/flatten.ts";
import { pathArea, pathLength } from "../../src/geometry/measure.ts";
import { nearestOnPath } from "../../src/geometry/nearest.ts";
import { circle, polygon, rectangle, type Path } from "../../src/geometry/path.ts";
import { piecesOf, pointAt } from "../../src/geometry/segment.ts";
import { vec } from "../../src/geometry/vec.ts";
import { cutawayHalf } from "../../src/lutherie/body-cutaway.ts";
import { halfOutline, wholeOutline } from "../../src/lutherie/body-outline.ts";
import { SMALL } from "../lutherie/small-body.ts";
import { allMovedInside, movedInside } from "../../src/geometry/parallel.ts";

const plain = halfOutline(SMALL);
const cut = (kind: "rounded" | "pointed"): Path =>
  wholeOutline(
    cutawayHalf(SMALL, {
      kind,
      hornAt: 20,
      hornOut: 110,
      depth: 90,
      neckOut: 30,
      fullness: 0.5,
      tipFall: 0.6,
      tipAngle: 1,
    }),
    plain,
  );

/** Area inside an outline less `by` all round, by JTS: the outline as a polygon within 0.001 mm, inward corners rounded in 64 steps a quarter. */
function jtsArea(outline: Path, by: number): number {
  const factory = new GeometryFactory();
  const points = flatten(outline, 0.001).map(({ x, y }) => new Coordinate(x, y));
  const parameters = new BufferParameters(64);
  return BufferOp.bufferOp(factory.createPolygon([...points, points[0]!]), -by, parameters).getArea() as number;
}

describe("movedInside", () => {
  it("keeps a circle a circle and a rectangle a rectangle: radius 100 less 2.2, and 400 by 80 less 2 x 2.2 each way", () => {
    expect(pathArea(movedInside(circle(vec(5, 6), 100), 2.2)!)).toBeCloseTo(Math.PI * 97.8 ** 2, 8);
    const inner = movedInside(rectangle(0, 0, 400, 80), 2.2)!;
    expect(pathArea(inner)).toBeCloseTo(395.6 * 75.6, 8);
    expect(inner.segments).toHaveLength(4);
  });

  it.each([
    ["a body", wholeOutline(plain, plain)],
    ["a body with a rounded cutaway", cut("rounded")],
    ["a body with a pointed cutaway", cut("pointed")],
  ])("lies 2.413 inside the edge of %s everywhere, and holds the area that JTS finds for its own offset", (_, outline) => {
    const inner = movedInside(outline, 2.413)!;
    for (const piece of piecesOf(inner))
      for (let k = 0; k <= 10; k++)
        expect(Math.abs(nearestOnPath(outline, pointAt(piece, k / 10)).distance - 2.413)).toBeLessThan(0.003);
    expect(pathArea(inner)).toBeGreaterThan(0);
    // Half of JTS's own error: a chord 0.001 off over an edge of about 1.5 m.
    expect(Math.abs(pathArea(inner) - jtsArea(outline, 2.413))).toBeLessThan(2);
  });

  it("is shorter by 2 pi t round a smooth outline: the same turn of 360 degrees at another radius", () => {
    const outline = wholeOutline(plain, plain);
    expect(pathLength(outline) - pathLength(movedInside(outline, 3)!)).toBeCloseTo(2 * Math.PI * 3, 2);
  });

  it("is refused where a bend is tighter than the move, and where the sides of a corner lose each other", () => {
    expect(movedInside(circle(vec(0, 0), 2), 2.2)).toBeUndefined();
    expect(movedInside(polygon([vec(0, 0), vec(10, 0), vec(5, 3)]), 4)).toBeUndefined();
  });

  it("gives several at once as it gives each alone, and none for those that are too deep", () => {
    const outline = wholeOutline(plain, plain);
    const all = allMovedInside(outline, [2.2, 500, 1.5, 2.2]);
    expect(all[0]).toBe(all[3]);
    expect(all[1]).toBeUndefined();
    expect(pathArea(all[2]!)).toBeCloseTo(pathArea(movedInside(outline, 1.5)!), 9);
  });

  it("wants a closed outline and a move that is not negative", () => {
    expect(() => movedInside(plain, 1)).toThrow(RangeError);
    expect(() => movedInside(circle(vec(0, 0), 5), -1)).toThrow(RangeError);
  });
});
