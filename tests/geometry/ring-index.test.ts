import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ringIndex } from "../../src/geometry/ring-index.ts";
import { distanceToSegment, vec } from "../../src/geometry/vec.ts";
import { wavyRing } from "./shapes.ts";

describe("the index of sides", () => {
  it("finds the same distance as looking at every side, with sides short and long, slanted, level and upright", () => {
    const coordinate = fc.integer({ min: -400, max: 400 }).map((k) => k / 10);
    const point = fc.record({ x: coordinate, y: coordinate });
    const ring = fc.array(point, { minLength: 3, maxLength: 12 });
    fc.assert(
      fc.property(
        ring,
        point,
        fc.double({ min: 0.1, max: 30, noNaN: true }),
        fc.integer({ min: 3, max: 300 }),
        (rough, p, reach, count) => {
          const rings = [rough, wavyRing(25, 6, 5, count)];
          const sides = rings.flatMap((r) => r.map((a, i) => [a, r[(i + 1) % r.length]!] as const));
          const least = Math.min(...sides.map(([a, b]) => distanceToSegment(p, a, b)));
          expect(ringIndex(rings, reach).distanceWithin(p, reach)).toBe(least <= reach ? least : undefined);
        },
      ),
    );
  });

  it("answers for a point on a corner and for no rings", () => {
    expect(ringIndex([[vec(0, 0), vec(1, 0), vec(0, 1)]], 1).distanceWithin(vec(1, 0), 0.5)).toBe(0);
    expect(ringIndex([], 1).distanceWithin(vec(1, 0), 0.5)).toBeUndefined();
  });
});
