import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { conductance, coupledModes, riseFromHoles, stiffBoxHz, type AirHole } from "../../src/lutherie/air-resonance.ts";

const round = (radius: number, wall: number): AirHole => ({ a: radius, b: radius, wall });

describe("stiffBoxHz", () => {
  // f = 343/2pi sqrt(S / (V (t + 2 delta r))), worked outside this project: litres, hole radius, wall, both end corrections,
  // and the first with a second hole of radius 10 through 2.2.
  it.each([
    [16.5, 50.8, 2.8, 128.2, 133.1, 139.2],
    [14.5, 42.5, 2.5, 124.9, 129.8, 137.7],
    [12, 47.5, 2.5, 145.4, 151.1, 158.8],
  ])(
    "gives a box of %d l with a hole of radius %d through %d the worked frequencies",
    (litres, radius, wall, wide, thin, withSide) => {
      const main = round(radius, wall);
      const side = round(10, 2.2);
      expect(Math.abs(stiffBoxHz(litres, [main], "wideWall") - wide)).toBeLessThan(0.15);
      expect(Math.abs(stiffBoxHz(litres, [main], "thinWall") - thin)).toBeLessThan(0.06);
      expect(Math.abs(stiffBoxHz(litres, [main, side], "wideWall") - withSide)).toBeLessThan(0.15);
      expect(riseFromHoles([main], [side], "wideWall")).toBeCloseTo(
        stiffBoxHz(litres, [main, side], "wideWall") / stiffBoxHz(litres, [main], "wideWall"),
        12,
      );
    },
  );

  it.each([
    [50.8, 2.8, 8.6],
    [42.5, 2.5, 10.3],
    [47.5, 2.5, 9.2],
  ])("rises by the worked share for a side hole beside radius %d through %d: %d %%", (radius, wall, pct) => {
    expect(Math.abs((riseFromHoles([round(radius, wall)], [round(10, 2.2)], "wideWall") - 1) * 100 - pct)).toBeLessThan(0.06);
  });

  it("refuses no hole, no volume and a hole without size", () => {
    expect(() => stiffBoxHz(16, [], "wideWall")).toThrow(RangeError);
    expect(() => stiffBoxHz(0, [round(50, 2)], "wideWall")).toThrow(RangeError);
    expect(() => conductance({ a: 0, b: 3, wall: 2 }, "thinWall")).toThrow(RangeError);
    expect(() => conductance({ a: 3, b: 3, wall: Number.NaN }, "thinWall")).toThrow(RangeError);
    expect(() => riseFromHoles([], [round(10, 2)], "thinWall")).toThrow(RangeError);
  });
});

describe("conductance", () => {
  it("is twice the radius for a round hole in a thin wall, and S / (t + 2 delta r) for any wall", () => {
    expect(conductance(round(50, 0), "thinWall")).toBeCloseTo(100, 12);
    fc.assert(
      fc.property(fc.double({ min: 2, max: 80, noNaN: true }), fc.double({ min: 0, max: 10, noNaN: true }), (r, t) => {
        expect(conductance(round(r, t), "thinWall")).toBeCloseTo((Math.PI * r * r) / (t + (Math.PI / 2) * r), 9);
        expect(conductance(round(r, t), "wideWall")).toBeCloseTo((Math.PI * r * r) / (t + (16 / (3 * Math.PI)) * r), 9);
      }),
    );
  });

  // The circle of equal area is low by these shares in a thin wall (worked outside); K(e) by Simpson's rule agrees.
  it.each([
    [1.5, 1.0],
    [2, 2.9],
    [3, 7.1],
  ])("of an ellipse with axes 1 : %d exceeds its equal circle by %d %% of itself", (ratio, pct) => {
    const [a, b] = [30 * ratio, 30];
    const ellipse = conductance({ a, b, wall: 0 }, "thinWall");
    expect(Math.abs((1 - (2 * Math.sqrt(a * b)) / ellipse) * 100 - pct)).toBeLessThan(0.06);
    const n = 2000;
    const m = 1 - (b / a) ** 2;
    let sum = 0;
    for (let i = 0; i <= n; i += 1) {
      const weight = i === 0 || i === n ? 1 : i % 2 ? 4 : 2;
      sum += weight / Math.sqrt(1 - m * Math.sin((Math.PI / 2) * (i / n)) ** 2);
    }
    const integral = (sum * Math.PI) / 2 / (3 * n);
    expect(ellipse).toBeCloseTo((Math.PI * a) / integral, 8);
    expect(conductance({ a: b, b: a, wall: 0 }, "thinWall")).toBeCloseTo(ellipse, 10);
  });
});

describe("coupledModes", () => {
  it("works the moving top: 128 with 175 open and 195 closed gives 108.5 and 206.5 Hz", () => {
    const modes = coupledModes(128, 175, 195)!;
    expect(modes.air).toBeCloseTo(108.5, 1);
    expect(modes.top).toBeCloseTo(206.5, 1);
    expect(modes.air ** 2 + modes.top ** 2).toBeCloseTo(128 ** 2 + 195 ** 2, 6);
    expect(modes.air * modes.top).toBeCloseTo(128 * 175, 6);
  });

  it("has no modes where the closed top is lower than both rules allow, and refuses frequencies that are none", () => {
    expect(coupledModes(175, 175, 100)).toBeUndefined();
    expect(() => coupledModes(0, 175, 195)).toThrow(RangeError);
    expect(() => coupledModes(128, Number.NaN, 195)).toThrow(RangeError);
  });
});
