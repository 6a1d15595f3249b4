import { describe, expect, it } from "vitest";
import { rootBetween } from "../../src/geometry/root.ts";

const between = (f: (t: number) => number, a: number, b: number, close = 1e-12): number =>
  rootBetween(f, a, b, f(a), f(b), close);

describe("a root between two places of different sign", () => {
  it("is that of the closed form, whichever end comes first", () => {
    expect(between((t) => t * t - 2, 0, 2)).toBeCloseTo(Math.SQRT2, 11);
    expect(between((t) => t * t - 2, 2, 0)).toBeCloseTo(Math.SQRT2, 11);
    expect(between(Math.cos, 0, 3)).toBeCloseTo(Math.PI / 2, 11);
  });

  it("is found where the curve is flat, steep, jumps or has no end", () => {
    // As near as f is to 0: |t| to the ninth is no more than 1e-30.
    expect(Math.abs(between((t) => t ** 9, -1, 2, 1e-30))).toBeLessThanOrEqual(1e-30 ** (1 / 9));
    expect(between((t) => Math.expm1(40 * (t - 0.3)), 0, 1)).toBeCloseTo(0.3, 10);
    expect(between((t) => (t < 0.7 ? -1 : 1), 0, 1)).toBeCloseTo(0.7, 12);
    expect(between((t) => (t < 0.2 ? Infinity : 0.5 - t), 0, 1)).toBeCloseTo(0.5, 11);
  });

  it("is an end that is near enough, and refused where both ends have one sign", () => {
    expect(between((t) => t, 0, 1)).toBe(0);
    expect(() => between((t) => t + 1, 0, 1)).toThrow(RangeError);
  });
});
