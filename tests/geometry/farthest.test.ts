import * as fc from "fast-check";
import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import DiscreteHausdorffDistance from "jsts/org/locationtech/jts/algorithm/distance/DiscreteHausdorffDistance.js";
import { describe, expect, it } from "vitest";
import { farthestApart } from "../../src/geometry/farthest.ts";
import { circle, polygon, rectangle } from "../../src/geometry/path.ts";
import { transformPoint } from "../../src/geometry/transform.ts";
import { distance, vec, type Vec } from "../../src/geometry/vec.ts";
import { FRAMES, placePath } from "./frames.ts";
import { bodyPath } from "./shapes.ts";

describe("how far two outlines are apart at most", () => {
  it("is nothing for the same line, whatever it is", () => {
    for (const path of [bodyPath(), circle(vec(3, 4), 50), rectangle(0, 0, 100, 40)])
      expect(farthestApart(path, path).distance).toBeLessThan(1e-9);
  });

  describe.each(FRAMES)("%s", (_, frame) => {
    const place = (path: Parameters<typeof placePath>[1]) => placePath(frame, path);

    it("is the difference of the radii of two circles about one point", () => {
      const found = farthestApart(place(circle(vec(0, 0), 50)), place(circle(vec(0, 0), 50.3)));
      expect(Math.abs(found.distance - 0.3)).toBeLessThan(0.003);
    });

    it("is the way of a corner that was moved, and lies there", () => {
      // The corner (100, 40) goes to (101, 42): its way to the rectangle that was is along (1, 2), √5.
      const before = place(rectangle(0, 0, 100, 40));
      const after = place(polygon([vec(0, 0), vec(100, 0), vec(101, 42), vec(0, 40)]));
      const found = farthestApart(before, after);
      expect(Math.abs(found.distance - Math.sqrt(5))).toBeLessThan(0.003);
      expect(distance(found.at, transformPoint(frame, vec(101, 42)))).toBeLessThan(0.01);
    });

    it("sees a bay in the middle of a side as well from the one as from the other", () => {
      // A bay 5 deep and 20 wide in a side of 100: its bottom corners are 5 from the straight side.
      const plain = place(rectangle(0, 0, 100, 40));
      const bay = place(
        polygon([vec(0, 0), vec(40, 0), vec(40, 5), vec(60, 5), vec(60, 0), vec(100, 0), vec(100, 40), vec(0, 40)]),
      );
      expect(Math.abs(farthestApart(plain, bay).distance - 5)).toBeLessThan(0.003);
      expect(Math.abs(farthestApart(bay, plain).distance - 5)).toBeLessThan(0.003);
    });
  });

  it("agrees with the JTS library on rings of any corners", () => {
    const corner = fc
      .tuple(fc.integer({ min: -200, max: 200 }), fc.integer({ min: -200, max: 200 }))
      .map(([x, y]) => vec(x / 2, y / 2));
    const ring = fc.uniqueArray(corner, { minLength: 3, maxLength: 9, selector: (p) => `${p.x} ${p.y}` });
    fc.assert(
      fc.property(ring, ring, (a, b) => {
        const ours = farthestApart(polygon(a), polygon(b)).distance;
        // JTS looks at points along the sides, PART of a side apart: it finds too little by half of such a step at the most.
        const theirs = jtsFarthest(a, b);
        const longest = Math.max(
          ...[a, b].flatMap((points) => points.map((p, i) => distance(p, points[(i + 1) % points.length]!))),
        );
        expect(ours).toBeGreaterThanOrEqual(theirs - 0.003);
        expect(ours).toBeLessThanOrEqual(theirs + (longest * PART) / 2 + 0.003);
      }),
      { numRuns: 300 },
    );
  });
});

const PART = 0.005;
const factory = new GeometryFactory();

interface Measuring {
  setDensifyFraction(part: number): void;
  distance(): number;
}

function jtsFarthest(a: readonly Vec[], b: readonly Vec[]): number {
  const ringOf = (points: readonly Vec[]) =>
    factory.createLinearRing([...points, points[0]!].map((p) => new Coordinate(p.x, p.y)));
  const Measure = DiscreteHausdorffDistance as unknown as new (a: unknown, b: unknown) => Measuring;
  const measure = new Measure(ringOf(a), ringOf(b));
  measure.setDensifyFraction(PART);
  return measure.distance();
}
