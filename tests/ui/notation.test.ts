import { describe, expect, it } from "vitest";
import { say, show, splitTyped, stepOf, wordsIn } from "../../src/ui/notation.ts";

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

describe("words with lengths in mm", () => {
  // 1 in is 25.4 mm exactly: 8 mm are 0.315 in, 44.45 mm are 1.75 in, 19.05 mm are 3/4 in.
  const [decimal, fractions, mm] = [
    { unit: "in", fractions: false },
    { unit: "in", fractions: true },
    { unit: "mm", fractions: false },
  ] as const;

  it("are said in the units shown", () => {
    expect(wordsIn("8 mm, or what the length leaves", decimal)).toBe("0.315 in, or what the length leaves");
    expect(wordsIn("strings and both margins; 44.45 mm where neither is given", decimal)).toBe(
      "strings and both margins; 1.75 in where neither is given",
    );
    expect(wordsIn("19.05 mm for a tenon", fractions)).toBe("3/4 in for a tenon");
    expect(wordsIn("soundholes of 98 to 102 mm", decimal)).toBe("soundholes of 3.858 in to 4.016 in");
  });

  it("keep an inch size that stands behind, and stay as they are in mm", () => {
    expect(wordsIn("wooden guards about 1.2 mm (3/64 in)", decimal)).toBe("wooden guards about 3/64 in");
    for (const words of ["8 mm, or what is left", "1.2 mm (3/64 in)"]) expect(wordsIn(words, mm)).toBe(words);
    expect(wordsIn("two frets, 12 strings", decimal)).toBe("two frets, 12 strings");
  });
});
