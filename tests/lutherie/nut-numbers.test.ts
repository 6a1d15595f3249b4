import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { marginFrom, spreadFrom, spreadShift, takenByStrings, widthFrom } from "../../src/lutherie/nut-numbers.ts";

describe("width, spread and margin at the nut", () => {
  it("give each other, worked by hand to the strings' centres", () => {
    // 1 11/16 in = 42.8625; margins 3.2: 42.8625 - 6.4 = 36.4625.
    const taken = takenByStrings("centre", 1.3462, 0.3048);
    expect(taken).toBe(0);
    expect(spreadFrom(42.8625, 3.2, taken)).toBeCloseTo(36.4625, 9);
    expect(widthFrom(36.4625, 3.2, taken)).toBeCloseTo(42.8625, 9);
    expect(marginFrom(42.8625, 36.4625, taken)).toBeCloseTo(3.2, 9);
  });

  it("leave the same board outside both outer strings where margins run to their edges", () => {
    // Half of the outer strings: (1.3462 + 0.3048) / 2 = 0.8255. Spread 44.45 - 2 x 3 - 0.8255 = 37.6245; its middle lies
    // (1.3462 - 0.3048) / 4 = 0.26035 to the treble side.
    const taken = takenByStrings("edge", 1.3462, 0.3048);
    const spread = spreadFrom(44.45, 3, taken);
    expect(spread).toBeCloseTo(37.6245, 9);
    const shift = spreadShift("edge", 1.3462, 0.3048);
    const bassEdge = shift - spread / 2 - 1.3462 / 2;
    const trebleEdge = shift + spread / 2 + 0.3048 / 2;
    expect(bassEdge + 44.45 / 2).toBeCloseTo(3, 9);
    expect(44.45 / 2 - trebleEdge).toBeCloseTo(3, 9);
  });

  it("turn back into each other for all numbers", () => {
    const mm = fc.double({ min: 0, max: 100, noNaN: true });
    fc.assert(
      fc.property(mm, mm, fc.double({ min: 0, max: 3, noNaN: true }), (spread, margin, taken) => {
        const width = widthFrom(spread, margin, taken);
        expect(spreadFrom(width, margin, taken)).toBeCloseTo(spread, 9);
        expect(marginFrom(width, spread, taken)).toBeCloseTo(margin, 9);
      }),
    );
  });
});
