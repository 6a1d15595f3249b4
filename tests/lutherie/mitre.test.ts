import { describe, expect, it } from "vitest";
import { rotation, transformPoint } from "../../src/geometry/transform.ts";
import { vec, type Vec } from "../../src/geometry/vec.ts";
import { mitreOf } from "../../src/lutherie/mitre.ts";
import { jtsIntersection } from "../geometry/jts.ts";

const DEGREE = Math.PI / 180;

/** How far a place lies off the line through the origin at an angle, to its right. */
const off = ({ x, y }: { readonly x: number; readonly y: number }, angle: number): number =>
  x * Math.sin(angle) - y * Math.cos(angle);

describe("mitreOf", () => {
  it("halves the corner of two strips alike: 45 degrees at a right angle, and 1.5 x sqrt 2 long", () => {
    const { first, second, length } = mitreOf(1.5, 1.5, 90 * DEGREE);
    expect(first / DEGREE).toBeCloseTo(45, 12);
    expect(second / DEGREE).toBeCloseTo(45, 12);
    expect(length).toBeCloseTo(1.5 * Math.SQRT2, 12);
  });

  it("runs over the diagonal of the rectangle that 0.5 and 1.5 span at a right angle: atan(1/3) = 18.435 degrees, 1.5811 long", () => {
    const { first, second, length } = mitreOf(0.5, 1.5, 90 * DEGREE);
    expect(first / DEGREE).toBeCloseTo(18.4349, 4);
    expect(second / DEGREE).toBeCloseTo(71.5651, 4);
    expect(length).toBeCloseTo(Math.hypot(0.5, 1.5), 12);
  });

  it("ends where both inner edges meet, worked here from the two lines: a horn of 62 degrees with 0.9 and 2.3", () => {
    const [a, b, corner] = [0.9, 2.3, 62 * DEGREE];
    // The first edge along x from the corner, the second at 62 degrees. Inner edges: y = 0.9, and the line 2.3 inside the second edge.
    // x sin 62 - y cos 62 = 2.3 with y = 0.9.
    const x = (b + a * Math.cos(corner)) / Math.sin(corner);
    const { first, second, length } = mitreOf(a, b, corner);
    expect(first).toBeCloseTo(Math.atan2(a, x), 12);
    expect(length).toBeCloseTo(Math.hypot(x, a), 12);
    expect(first + second).toBeCloseTo(corner, 12);
  });

  it("ends in the corner that JTS finds for the overlap of both strips, alike or not, in sharp and in blunt corners", () => {
    for (const [a, b, degrees] of [
      [1.5, 1.5, 60],
      [0.5, 1.5, 91.5],
      [0.5, 1.5, 88.5],
      [2.4, 0.9, 35],
      [0.6, 2.3, 140],
    ] as const) {
      const corner = degrees * DEGREE;
      // Along x with the wood above it, and turned by the corner with the wood below it; both run on beyond the corner.
      const strip = (thickness: number, angle: number): Vec[] =>
        [vec(-20, 0), vec(20, 0), vec(20, thickness), vec(-20, thickness)].map((p) => transformPoint(rotation(angle), p));
      const low = strip(a, 0);
      const high = strip(-b, corner).toReversed();
      const inner = jtsIntersection([{ outer: low, holes: [] }], [{ outer: high, holes: [] }])
        .getCoordinates()
        .reduce(
          (best, p) =>
            Math.hypot(p.x, p.y) > Math.hypot(best.x, best.y) && p.y > a - 1e-6 && off(p, corner) > b - 1e-6 ? p : best,
          {
            x: 0,
            y: 0,
          },
        );
      const { first, second, length } = mitreOf(a, b, corner);
      expect(length, `${degrees}`).toBeCloseTo(Math.hypot(inner.x, inner.y), 9);
      expect(first, `${degrees}`).toBeCloseTo(Math.atan2(inner.y, inner.x), 9);
      expect(first + second).toBeCloseTo(corner, 12);
    }
  });

  it("is refused without two thicknesses and a corner between them", () => {
    expect(() => mitreOf(0, 1, 1)).toThrow(RangeError);
    expect(() => mitreOf(1, -1, 1)).toThrow(RangeError);
    expect(() => mitreOf(1, 1, Math.PI)).toThrow(RangeError);
  });
});
