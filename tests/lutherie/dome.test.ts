import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { vec } from "../../src/geometry/vec.ts";
import { domeHeight, leanOnDome, type Dome } from "../../src/lutherie/dome.ts";

const flat = (first: number, second: number): Dome => ({
  radius: Infinity,
  first: { x: 0, height: first },
  second: { x: 490, height: second },
});

describe("domeHeight", () => {
  it("is the plain taper for a flat plate, whatever lies across: 80 at the neck, 105 at the tail, 92.5 half way", () => {
    expect(domeHeight(flat(80, 105), vec(245, 0))).toBe(92.5);
    expect(domeHeight(flat(80, 105), vec(245, 190))).toBe(92.5);
    expect(domeHeight(flat(80, 105), vec(600, -50))).toBeCloseTo(80 + (25 * 600) / 490, 12);
  });

  it("works a level dome by hand: 490 between its feet at radius 4600 rises 4600 - sqrt(4600² - 245²) = 6.529 in the middle", () => {
    const dome: Dome = { radius: 4600, first: { x: 0, height: 90 }, second: { x: 490, height: 90 } };
    expect(domeHeight(dome, vec(245, 0))).toBeCloseTo(90 + 4600 - Math.sqrt(4600 ** 2 - 245 ** 2), 9);
    // 195 to the side of the middle the sphere lies at sqrt(4600² - 195²) over its centre, the feet at sqrt(4600² - 245²).
    expect(domeHeight(dome, vec(245, 195))).toBeCloseTo(
      90 + Math.sqrt(4600 ** 2 - 195 ** 2) - Math.sqrt(4600 ** 2 - 245 ** 2),
      9,
    );
  });

  const heights = fc.double({ min: 40, max: 140, noNaN: true });
  const radii = fc.double({ min: 1500, max: 12000, noNaN: true });
  const places = fc.record({
    x: fc.double({ min: -50, max: 550, noNaN: true }),
    y: fc.double({ min: -210, max: 210, noNaN: true }),
  });

  it("goes through both given heights and keeps every point at the radius from one centre, found here from three of its points", () => {
    fc.assert(
      fc.property(heights, heights, radii, places, (a, b, radius, at) => {
        const dome: Dome = { radius, first: { x: 0, height: a }, second: { x: 490, height: b } };
        expect(domeHeight(dome, vec(0, 0))).toBeCloseTo(a, 8);
        expect(domeHeight(dome, vec(490, 0))).toBeCloseTo(b, 8);
        // The centre lies in the plane of the centre line, below the chord, at the radius from both feet.
        const [mx, mz] = [245, (a + b) / 2];
        const chord = Math.hypot(490, b - a);
        const drop = Math.sqrt(radius ** 2 - (chord / 2) ** 2);
        const [cx, cz] = [mx + (drop * (b - a)) / chord, mz - (drop * 490) / chord];
        expect(Math.hypot(at.x - cx, at.y, domeHeight(dome, at) - cz)).toBeCloseTo(radius, 6);
      }),
    );
  });

  it("tends to the plain taper as the radius grows, the difference falling with 1/R", () => {
    const at = vec(360, 195);
    const plain = domeHeight(flat(80, 105), at);
    let last = Infinity;
    for (const radius of [1e4, 1e5, 1e6, 1e9, 1e12]) {
      const off = Math.abs(domeHeight({ ...flat(80, 105), radius }, at) - plain);
      expect(off).toBeLessThan(last);
      expect(off * radius).toBeLessThan(5e4);
      last = off;
    }
    expect(last).toBeLessThan(1e-7);
  });

  it("does not care which end is named first nor about a shift along the body", () => {
    const dome: Dome = { radius: 5000, first: { x: 0, height: 82 }, second: { x: 490, height: 104 } };
    const swapped: Dome = { radius: 5000, first: dome.second, second: dome.first };
    const moved: Dome = { radius: 5000, first: { x: 300, height: 82 }, second: { x: 790, height: 104 } };
    expect(domeHeight(swapped, vec(100, 70))).toBeCloseTo(domeHeight(dome, vec(100, 70)), 10);
    expect(domeHeight(moved, vec(400, 70))).toBeCloseTo(domeHeight(dome, vec(100, 70)), 10);
  });

  it("refuses a radius that cannot span the two places, places one over the other, and points beyond the sphere", () => {
    const dome = flat(80, 105);
    expect(() => domeHeight({ ...dome, radius: 200 }, vec(0, 0))).toThrow(RangeError);
    expect(() => domeHeight({ ...dome, radius: Number.NaN }, vec(0, 0))).toThrow(RangeError);
    expect(() => domeHeight({ ...dome, second: { x: 0, height: 3 } }, vec(0, 0))).toThrow(RangeError);
    expect(() => domeHeight({ ...dome, radius: 300 }, vec(245, 400))).toThrow(RangeError);
  });
});

describe("leanOnDome", () => {
  it("leans a router asin(d/R): 195 mm out on a dome of 4572 mm that is 2.445 degrees", () => {
    expect((leanOnDome(195, 4572) * 180) / Math.PI).toBeCloseTo(2.4445, 3);
    expect(leanOnDome(195, Infinity)).toBe(0);
    expect(() => leanOnDome(2, 1)).toThrow(RangeError);
  });
});
