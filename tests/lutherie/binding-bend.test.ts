import { describe, expect, it } from "vitest";
import { bendOf } from "../../src/lutherie/binding-bend.ts";

describe("bendOf", () => {
  it("bends 1 in cold at 30 in for certain and at 20 in perhaps, the two ends of the published rule of thumb", () => {
    expect(bendOf(25.4, 30 * 25.4)).toBe("cold");
    expect(bendOf(25.4, 29.9 * 25.4)).toBe("perhaps-cold");
    expect(bendOf(25.4, 20 * 25.4)).toBe("perhaps-cold");
    expect(bendOf(25.4, 19.9 * 25.4)).toBe("hot");
  });

  it("takes a binding of 1.5 round a horn of 20 on the hot iron and a side of 2.2 round it not at all (common practice, from memory)", () => {
    expect(bendOf(1.5, 20)).toBe("hot");
    expect(bendOf(2.2, 20)).toBe("too-tight");
    expect(bendOf(1.5, Infinity)).toBe("cold");
  });

  it("refuses what has no thickness and no radius", () => {
    for (const [t, r] of [
      [0, 10],
      [1, 0],
      [Number.NaN, 10],
      [1, Number.NaN],
    ] as const)
      expect(() => bendOf(t, r)).toThrow(RangeError);
  });
});
