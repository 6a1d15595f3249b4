import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Vec } from "../../src/geometry/vec.ts";
import { sidePoint, sidesOf } from "../../src/lutherie/neck-section.ts";
import { wallAt } from "../../src/lutherie/neck-walls.ts";

/** Places along each quarter that the nearest is picked from by looking at them all. */
const LOOKS = 2000;

describe("the wood between a point and the back of a neck", () => {
  it("is the least of all distances to a dense row of points on the curve, for round, flat and square shoulders that lean", () => {
    const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        fc.record({ half: size(17, 30), depth: size(8, 25), lean: size(-0.6, 0.6), bass: size(1, 8), treble: size(1, 8) }),
        size(-1, 1),
        fc.oneof(fc.constant(0), size(0, 1)),
        ({ half, depth, lean, bass, treble }, across, down) => {
          const section = { halfWidth: half, depth, lean: lean * half, bassExponent: bass, trebleExponent: treble };
          const from = { x: across * half, y: down === 0 ? 0 : -down * depth };
          const { distance, to } = wallAt(section, from);
          const rows = sidesOf(section).map((side) =>
            Array.from({ length: LOOKS + 1 }, (_, i) => sidePoint(side, (Math.PI / 2 / LOOKS) * i)),
          );
          const away = (a: Vec, b: Vec): number => Math.hypot(a.x - b.x, a.y - b.y);
          const widest = Math.max(...rows.flatMap((row) => row.slice(1).map((place, i) => away(place, row[i]!))));
          const least = Math.min(...rows.flat().map((place) => away(place, from)));
          // A row misses any place on the curve by no more than its widest step: the curve is convex, and a quarter turn in all.
          expect(Math.abs(distance)).toBeLessThan(least + 1e-6);
          expect(Math.abs(distance)).toBeGreaterThan(least - widest);
          expect(away(to, from)).toBeCloseTo(Math.abs(distance), 9);
          expect(Math.min(...rows.flat().map((place) => away(place, to)))).toBeLessThan(widest);
          // Outside the wood it is below 0: the section's own equation, (|x - lean| / a)^p + (|y| / depth)^p = 1.
          const [a, p] = from.x < section.lean ? [half + section.lean, bass] : [half - section.lean, treble];
          const filled = (Math.abs(from.x - section.lean) / a) ** p + (-from.y / depth) ** p;
          if (Math.abs(distance) > 1e-9) expect(Math.sign(distance)).toBe(Math.sign(1 - filled));
        },
      ),
      { numRuns: 300 },
    );
  });
});
