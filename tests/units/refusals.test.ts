/** Text that cannot be read, or that can be read two ways, is refused with its place and the mend. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { QuantityKind } from "../../src/units/quantity.ts";
import { readQuantity } from "../../src/units/read.ts";
import type { TextError } from "../../src/units/result.ts";

const refusal = (text: string, quantity: QuantityKind = "length", bareUnit: "in" | "mm" = "in"): TextError => {
  const read = readQuantity(text, { quantity, bareUnit });
  if (read.ok) throw new Error(`${JSON.stringify(text)} was read as ${read.value.value}`);
  return read.error;
};

/** Text, the part of it that is wrong, words of the message, words of the mend. */
type Refused = readonly [text: string, wrong: string, says: string, mend: string];

const LENGTHS: readonly Refused[] = [
  ["", "", "nothing is written", "Write a length, such as 1 11/16 in."],
  ["   ", "   ", "nothing is written", "Write a length"],
  // The comma between groups of three.
  ["1,234", "1,234", "decimal sign or thousands", "Write 1.234 or 1234."],
  ["12,345 mm", "12,345", "decimal sign or thousands", "Write 12.345 or 12345."],
  ["1,234,567", "1,234,567", "too many points or commas", "Write one decimal sign and no sign for thousands."],
  ["1.2.3", "1.2.3", "too many points or commas", "Write one decimal sign"],
  ["1,23.4", "1,23.4", "too many points or commas", "Write one decimal sign"],
  ["5.", ".", "ends in its decimal sign", "Write 5 or 5.0."],
  ["5,", ",", "ends in its decimal sign", "Write 5 or 5.0."],
  // Two numbers.
  ["1 2", "2", "a second number, “2”", "begin with = to calculate"],
  ["1 234 mm", "234 mm", "a second number", "Write a length"],
  ["1 11/16 11/16", "11/16", "a second number, “11/16”", "such as 1 11/16 in"],
  ["½½", "½", "a second number", "Write a length"],
  ["1.5 1/2", "1/2", "a second number", "Write a length"],
  ["1 in 11/16", "11/16", "a second number", "such as 1 11/16 in"],
  ["2 in 3 mm", "3 mm", "a second number, “3 mm”", "begin with = to calculate"],
  ["5 mm mm", "mm", "a second unit", "Write one unit"],
  // Fractions.
  ["1/0", "0", "the bottom of the fraction is 0", "Write a bottom number of 1 or more."],
  ["1 1/0 in", "0", "the bottom of the fraction is 0", "Write a bottom number"],
  ["¹⁄₀", "¹⁄₀", "the bottom of the fraction is 0", "Write a bottom number"],
  ["5/", "", "the fraction has no bottom number", "Write it as 5/8."],
  ["5/ in", "/", "the fraction has no bottom number", "Write it as 5/8."],
  ["/8", "/", "the fraction has no top number", "Write it as 5/8."],
  ["1/2/3", "/", "“/” does not belong", "Begin with ="],
  ["1 5/4", "5/4", "must be less than 1", "Write a mixed number as 1 11/16."],
  ["1-16/16", "16/16", "must be less than 1", "Write a mixed number as 1 11/16."],
  ["1.5/2", "1.5", "with whole numbers", "begin with = to calculate"],
  ["1/2.5", "2.5", "with whole numbers", "begin with = to calculate"],
  // A sum is not guessed at: a dash with blanks, and the true minus sign, take away.
  ["1 - 11/16", "-", "does not belong in one measure", "Begin with = to calculate"],
  ["1−11/16", "−", "does not belong in one measure", "Begin with = to calculate"],
  ["2' - 1\"", "-", "does not belong in one measure", "Begin with = to calculate"],
  ["2 + 3", "+", "does not belong in one measure", "Begin with ="],
  ["1 11/16 + 0.02", "+", "does not belong in one measure", "Begin with ="],
  ["1 11/16 + 0.004 mm", "+", "does not belong in one measure", "Begin with ="],
  ["3 * 2", "*", "does not belong in one measure", "Begin with ="],
  ["(2)", "(", "does not begin a number", "begin with = to calculate"],
  ["1 + 0.015625", "+", "does not belong in one measure", "Begin with ="],
  ["1 11/16 + 0.004 5", "+", "does not belong in one measure", "Begin with ="],
  ["1 11/16 + 0.004 in in", "+", "does not belong in one measure", "Begin with ="],
  ["1.5 + 0.004", "+", "does not belong in one measure", "Begin with ="],
  ["1 11/16 in + 0.004", "+", "does not belong in one measure", "Begin with ="],
  ["-(2)", "(", "“(” does not begin a number", "begin with = to calculate"],
  ["*2", "*", "“*” does not begin a number", "begin with = to calculate"],
  ["-+5", "+", "two signs", "Write one."],
  ["+-5", "-", "two signs", "Write one."],
  ["--5", "-", "two signs", "Write one."],
  ["-", "", "no number follows the sign", "Write it as -1 11/16 in."],
  ["5 mm,", ",", "a comma stands behind the number", "Leave it out."],
  // Feet and inches.
  ["1' 12\"", "12", "fewer than 12", "Write feet and inches as 2 ft 1 1/2 in."],
  ["1.5' 2\"", "1.5", "must be a whole number", "Write feet and inches as 2 ft 1 1/2 in."],
  ["1 1/2 ft 2 in", "1 1/2", "must be a whole number", "Write feet and inches as 2 ft 1 1/2 in."],
  ["2 ft 3 mm", "3 mm", "only inches may follow feet", "= 2 ft + 3 mm"],
  ["1' 1/0\"", "0", "the bottom of the fraction is 0", "Write a bottom number"],
  // Other notations.
  ["1e9", "1e9", "is a power of ten", "Write the number out in full."],
  ["1.5E-3 mm", "1.5E-3", "is a power of ten", "Write the number out in full."],
  ["0x1F", "0x1F", "is not a decimal number", "digits 0 to 9"],
  ["0b11", "0b11", "is not a decimal number", "digits 0 to 9"],
  ["NaN", "NaN", "“NaN” is not a number", "Write digits"],
  ["Infinity", "Infinity", "“Infinity” is not a number", "Write digits"],
  ["-Infinity", "Infinity", "“Infinity” is not a number", "Write digits"],
  ["∞", "∞", "“∞” is not read here", "Leave out “∞”."],
  ["nutWidth", "nutWidth", "is not a number", "begin with = to use the name of a dimension"],
  ["50 %", "%", "a percentage is not read here", "Write 50 % as 0.5."],
  ["[5]", "[", "is not read here", "Write round brackets"],
  ["5 mm²", "²", "is not read here", "Leave out “²”."],
  ["5\\8", "\\", "is not read here", "Leave out “\\”."],
  ["🎸", "🎸", "“🎸” is not read here", "Leave out"],
  ["9".repeat(400), "9".repeat(400), "more than 25 digits", "Write fewer digits."],
  [`1/${"9".repeat(400)}`, "9".repeat(400), "more than 25 digits", "Write fewer digits."],
  [`0.${"3".repeat(400)} mm`, `0.${"3".repeat(400)}`, "more than 25 digits", "Write fewer digits."],
  // Units.
  ["5 inchs", "inchs", "“inchs” is no unit", "Did you mean inch?"],
  ["5 furlongs", "furlongs", "is no unit", "Use in, ft, thou, mm, cm or m."],
  ["5x", "x", "is no unit", "Use in, ft, thou, mm, cm or m."],
  ["in", "in", "no number stands before the unit", "Write it as 1 11/16 in."],
  ["14 deg", "14 deg", "this is an angle, and a length is wanted", "Write a length, such as 1 11/16 in."],
  // Size.
  ["21 m", "21 m", "longer than 20 m", "Check the number and its unit."],
  ["-20.001 m", "-20.001 m", "longer than 20 m", "Check the number and its unit."],
  ["1000", "1000", "longer than 20 m", "Check the number and its unit."],
  ["9".repeat(25), "9".repeat(25), "longer than 20 m", "Check the number and its unit."],
];

const partOf = (text: string, { at, length }: TextError): string => text.slice(at, at + length);

describe("a length is refused", () => {
  it.each(LENGTHS)("%j, at %j: %s", (text, wrong, says, mend) => {
    const error = refusal(text);
    expect(partOf(text, error)).toBe(wrong);
    expect(error.message).toContain(says);
    expect(error.mend).toContain(mend);
  });

  it("where a fraction without a unit stands in a design in millimetres, since it may be meant in inches", () => {
    for (const text of ["1 11/16", "1-11/16", "½", "27/16", "- 3/8"]) {
      const error = refusal(text, "length", "mm");
      expect(error.message).toContain("may be meant in inches");
      expect(error.mend).toBe("Write in or mm behind it.");
    }
  });

  it("where thousandths follow such a fraction in a design in millimetres", () => {
    expect(refusal("1 11/16 + 0.004", "length", "mm")).toMatchObject({ at: 8, length: 1 });
  });

  it("with the place counted in the text as it was typed, blanks and all", () => {
    expect(refusal("   1 2")).toMatchObject({ at: 5, length: 1 });
    expect(refusal("5/   ")).toMatchObject({ at: 2, length: 0 });
  });
});

describe("other quantities are refused", () => {
  const cases: readonly (readonly [QuantityKind, ...Refused])[] = [
    ["angle", "14 mm", "14 mm", "this is a length, and an angle is wanted", "Write an angle, such as 14 deg."],
    ["angle", "361", "361", "more than a full turn", "at most 360 degrees"],
    ["angle", "14 dg", "dg", "“dg” is no unit", "Did you mean deg?"],
    ["angle", "14.5° 30'", "14.5", "only the last part", "Write degrees and minutes as 14° 30'."],
    ["angle", "14° 60'", "60", "fewer than 60", "Write degrees and minutes as 14° 30'."],
    ["angle", "14° 30", "30", "a second number", "such as 14 deg"],
    ["number", "5 mm", "5 mm", "this is a length, and a plain number is wanted", "Leave out the unit."],
    ["number", "5 abc", "abc", "does not belong in a plain number", "Leave it out."],
    ["number", "9".repeat(25), "9".repeat(25), "over 1,000,000,000", "Check the number."],
    ["number", "", "", "nothing is written", "Write a plain number, such as 1.5."],
    ["count", "12.5", "12.5", "a whole number is wanted", "such as 12"],
    ["count", "3,000", "3,000", "decimal sign or thousands", "Write 3.000 or 3000."],
    ["count", "twelve", "twelve", "is not a number", "Write digits, such as 12"],
  ];
  it.each(cases)("%s %j", (quantity, text, wrong, says, mend) => {
    const error = refusal(text, quantity);
    expect(partOf(text, error)).toBe(wrong);
    expect(error.message).toContain(says);
    expect(error.mend).toContain(mend);
  });
});

const resolve = (name: string) =>
  name === "nutWidth"
    ? ({ ok: true, value: { quantity: "length", value: 44.45 } } as const)
    : ({ ok: false, error: { message: `there is no dimension named ${name}`, mend: "Use another." } } as const);

describe("any text at all", () => {
  const PIECES = [
    "=",
    "1",
    "11/16",
    "0.5",
    ",",
    ".",
    " ",
    "in",
    "mm",
    "'",
    '"',
    "°",
    "½",
    "/",
    "-",
    "−",
    "+",
    "*",
    "(",
    ")",
    "min",
    "sqrt",
    "nutWidth",
    "[0]",
    "e9",
    "0x",
    "\u202f",
    "⁄",
    "¹",
    "deg",
    "ft",
    "9999999",
  ];
  const text = fc.oneof(
    fc.string({ unit: "grapheme", maxLength: 30 }),
    fc.string({ unit: "binary", maxLength: 30 }),
    fc.array(fc.constantFrom(...PIECES), { maxLength: 12 }).map((pieces) => pieces.join("")),
  );

  it("is read as a finite number or refused with a place inside it, a reason and a mend", () => {
    fc.assert(
      fc.property(
        text,
        fc.constantFrom("length", "angle", "number", "count"),
        fc.constantFrom("in", "mm"),
        (typed, quantity, bareUnit) => {
          const read = readQuantity(typed, { quantity, bareUnit, resolve });
          if (read.ok) {
            expect(Number.isFinite(read.value.value)).toBe(true);
            expect(Object.is(read.value.value, -0)).toBe(false);
            return;
          }
          const { at, length, message, mend } = read.error;
          expect(at).toBeGreaterThanOrEqual(0);
          expect(length).toBeGreaterThanOrEqual(0);
          expect(at + length).toBeLessThanOrEqual(typed.length);
          expect(message).toMatch(/^[^.].*[^.]$/s);
          // One plain sentence.
          expect(mend).toMatch(/^[A-Z].*[.?]$/s);
        },
      ),
      { numRuns: 3000 },
    );
  });
});
