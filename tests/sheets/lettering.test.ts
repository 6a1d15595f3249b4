import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { textWidth, wrap } from "../../src/sheets/lettering.ts";

describe("lettering of fixed advance", () => {
  it("ten letters 2.5 mm high are 10 x 632 / 668 x 2.5 mm wide", () => {
    expect(textWidth("abcdefghij", 2.5)).toBeCloseTo(23.6527, 4);
  });

  it("is broken at blanks, and within a word only where it must be", () => {
    // 1 mm capitals: 20 letters in 18.93 mm.
    expect(wrap("cut to the centre of the line", 18.93, 1)).toEqual(["cut to the centre of", "the line"]);
    expect(wrap("abcdefghijklmnopqrstuvwxyz ab", 18.93, 1)).toEqual(["abcdefghijklmnopqrst", "uvwxyz ab"]);
    expect(wrap("  ", 10, 1)).toEqual([]);
  });

  it("loses no letter and keeps within the width", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 200 }), fc.double({ min: 1, max: 80, noNaN: true }), (text, width) => {
        const lines = wrap(text, width, 1);
        expect(lines.join("").replace(/\s/g, "")).toBe(text.replace(/\s/g, ""));
        for (const line of lines) expect(textWidth(line, 1) <= width + 1e-6 || [...line].length === 1).toBe(true);
      }),
    );
  });
});
