import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { vec } from "../../src/geometry/vec.ts";
import { fitSaddle } from "../../src/lutherie/saddle-line.ts";

describe("fitSaddle", () => {
  it("works three strings by hand: y -20, 0, 20 at x 650, 648, 652 give slope 0.05, crest at 650, residuals 1, -2, 1", () => {
    // mean x 650, slope = (-20·0 + 0·(-2) + 20·2) / 800 = 0.05; wished less given: 650-649, 648-650, 652-651
    const { x, slope, angle, residuals, spread } = fitSaddle([vec(650, -20), vec(648, 0), vec(652, 20)]);
    expect([x, slope, angle, spread]).toEqual([650, 0.05, Math.atan(0.05), 3]);
    expect(residuals).toEqual([1, -2, 1]);
  });

  it("lies exactly on strings that want a straight saddle, wherever they lie", () => {
    const number = fc.double({ min: -1, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        number,
        number,
        fc.uniqueArray(fc.integer({ min: -40, max: 40 }), { minLength: 2, maxLength: 12 }),
        (x, slope, ys) => {
          const fit = fitSaddle(ys.map((y) => vec(650 + x + slope * y, y)));
          expect(fit.slope).toBeCloseTo(slope, 9);
          expect(fit.x).toBeCloseTo(650 + x, 7);
          expect(fit.spread).toBeLessThan(1e-9);
        },
      ),
    );
  });

  it("is the best straight line: moving or turning it makes the sum of squares no smaller", () => {
    const points = [1.7, 3.2, 1.8, 2.2, 2.7, 3.6].map((c, i) => vec(645.16 + c, 27 - 10.8 * i));
    const { x, slope, residuals } = fitSaddle(points);
    const squares = (x0: number, k: number): number => points.reduce((sum, p) => sum + (p.x - x0 - k * p.y) ** 2, 0);
    const best = squares(x, slope);
    expect(residuals.reduce((sum, r) => sum + r * r, 0)).toBeCloseTo(best, 12);
    for (const dx of [-0.01, 0, 0.01]) {
      for (const dk of [-0.001, 0, 0.001]) expect(squares(x + dx, slope + dk)).toBeGreaterThanOrEqual(best - 1e-12);
    }
  });

  it("refuses one string, strings on one line and points that are no numbers", () => {
    expect(() => fitSaddle([vec(650, 0)])).toThrow(RangeError);
    expect(() => fitSaddle([])).toThrow(RangeError);
    expect(() => fitSaddle([vec(650, 1), vec(651, 1)])).toThrow(RangeError);
    expect(() => fitSaddle([vec(Number.NaN, 0), vec(651, 1)])).toThrow(RangeError);
  });
});
