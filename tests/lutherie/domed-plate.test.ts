import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { vec } from "../../src/geometry/vec.ts";
import { leastDome, plateHeight, type DomedPlate } from "../../src/lutherie/domed-plate.ts";

const top: DomedPlate = { radius: 4600, neck: { x: 357, height: 0 }, tail: { x: 847, height: 0 }, bulges: "up" };
const back: DomedPlate = { radius: 4600, neck: { x: 357, height: -95 }, tail: { x: 847, height: -110 }, bulges: "down" };

describe("plateHeight", () => {
  it("bulges up under a top and down under a back: 4600 - sqrt(4600² - 245²) = 6.529 in the middle of a level plate of 490", () => {
    const sagitta = 4600 - Math.sqrt(4600 ** 2 - 245 ** 2);
    expect(plateHeight(top, vec(602, 0))).toBeCloseTo(sagitta, 9);
    expect(plateHeight({ ...back, tail: { x: 847, height: -95 } }, vec(602, 0))).toBeCloseTo(-95 - sagitta, 9);
  });

  it("keeps every point of a slanting back at the radius from one middle, found here by bisecting along the chord's normal", () => {
    const [a, b] = [vec(357, -95), vec(847, -110)];
    const half = Math.hypot(b.x - a.x, b.y - a.y) / 2;
    const [mx, mz] = [(a.x + b.x) / 2, (a.y + b.y) / 2];
    // Square to the chord, upwards: the middle of a sphere that bulges down lies above it.
    const [nx, nz] = [-(b.y - a.y) / (2 * half), (b.x - a.x) / (2 * half)];
    let [low, high] = [0, 4600];
    for (let k = 0; k < 80; k++) {
      const t = (low + high) / 2;
      if (Math.hypot(a.x - mx - t * nx, a.y - mz - t * nz) < 4600) low = t;
      else high = t;
    }
    const [cx, cz] = [mx + low * nx, mz + low * nz];
    for (const [x, y] of [
      [357, 0],
      [847, 0],
      [600, 190],
      [420, -140],
      [800, 60],
    ] as const)
      expect(Math.hypot(x - cx, y, plateHeight(back, vec(x, y)) - cz)).toBeCloseTo(4600, 8);
  });

  it("is a plain taper when flat, whatever lies across", () => {
    fc.assert(
      fc.property(fc.double({ min: 357, max: 847, noNaN: true }), fc.double({ min: -200, max: 200, noNaN: true }), (x, y) => {
        const share = (x - 357) / 490;
        expect(plateHeight({ neck: back.neck, tail: back.tail, bulges: "down" }, vec(x, y))).toBeCloseTo(-95 - 15 * share, 9);
      }),
    );
  });
});

describe("leastDome", () => {
  it("reaches every place that it is asked to, on plates of all slants", () => {
    const length = fc.double({ min: 10, max: 800, noNaN: true });
    fc.assert(
      fc.property(
        length,
        fc.double({ min: -300, max: 300, noNaN: true }),
        length,
        fc.double({ min: 0, max: 6.3, noNaN: true }),
        (l, fall, wide, angle) => {
          const plate: DomedPlate = { neck: { x: 0, height: 0 }, tail: { x: l, height: -fall }, bulges: "down" };
          const reach = Math.max(wide, l / 2);
          const radius = leastDome(plate.neck, plate.tail, reach);
          const at = vec(l / 2 + reach * Math.cos(angle), reach * Math.sin(angle));
          expect(Number.isFinite(plateHeight({ ...plate, radius }, at))).toBe(true);
        },
      ),
      { numRuns: 2000 },
    );
  });
});
