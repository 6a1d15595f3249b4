import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { flatten } from "../../src/geometry/flatten.ts";
import { circle, rectangle } from "../../src/geometry/path.ts";
import { pathLength } from "../../src/geometry/measure.ts";
import { vec } from "../../src/geometry/vec.ts";
import { within } from "../../src/parts/company.ts";

const box = { minX: 0, minY: 0, maxX: 100, maxY: 60 };

describe("what of a path lies in a window", () => {
  it("is the path itself where all of it does, and nothing where none does", () => {
    const path = circle(vec(50, 30), 20);
    expect(within(path, box)).toEqual([path]);
    expect(within(circle(vec(300, 30), 20), box)).toEqual([]);
  });

  it("is each stretch on its own: a rectangle that runs out on two sides leaves its two level sides, 100 long", () => {
    const found = within(rectangle(-20, 10, 130, 40), box);
    expect(found.map(pathLength)).toEqual([expect.closeTo(100, 9), expect.closeTo(100, 9)]);
  });

  it("lies in the window, and all points of the path there lie on it", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -40, max: 140, noNaN: true }),
        fc.double({ min: -40, max: 100, noNaN: true }),
        fc.double({ min: 5, max: 90, noNaN: true }),
        (x, y, r) => {
          const pieces = within(circle(vec(x, y), r), box);
          const points = pieces.flatMap((path) => flatten(path, 0.01));
          for (const p of points) {
            expect(p.x).toBeGreaterThan(-1e-9);
            expect(p.x).toBeLessThan(100 + 1e-9);
            expect(p.y).toBeGreaterThan(-1e-9);
            expect(p.y).toBeLessThan(60 + 1e-9);
            expect(Math.abs(Math.hypot(p.x - x, p.y - y) - r)).toBeLessThan(0.06);
          }
          // Outside: the share of the circle in the window, by counting.
          const n = 4000;
          const inside = Array.from({ length: n }, (_, i) => (2 * Math.PI * i) / n).filter((a) => {
            const [px, py] = [x + r * Math.cos(a), y + r * Math.sin(a)];
            return px >= 0 && px <= 100 && py >= 0 && py <= 60;
          }).length;
          const length = pieces.reduce((sum, path) => sum + pathLength(path), 0);
          expect(Math.abs(length - (inside / n) * 2 * Math.PI * r)).toBeLessThan(0.02 * r + 0.5);
        },
      ),
      { numRuns: 60 },
    );
  });
});
