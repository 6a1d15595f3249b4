import { describe, expect, it } from "vitest";
import { say, show, splitTyped, stepOf } from "../../src/ui/notation.ts";

describe("a typed length", () => {
  it.each([
    ["1 11/16 in", "1 11/16", "in"],
    ['1-11/16"', "1-11/16", "in"],
    ["1 11/16″", "1 11/16", "in"],
    ["42,86 mm", "42,86", "mm"],
    ["95 thou", "95", "thou"],
    [".095", ".095", "in"],
    ["1½ in", "1½", "in"],
    // More than one unit stays whole.
    [`2' 1"`, `2' 1"`, ""],
    ["14°", "14", "°"],
    ["= 2 * 3 mm", "= 2 * 3 mm", "in"],
  ])("%s is shown as %s and a small %s", (typed, text, unit) => {
    expect(splitTyped(typed, "in")).toMatchObject({ text, unit });
  });
});

describe("a length as a fraction", () => {
  it("is shown as the nearest 1/64 with the thousandths that this leaves: 43 mm = 1.6929 in = 1 11/16 + 0.005", () => {
    expect(show(43, "length", { unit: "in", fractions: true })).toEqual({
      text: "1 11/16",
      rest: "+ 0.005",
      unit: "in",
      typed: "1 11/16 + 0.005",
    });
  });
});

describe("a length in a sentence", () => {
  it("is said in decimals where a rule has no such line", () => {
    expect(say(43, "length", { unit: "in", fractions: true })).toBe("1.693 in");
    expect(say(42.8625, "length", { unit: "in", fractions: true })).toBe("1 11/16 in");
  });
});

describe("a press of an arrow key", () => {
  it("is the number's own step in millimetres and the next round one in inches", () => {
    expect(stepOf(0.1, "length", { unit: "mm", fractions: false })).toBe(0.1);
    expect(stepOf(0.1, "length", { unit: "in", fractions: false })).toBeCloseTo(0.005 * 25.4, 12);
    expect(stepOf(0.5, "length", { unit: "in", fractions: true })).toBeCloseTo(25.4 / 32, 12);
    expect(stepOf(undefined, "count", { unit: "in", fractions: false })).toBe(1);
  });
});
