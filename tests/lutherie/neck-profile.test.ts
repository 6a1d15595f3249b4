import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { flatten } from "../../src/geometry/flatten.ts";
import { distance, distanceToSegment, vec } from "../../src/geometry/vec.ts";
import { neckProfile, type NeckProfileNumbers } from "../../src/lutherie/neck-profile.ts";

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

const LEVEL: NeckProfileNumbers = {
  first: { x: 36, depth: 15 },
  second: { x: 286, depth: 15 },
  headX: -5.5,
  tilt: radians(15),
  headThickness: 12.5,
  bend: 36,
  voluteHeight: 0,
  voluteLength: 30,
  heel: { from: 313, to: 344, depth: 90 },
};
const tapered = { ...LEVEL, second: { x: 286, depth: 17 } };

describe("the back of a neck", () => {
  it("runs straight through both measured depths up to the heel", () => {
    const { depthAt } = neckProfile(tapered);
    expect(depthAt(36)).toBe(15);
    expect(depthAt(161)).toBeCloseTo(16, 12);
    expect(depthAt(286)).toBeCloseTo(17, 12);
    expect(depthAt(313)).toBeCloseTo(17.216, 12);
  });

  it("runs along the head at its thickness, square to its face", () => {
    const { depthAt, bendFrom } = neckProfile(tapered);
    for (const x of [bendFrom, -60, -150]) {
      // Distance of (x, -depth) from the line through (-5.5, 0) along (-cos 15°, -sin 15°): |cross product|.
      const away = (x + 5.5) * -Math.sin(radians(15)) - -depthAt(x) * -Math.cos(radians(15));
      expect(Math.abs(away)).toBeCloseTo(12.5, 9);
    }
  });

  it("meets in a corner worked by hand, rounded by a quarter of w there", () => {
    // 12.5/cos 15° = 12.94095; (−5.5 − x) 0.267949 + 12.94095 = 15 gives x = −13.18447. w = 18 · 0.267949 = 4.82309.
    const { depthAt, corner, bendFrom, bendTo } = neckProfile(LEVEL);
    expect(corner).toBeCloseTo(-13.18447, 4);
    expect(depthAt(corner)).toBeCloseTo(15 + 4.82309 / 4, 4);
    expect([bendFrom, bendTo]).toEqual([corner - 18, corner + 18]);
  });

  it("touches both straight lines where the bend ends", () => {
    const { depthAt, bendFrom, bendTo } = neckProfile(tapered);
    const slope = (x: number): number => (depthAt(x + 1e-4) - depthAt(x - 1e-4)) / 2e-4;
    expect(slope(bendTo)).toBeCloseTo(2 / 250, 4);
    expect(slope(bendFrom)).toBeCloseTo(-Math.tan(radians(15)), 4);
  });

  it("carries a volute whose wood stands highest over the corner and ends in nothing", () => {
    const plain = neckProfile(LEVEL);
    const { depthAt, corner } = neckProfile({ ...LEVEL, voluteHeight: 3, voluteLength: 30 });
    const extra = (x: number): number => depthAt(x) - plain.depthAt(x);
    expect(extra(corner)).toBeCloseTo(3, 9);
    // Half way to the end: 3 cos²(45°).
    expect(extra(corner + 7.5)).toBeCloseTo(1.5, 9);
    expect(extra(corner - 15)).toBeCloseTo(0, 9);
  });

  it("drops to the foot of the heel in a quarter ellipse on a level back", () => {
    const { depthAt } = neckProfile(LEVEL);
    // u = 0.6 of 31: 15 + 75 (1 - sqrt(1 - 0.36)) = 30.
    expect(depthAt(313 + 0.6 * 31)).toBeCloseTo(30, 9);
    expect(depthAt(344)).toBeCloseTo(90, 9);
    expect(depthAt(350)).toBe(90);
  });

  it("is drawn within 0.002 mm of its formula, whatever the numbers", () => {
    const any = fc.record({
      depths: fc.tuple(fc.double({ min: 8, max: 30, noNaN: true }), fc.double({ min: 8, max: 30, noNaN: true })),
      tilt: fc.double({ min: 0.03, max: 0.5, noNaN: true }),
      headThickness: fc.double({ min: 6, max: 25, noNaN: true }),
      bend: fc.double({ min: 4, max: 80, noNaN: true }),
      voluteHeight: fc.double({ min: 0, max: 6, noNaN: true }),
    });
    fc.assert(
      fc.property(any, ({ depths, ...numbers }) => {
        const profile = neckProfile({
          ...LEVEL,
          ...numbers,
          first: { x: 36, depth: depths[0] },
          second: { x: 286, depth: depths[1] },
        });
        const from = -150;
        const start = vec(from, -profile.depthAt(from));
        const segments = profile.segments(from, 344);
        const drawn = flatten({ start, segments, closed: false }, 5e-4);
        // The formula as a dense row of points, by the angle in the heel, where it comes to run upright.
        const xs = [
          ...Array.from({ length: 9261 }, (_, i) => from + i * 0.05),
          ...Array.from({ length: 4001 }, (_, i) => 313 + 31 * Math.sin((Math.PI / 2) * (i / 4000))),
        ];
        const dense = xs.map((x) => vec(x, -profile.depthAt(x)));
        for (const p of drawn) {
          const near = dense.flatMap((q, i) => (Math.abs(q.x - p.x) < 0.2 && i + 1 < dense.length ? [i] : []));
          const away = Math.min(...near.map((i) => distanceToSegment(p, dense[i]!, dense[i + 1]!)));
          expect(away, `at ${p.x}`).toBeLessThan(2e-3);
        }
        expect(distance(segments.at(-1)!.to, vec(344, -90))).toBeLessThan(1e-9);
      }),
      { numRuns: 8 },
    );
  });

  it("refuses a level head, depths out of order and a heel without length", () => {
    expect(() => neckProfile({ ...LEVEL, tilt: 0 })).toThrow(RangeError);
    expect(() => neckProfile({ ...LEVEL, first: LEVEL.second, second: LEVEL.first })).toThrow(RangeError);
    expect(() => neckProfile({ ...LEVEL, heel: { from: 344, to: 344, depth: 90 } })).toThrow(RangeError);
    expect(() => neckProfile({ ...LEVEL, bend: Number.NaN })).toThrow(RangeError);
  });
});
