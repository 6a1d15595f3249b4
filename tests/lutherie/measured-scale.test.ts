import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { measuredScale, radiusFromSagitta, slotThatIsOut } from "../../src/lutherie/measured-scale.ts";

const reading = (fret: number, distance: number) => ({ fret, distance });

/** A reading of a true 650 board, off by this much. */
const at = (fret: number, off = 0) => reading(fret, 650 * (1 - 2 ** (-fret / 12)) + off);

describe("measuredScale", () => {
  it("finds 645.00 from frets 1, 5, 12, 14 at 36.1, 162.0, 322.5, 357.6 with residuals -0.10, +0.20, 0.00, -0.08", () => {
    const { scale, frets } = measuredScale([reading(1, 36.1), reading(5, 162), reading(12, 322.5), reading(14, 357.6)]);
    expect(Math.abs(scale - 645)).toBeLessThan(0.005);
    frets.map(({ residual }) => residual).forEach((r, i) => expect(Math.abs(r - [-0.1, 0.2, 0, -0.08][i]!)).toBeLessThan(0.006));
  });

  it("is twice the distance to fret 12 from that reading alone", () => {
    const { scale, frets } = measuredScale([reading(12, 322.4)]);
    expect(scale).toBeCloseTo(644.8, 12);
    expect(frets[0]).toEqual({ fret: 12, distance: 322.4, residual: expect.closeTo(0, 12), againstOthers: undefined });
  });

  it("gives the least sum of squares: no nearby scale is better", () => {
    const readings = [reading(3, 103.6), reading(7, 216), reading(10, 285.3), reading(17, 406.6)];
    const squares = (l: number): number =>
      readings.reduce((sum, { fret, distance }) => sum + (distance - l * (1 - 2 ** (-fret / 12))) ** 2, 0);
    const { scale } = measuredScale(readings);
    for (const off of [-0.05, -0.001, 0.001, 0.05]) expect(squares(scale + off)).toBeGreaterThan(squares(scale));
  });

  it("tells how far a fret stands from where the rest put it, as measuring it alone against them would (worked by leaving it out)", () => {
    const readings = [reading(1, 36.5), reading(5, 163.3), reading(9, 263.5), reading(12, 325)];
    const { frets } = measuredScale(readings);
    readings.forEach(({ fret, distance }, i) => {
      const { scale } = measuredScale(readings.filter((_, k) => k !== i));
      expect(frets[i]!.againstOthers).toBeCloseTo(distance - scale * (1 - 2 ** (-fret / 12)), 9);
    });
  });

  it("finds the slot that was cut wrong, and none on a true board", () => {
    expect(slotThatIsOut(measuredScale([at(2), at(5), at(7, 0.4), at(12), at(15)]), 0.15)?.fret).toBe(7);
    expect(slotThatIsOut(measuredScale([at(2), at(5), at(7), at(12)]), 0.15)).toBeUndefined();
    expect(slotThatIsOut(measuredScale([at(12)]), 0.15)).toBeUndefined();
  });

  it("returns any scale from exact readings", () => {
    const frets = fc.uniqueArray(fc.integer({ min: 1, max: 36 }), { minLength: 1, maxLength: 10 });
    fc.assert(
      fc.property(fc.double({ min: 300, max: 900, noNaN: true }), frets, (scale, numbers) => {
        expect(measuredScale(numbers.map((n) => reading(n, scale * (1 - 2 ** (-n / 12))))).scale).toBeCloseTo(scale, 8);
      }),
    );
  });

  it("refuses no readings, frets that are none and distances that are none", () => {
    expect(() => measuredScale([])).toThrow(RangeError);
    for (const bad of [reading(0, 10), reading(1.5, 10), reading(3, 0), reading(3, Number.NaN)])
      expect(() => measuredScale([bad])).toThrow(RangeError);
  });
});

describe("radiusFromSagitta", () => {
  it("works 1.2 over a chord of 50 by hand: 2500/9.6 + 0.6 = 261.0167", () =>
    expect(radiusFromSagitta(1.2, 50)).toBeCloseTo(261.016667, 6));

  it("comes back from the sagitta of any arch, r - sqrt(r² - (c/2)²)", () => {
    fc.assert(
      fc.property(fc.double({ min: 60, max: 1000, noNaN: true }), fc.double({ min: 20, max: 100, noNaN: true }), (r, c) => {
        expect(radiusFromSagitta(r - Math.sqrt(r * r - (c * c) / 4), c) / r).toBeCloseTo(1, 8);
      }),
    );
  });

  it("refuses a flat reading, which has no radius", () => {
    for (const [s, c] of [
      [0, 50],
      [1, 0],
      [-1, 50],
      [Number.NaN, 50],
    ] as const)
      expect(() => radiusFromSagitta(s, c)).toThrow(RangeError);
  });
});
