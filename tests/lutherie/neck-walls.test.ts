import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
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
          const row = sidesOf(section).flatMap((side) =>
            Array.from({ length: LOOKS + 1 }, (_, i) => sidePoint(side, (Math.PI / 2 / LOOKS) * i)),
          );
          const least = Math.min(...row.map(({ x, y }) => Math.hypot(x - from.x, y - from.y)));
          expect(Math.abs(distance)).toBeLessThan(least + 1e-3);
          expect(Math.hypot(to.x - from.x, to.y - from.y)).toBeCloseTo(Math.abs(distance), 9);
          // A row misses the nearest place by no more than half of its widest step.
          expect(Math.abs(distance)).toBeGreaterThan(least - 0.1);
        },
      ),
      { numRuns: 300 },
    );
  });
});
