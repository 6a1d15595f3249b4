import { describe, expect, it } from "vitest";
import { pathArea, pathLength } from "../../src/geometry/measure.ts";
import { asCircle } from "../../src/geometry/path.ts";
import { vec } from "../../src/geometry/vec.ts";
import { roundOval } from "../../src/lutherie/oval.ts";

describe("a line round an oval", () => {
  it("is a true circle where both axes are equal", () => {
    expect(asCircle(roundOval({ centre: vec(3, 4), a: 50, b: 50 }, 8))).toEqual({ centre: vec(3, 4), radius: 58 });
  });

  it("agrees with Steiner's formulas: area A + P d + pi d², length P + 2 pi d, P by numeric integration", () => {
    const [a, b] = [35, 55];
    const n = 20_000;
    let perimeter = 0;
    for (let i = 0; i < n; i++) {
      const s = (2 * Math.PI * (i + 0.5)) / n;
      perimeter += (Math.hypot(a * Math.sin(s), b * Math.cos(s)) * 2 * Math.PI) / n;
    }
    for (const d of [0, 4, 20]) {
      const path = roundOval({ centre: vec(500, -10), a, b }, d);
      expect(Math.abs(pathArea(path) - (Math.PI * a * b + perimeter * d + Math.PI * d * d))).toBeLessThan(0.3);
      expect(Math.abs(pathLength(path) - (perimeter + 2 * Math.PI * d))).toBeLessThan(0.01);
    }
  });

  it("refuses what is no oval", () => {
    expect(() => roundOval({ centre: vec(0, 0), a: 0, b: 5 }, 1)).toThrow(RangeError);
    expect(() => roundOval({ centre: vec(0, 0), a: 4, b: 5 }, -1)).toThrow(RangeError);
  });
});
