/** Whether one outline covers another, held against the JTS library. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { apart, cover, roomInside } from "../../src/geometry/cover.ts";
import { circle, polygon, rectangle, type Path } from "../../src/geometry/path.ts";
import { reversePath } from "../../src/geometry/segment.ts";
import { vec } from "../../src/geometry/vec.ts";
import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import DistanceOp from "jsts/org/locationtech/jts/operation/distance/DistanceOp.js";
import OverlayOp from "jsts/org/locationtech/jts/operation/overlay/OverlayOp.js";

const whole = (outer: Path, ...holes: Path[]) => ({ outer, holes: holes.map(reversePath) });
const factory = new GeometryFactory();
/** The same shape in the outside library. */
const theirs = (points: readonly { x: number; y: number }[]) =>
  factory.createPolygon(factory.createLinearRing([...points, points[0]!].map(({ x, y }) => new Coordinate(x, y))));

describe("cover", () => {
  it("is 10 for a circle of 20 in one of 30, and -5 for one that stands 5 out", () => {
    expect(cover([whole(circle(vec(0, 0), 30))], [whole(circle(vec(0, 0), 20))])!.margin).toBeCloseTo(10, 6);
    const out = cover([whole(circle(vec(0, 0), 30))], [whole(circle(vec(15, 0), 20))])!;
    expect(out.margin).toBeCloseTo(-5, 3);
    expect([out.at.x, out.to.x]).toEqual([expect.closeTo(35, 2), expect.closeTo(30, 2)]);
  });

  it("counts a hole in what covers as bare, whole or in part", () => {
    const ring = whole(circle(vec(0, 0), 30), circle(vec(0, 0), 10));
    // A disc in the hole is bare as far as the hole's middle lies from its edge, and so is what covers the hole and more.
    expect(cover([ring], [whole(circle(vec(0, 0), 4))])!.margin).toBeCloseTo(-10, 2);
    expect(cover([ring], [whole(circle(vec(0, 0), 20))])!.margin).toBeCloseTo(-10, 2);
    const over = cover([ring], [whole(rectangle(8, -2, 20, 2))])!;
    // Farthest from the hole's edge is the middle of the rectangle's end, at (8, 0): 2.
    expect(over.margin).toBeCloseTo(-2, 2);
    expect(over.bare).toHaveLength(1);
  });

  it("takes several pieces of either, and the same outline as just covering itself", () => {
    const two = [whole(rectangle(0, 0, 10, 10)), whole(rectangle(20, 0, 30, 10))];
    expect(cover(two, [whole(rectangle(1, 1, 9, 9)), whole(rectangle(22, 2, 28, 8))])!.margin).toBeCloseTo(1, 9);
    // Bare between the two: 10 by 2, its middle 5 from either.
    const bridge = cover(two, [whole(rectangle(5, 4, 25, 6))])!;
    expect(bridge.bare.map(({ area }) => area)).toEqual([expect.closeTo(20, 3)]);
    expect(bridge.margin).toBeCloseTo(-Math.hypot(5, 0), 2);
    const round = whole(circle(vec(400, -30), 55));
    expect(cover([round], [round])!.margin).toBeCloseTo(0, 6);
    expect(cover([], two)).toBeUndefined();
    expect(cover(two, [])).toBeUndefined();
  });

  it("agrees with the outside library on bare areas and margins of random triangles", () => {
    const coordinate = fc.double({ min: -60, max: 60, noNaN: true });
    const triangle = fc
      .tuple(coordinate, coordinate, coordinate, coordinate, coordinate, coordinate)
      .filter(([a, b, c, d, e, f]) => {
        const twice = Math.abs((c - a) * (f - b) - (e - a) * (d - b));
        return twice > 200;
      });
    fc.assert(
      fc.property(triangle, ([a, b, c, d, e, f]) => {
        const under = [vec(a, b), vec(c, d), vec(e, f)];
        const over = [vec(-45, -40), vec(50, -35), vec(48, 45), vec(-40, 38)];
        const found = cover([whole(polygon(over))], [whole(polygon(under))])!;
        const left = OverlayOp.difference(theirs(under), theirs(over));
        const bare = found.bare.reduce((sum, { area }) => sum + area, 0);
        expect(Math.abs(bare - left.getArea())).toBeLessThan(0.05);
        if (left.getArea() > 0.05) {
          // No corner of what is left lies farther off; from the outside of a shape without hollows the farthest is a corner.
          const edge = theirs(over).getExteriorRing();
          const far = Math.max(...left.getCoordinates().map((p: unknown) => DistanceOp.distance(factory.createPoint(p), edge)));
          expect(Math.abs(-found.margin - far)).toBeLessThan(0.005);
        } else if (left.getArea() === 0)
          expect(found.margin).toBeCloseTo(
            DistanceOp.distance(theirs(under).getExteriorRing(), theirs(over).getExteriorRing()),
            4,
          );
      }),
      { numRuns: 60 },
    );
  });
});

describe("apart and roomInside", () => {
  it("are the gap between edges, below 0 where one runs into the other or out of it", () => {
    const a = whole(rectangle(0, 0, 10, 10));
    expect(apart(a, whole(rectangle(13, 0, 20, 10))).distance).toBeCloseTo(3, 9);
    expect(apart(whole(rectangle(13, 0, 20, 10)), a).a.x).toBeCloseTo(13, 9);
    expect(apart(a, whole(rectangle(8, 0, 20, 10))).distance).toBeCloseTo(-2, 3);
    // All of it; its place deepest in the other is the other's middle, (7.5, 7.5): 12.5 from its edges.
    expect(apart(a, whole(rectangle(-5, -5, 20, 20))).distance).toBeCloseTo(-12.5, 2);
    expect(roomInside(whole(rectangle(2, 3, 8, 7)), a).distance).toBeCloseTo(2, 9);
    expect(roomInside(whole(rectangle(2, 3, 12, 7)), a).distance).toBeCloseTo(-2, 3);
  });

  it("touch at 0", () => {
    expect(apart(whole(rectangle(0, 0, 10, 10)), whole(rectangle(10, 0, 20, 10))).distance).toBeCloseTo(0, 9);
  });
});
