/** Formulas: their arithmetic against the JavaScript engine itself, their quantities and places against cases worked by hand. */
import { createContext, runInContext } from "node:vm";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluateFormula } from "../../src/units/evaluate.ts";
import { namesIn, parseFormula } from "../../src/units/formula.ts";
import type { NamedQuantity, QuantityKind, Resolve } from "../../src/units/quantity.ts";
import { readQuantity, type ReadQuantity } from "../../src/units/read.ts";
import type { Reading, TextError } from "../../src/units/result.ts";

const DIMENSIONS = new Map<string, NamedQuantity>([
  ["nutWidth", { quantity: "length", value: 42.8625 }],
  ["saddleSpread", { quantity: "length", value: 57.15 }],
  ["fingerboard.overhang", { quantity: "length", value: 3 }],
  ["binding[0].thickness", { quantity: "length", value: 2.413 }],
  ["headAngle", { quantity: "angle", value: 0.25 }],
  ["frets", { quantity: "number", value: 20 }],
]);

const read = (text: string, quantity: QuantityKind = "length", bareUnit: "in" | "mm" = "in"): Reading<ReadQuantity> =>
  readQuantity(text, {
    quantity,
    bareUnit,
    resolve: (name) => {
      const value = DIMENSIONS.get(name);
      if (value) return { ok: true, value };
      if (name === "loop")
        return {
          ok: false,
          error: { message: "loop needs neck.depth, which needs loop", mend: "Type a plain number into one of them." },
        };
      return { ok: false, error: { message: `there is no dimension named ${name}`, mend: "Did you mean nutWidth?" } };
    },
  });
const value = (text: string, quantity: QuantityKind = "length", bareUnit: "in" | "mm" = "in"): number => {
  const result = read(text, quantity, bareUnit);
  if (!result.ok) throw new Error(`${text}: ${result.error.message}`);
  return result.value.value;
};
const refusal = (text: string, quantity: QuantityKind = "length", bareUnit: "in" | "mm" = "in"): TextError => {
  const result = read(text, quantity, bareUnit);
  if (result.ok) throw new Error(`${text} was read as ${result.value.value}`);
  return result.error;
};

describe("a formula for a length", () => {
  // mm, worked by hand: 1 in = 25.4 mm, nut 42.8625, overhang 3, binding 2.413
  it.each([
    ["= nutWidth - 2 * 0.095 in", 38.0365], // 42.8625 - 4.826
    ["=nutWidth-2*.095in", 38.0365],
    ["  = nutWidth − 2 × 95 thou", 38.0365],
    ["= nutWidth - 2 * binding[0].thickness", 38.0365],
    ["= 3/8 in + 2 mm", 11.525], // 9.525 + 2
    ['= 3⁄8" + 2mm', 11.525],
    ["= ⅜ in + 2 mm", 11.525],
    ["= 1 5/8 in / 2", 20.6375], // 41.275 / 2
    ["= 1 5/8 in/2", 20.6375],
    ["= 1⅝″ / 2", 20.6375],
    ["= 1 11/16 - 2*.095", 38.0365],
    ["= 2' 1\" / 2", 317.5], // 635 / 2
    ["= 2 ft 1 in / 2", 317.5],
    ["= 2' 1 / 2", 317.5],
    ["= 2' 1 1/2\" - 1'", 342.9], // 647.7 - 304.8
    ["= 2' - 1\"", 584.2], // 609.6 - 25.4
    ["= fingerboard.overhang + 1 mm", 4],
    ["= fingerboard.overhang+1mm", 4],
    ["= -fingerboard.overhang", -3],
    ["= +fingerboard.overhang", 3],
    ["= (nutWidth + saddleSpread) / 2", 50.00625],
    ["= nutWidth * saddleSpread / saddleSpread", Number.NaN], // an area on the way: below
    ["= nutWidth * (saddleSpread / saddleSpread)", 42.8625],
    ["= nutWidth / saddleSpread * 1 in", 19.05], // 42.8625 / 57.15 = 0.75
    ["= min(nutWidth, saddleSpread)", 42.8625],
    ["= max(nutWidth, saddleSpread, 1 in)", 57.15],
    ["= max(nutWidth; saddleSpread)", 57.15],
    ["= abs(nutWidth - saddleSpread)", 14.2875],
    ["= sqrt(2.25) * 1 in", 38.1],
    ["= sqrt(saddleSpread / nutWidth * 3) * 1 mm", 2], // 4/3 * 3
    ["= frets * 1 mm", 20],
    ["= 40 mm * 3/4", 30],
    ["= 40 mm / (3/4)", 53.333_333_333_333_336],
  ])("%s", (text, mm) => {
    if (Number.isNaN(mm)) expect(refusal(text).message).toContain("an area");
    else expect(value(text)).toBeCloseTo(mm, 10);
  });

  it("takes a bare number in a sum, a difference, min or max in the design's unit", () => {
    expect(value("= nutWidth - 1", "length", "in")).toBeCloseTo(17.4625, 10);
    expect(value("= nutWidth - 1", "length", "mm")).toBeCloseTo(41.8625, 10);
    expect(value("= 1 + 2 mm", "length", "in")).toBeCloseTo(27.4, 10);
    expect(value("= max(1, 2 mm)", "length", "in")).toBe(25.4);
    expect(value("= max(1, 2 mm)", "length", "mm")).toBe(2);
    expect(value("= nutWidth - 2 * (1 + 0.5)", "length", "mm")).toBeCloseTo(39.8625, 10);
  });

  it("that comes to a bare number takes the design's unit", () => {
    expect(value("= 4/2", "length", "in")).toBe(50.8);
    expect(value("= 4/2", "length", "mm")).toBe(2);
    expect(value("= 4 / 2", "length", "mm")).toBe(2);
    expect(value("= 4/4", "length", "mm")).toBe(1);
    expect(value("= sqrt(16) + abs(-1)", "length", "mm")).toBe(5);
    expect(value("= 1 11/16", "length", "in")).toBe(42.8625);
  });

  it("takes a bare number in a product as a plain number", () => {
    expect(value("= nutWidth * 2", "length", "in")).toBeCloseTo(85.725, 10);
    expect(value("= 2 * nutWidth", "length", "mm")).toBeCloseTo(85.725, 10);
    expect(value("= nutWidth * 1/2", "length", "mm")).toBeCloseTo(21.43125, 10);
    expect(value("= nutWidth / 2", "length", "mm")).toBeCloseTo(21.43125, 10);
  });

  it("never turns a quotient of lengths, or a dimension that is a number, into a length", () => {
    for (const text of [
      "= nutWidth / saddleSpread",
      "= frets",
      "= frets / 2",
      "= frets * 2",
      "= 2 * frets",
      "= 2 / frets",
      "= -frets",
      "= nutWidth / 2 in",
      "= sqrt(frets)",
    ]) {
      expect(refusal(text)).toMatchObject({
        message: "the formula gives a plain number, and a length is wanted",
        mend: "Multiply it by a unit, such as 1 mm.",
      });
    }
    for (const text of ["= nutWidth + frets", "= nutWidth - nutWidth / saddleSpread", "= min(frets, 2 in)"]) {
      expect(refusal(text).message).toBe("a length and a plain number cannot be added or compared");
    }
  });
});

describe("formulas for other quantities", () => {
  it("give angles in radians, with bare numbers in degrees", () => {
    expect(value("= headAngle / 2", "angle")).toBe(0.125);
    expect(value("= headAngle + 1", "angle")).toBeCloseTo(0.25 + Math.PI / 180, 14);
    expect(value("= 14 + 0.1 rad", "angle")).toBeCloseTo((14 * Math.PI) / 180 + 0.1, 14);
    expect(value("= 90 / 2", "angle")).toBeCloseTo(Math.PI / 4, 14);
    expect(value("= 14° 30' * 2", "angle")).toBeCloseTo((29 * Math.PI) / 180, 14);
    expect(refusal("= nutWidth", "angle").message).toContain("a length, and an angle is wanted");
  });

  it("give numbers and counts", () => {
    expect(value("= nutWidth / saddleSpread", "number")).toBeCloseTo(0.75, 12);
    expect(value("= frets / 2", "count")).toBe(10);
    expect(value("= 0.1 * 3 * 10", "count")).toBe(3); // 0.30000000000000004 * 10
    expect(refusal("= frets / 3", "count")).toMatchObject({ at: 2, length: 9, message: "a whole number is wanted" });
    expect(refusal("= nutWidth", "number")).toMatchObject({ mend: "Divide it by a length, such as 1 in." });
    expect(refusal("= headAngle", "count")).toMatchObject({ mend: "Divide it by an angle, such as 1 deg." });
  });
});

const sevenOrNine: Resolve = (name) => ({ ok: true, value: { quantity: "length", value: name === "m" ? 7 : 9 } });

describe("what a formula reads", () => {
  it("is told by name, each once, in order", () => {
    const result = read("= nutWidth - 2 * binding[0].thickness + max(fingerboard.overhang, nutWidth)");
    expect(result.ok && result.value).toMatchObject({
      source: "formula",
      names: ["nutWidth", "binding[0].thickness", "fingerboard.overhang"],
    });
    const tree = parseFormula("= min(-b, (a.x[12].y), 2) / b");
    expect(tree.ok && namesIn(tree.value)).toEqual(["b", "a.x[12].y"]);
  });

  it("is nothing in a plain text", () => {
    expect(read("1 11/16")).toEqual({ ok: true, value: { value: 42.8625, source: "plain" } });
  });

  it("may bear the name of a unit or a function", () => {
    expect(readQuantity("= m + min - 2 mm", { quantity: "length", bareUnit: "in", resolve: sevenOrNine })).toMatchObject({
      value: { value: 14, names: ["m", "min"] },
    });
  });

  it("is refused with the resolver's own words at the place of the name", () => {
    expect(refusal("= 2 * nutwith")).toEqual({
      at: 6,
      length: 7,
      message: "there is no dimension named nutwith",
      mend: "Did you mean nutWidth?",
    });
    expect(refusal("= loop / 2")).toEqual({
      at: 2,
      length: 4,
      message: "loop needs neck.depth, which needs loop",
      mend: "Type a plain number into one of them.",
    });
    expect(readQuantity("= nutWidth", { quantity: "length", bareUnit: "in" })).toMatchObject({
      ok: false,
      error: { at: 2, length: 8, mend: "Write numbers alone." },
    });
  });

  it("knows no names of the language itself", () => {
    for (const name of ["constructor", "__proto__", "toString"])
      expect(refusal(`= ${name}`).message).toBe(`there is no dimension named ${name}`);
    expect(refusal("= constructor(1)").message).toContain("is no function");
  });
});

const nested = (depth: number): string => `= ${"(".repeat(depth)}1${")".repeat(depth)}`;

describe("a formula is refused", () => {
  it.each<readonly [text: string, wrong: string, says: string, mend: string]>([
    // Missing and surplus pieces.
    ["=", "", "nothing follows the =", "Write a number or the name of a dimension."],
    ["= 1 +", "", "a number is missing behind “+”", "Write a number or the name of a dimension."],
    ["= * 2", "*", "a number is missing behind the =", "Write a number or the name of a dimension."],
    ["= 2 * / 3", "/", "a number is missing behind “*”", "Write a number or the name of a dimension."],
    ["= 5/", "", "a number is missing behind “/”", "Write a number or the name of a dimension."],
    ["= ()", ")", "a number is missing behind “(”", "Write a number or the name of a dimension."],
    ["= 2 * (3 + 1", "(", "this bracket is not closed", "Write ) where it ends."],
    ["= 2)", ")", "this bracket closes none", "Leave it out"],
    ["= 2 = 2", "=", "a second =", "Write one = at its beginning."],
    ["= --5", "-", "two signs follow each other", "Write one"],
    ["= 2 nutWidth", "nutWidth", "“nutWidth” is no unit", "* to multiply"],
    ["= nutWidth saddleSpread", "saddleSpread", "no sign stands before “saddleSpread”", "Write + - * or / before it."],
    ["= 2 (3)", "(", "no sign stands before this bracket", "Write * before it to multiply."],
    ["= 2 x 3", "x", "“x” is not read here", "Write * to multiply."],
    ["= (1 + 2) in", "in", "stands behind no number", "as in (1 + 2) * 1 in"],
    ["= nutWidth mm", "mm", "stands behind no number", "Write the unit directly behind a number"],
    ["= 2 3", "3", "no sign stands before “3”", "Write + - * or / before it."],
    ["= 2 in 3 mm", "3", "no sign stands before “3”", "Write + - * or / before it."],
    ["= nutWidth ^ 2", "^", "“^” is not read here", "Multiply the number by itself with *."],
    ["= x[a]", "[", "is not read here", "Write round brackets"],
    // Two readings.
    ["= 1-11/16", "1-11/16", "join a mixed number or take away", "a blank on both sides of a minus"],
    ["= 1-½", "1-½", "join a mixed number or take away", "Write 1 11/16 for a mixed number"],
    ["= 2'-1\"", "'-1", "join feet and inches or take away", "Put a blank on both sides of a minus"],
    ["= nutWidth / 3/8", "/ 3/8", "two slashes in a row", "a / (3/8)"],
    ["= nutWidth/3/8 in", "/3/8", "two slashes in a row", "blanks around both slashes"],
    ["= nutWidth/-3/8 in", "/-3/8", "two slashes in a row", "blanks around both slashes"],
    ["= 42,86 mm", ",", "between two digits can be read two ways", "Write a point for the decimal sign"],
    ["= max(1,5 mm, 2 mm)", ",", "between two digits can be read two ways", "a blank behind the comma"],
    ["= 42, 86", ",", "a comma parts the numbers of min and max", "Write a point for the decimal sign."],
    // Functions.
    ["= mx(1, 2)", "mx", "“mx” is no function", "Did you mean max?"],
    ["= sine(2)", "sine", "“sine” is no function", "Use min, max, abs, sqrt"],
    ["= abs(1, 2)", "abs(1, 2)", "abs takes one number", "Leave out the others."],
    ["= min()", ")", "a number is missing behind “(”", "Write a number"],
    ["= sqrt(-1)", "sqrt(-1)", "below 0 has no square root", "abs inside"],
    ["= sqrt(nutWidth)", "sqrt(nutWidth)", "of a plain number, and this is a length", "sqrt(a / 1 mm) * 1 mm"],
    // Quantities.
    ["= 2 * nutWidth * nutWidth", "2 * nutWidth * nutWidth", "a length times a length is an area", "Leave out one of the units."],
    ["= nutWidth * headAngle", "nutWidth * headAngle", "a length times an angle is no length", "Leave out one of the units."],
    ["= 1 / 2 in", "1 / 2 in", "a plain number cannot be divided by a length", "as in 3/8 in"],
    [
      "= headAngle / nutWidth",
      "headAngle / nutWidth",
      "an angle cannot be divided by a length",
      "Leave out the unit behind the slash.",
    ],
    ["= nutWidth + headAngle", "nutWidth + headAngle", "a length and an angle cannot be added", "same quantity"],
    ["= 1 + (nutWidth + frets)", "(nutWidth + frets)", "a length and a plain number cannot be added", "as in frets * 1 mm"],
    ["= 14 deg", "14 deg", "the formula gives an angle, and a length is wanted", "Use other dimensions."],
    // Size and zero.
    ["= 1/0", "0", "the bottom of the fraction is 0", "Write a bottom number of 1 or more."],
    ["= nutWidth / 0", "0", "this divides by 0", "Divide by another number."],
    ["= 1 in / (2 - 2)", "(2 - 2)", "this divides by 0", "Divide by another number."],
    [
      "= nutWidth / ((nutWidth - nutWidth) / 1 mm)",
      "((nutWidth - nutWidth) / 1 mm)",
      "this divides by 0",
      "Divide by another number.",
    ],
    ["= 11 m + 10 m", "11 m + 10 m", "longer than 20 m", "Check the number and its unit."],
    ["= 1 + 9999999 * 9999999", "9999999 * 9999999", "the number here is too large", "Check what is multiplied or divided here."],
    ["= 1e9", "1e9", "is a power of ten", "Write the number out in full."],
    [`= ${"9".repeat(400)}`, "9".repeat(400), "more than 25 digits", "Write fewer digits."],
  ])("%s, at %j", (text, wrong, says, mend) => {
    const error = refusal(text);
    expect(text.slice(error.at, error.at + error.length)).toBe(wrong);
    expect(error.message).toContain(says);
    expect(error.mend).toContain(mend);
  });

  it("where a fraction without a unit would turn into millimetres", () => {
    for (const [text, fraction] of [
      ["= nutWidth - 11/16", "11/16"],
      ["= max(1 mm, ½)", "½"],
      ["= 1 11/16", "1 11/16"],
      ["= -(3/8)", "3/8"],
    ] as const) {
      const error = refusal(text, "length", "mm");
      expect(text.slice(error.at, error.at + error.length)).toBe(fraction);
      expect(error.mend).toBe("Write in or mm behind it.");
    }
  });

  it("where it is too deep or too long for the stack, and not a step sooner", () => {
    expect(value(nested(50), "number")).toBe(1);
    expect(refusal(nested(51), "number")).toMatchObject({ at: 52, length: 1, mend: "Take some out." });
    expect(refusal(nested(10_000), "number").mend).toBe("Write a shorter one.");
    expect(refusal(`= ${"(".repeat(10_000)}`, "number").mend).toBe("Write a shorter one.");
    expect(refusal(`= ${"min(".repeat(400)}1`, "number").mend).toBe("Take some out.");
    expect(value(`=${"1+".repeat(999)}1`, "number")).toBe(1000);
    expect(refusal(`=${"1+".repeat(1000)}1`, "number")).toMatchObject({ at: 2000, length: 2, mend: "Write a shorter one." });
    expect(refusal(`=${"1+".repeat(100_000)}1`, "number").mend).toBe("Write a shorter one.");
  });

  it("where it does not begin with =", () => {
    expect(parseFormula("  1 + 2")).toMatchObject({ ok: false, error: { at: 2, length: 0, mend: "Write = before it." } });
  });
});

const { min, max, abs } = Math;
const engine = createContext({ min, max, abs });
const byTheEngine = (text: string): number => runInContext(text, engine) as number;

/** A random expression as text that both JavaScript and a formula read, with no more brackets than its tree needs. */
interface Expression {
  readonly text: string;
  /** 1 sum, 2 product, 3 sign, 4 single. */
  readonly rank: number;
}
const bracketed = ({ text, rank }: Expression, least: number): string => (rank < least ? `(${text})` : text);
const number = fc.oneof(
  fc.integer({ min: 0, max: 99 }).map(String),
  fc.integer({ min: 0, max: 9999 }).map((n) => (n / 100).toFixed(2)),
);
const { expression } = fc.letrec<{ expression: Expression }>((tie) => {
  const operands = fc.tuple(tie("expression"), tie("expression"));
  const single = number.map((text): Expression => ({ text, rank: 4 }));
  return {
    expression: fc.oneof(
      { maxDepth: 6, withCrossShrink: true },
      single,
      fc
        .tuple(fc.constantFrom("+", "-"), operands)
        .map(([sign, [a, b]]): Expression => ({ text: `${bracketed(a, 1)} ${sign} ${bracketed(b, 2)}`, rank: 1 })),
      fc
        .tuple(fc.constantFrom("*", "/"), operands)
        .map(([sign, [a, b]]): Expression => ({ text: `${bracketed(a, 2)} ${sign} ${bracketed(b, 3)}`, rank: 2 })),
      tie("expression").map((a): Expression => ({ text: `-${bracketed(a, 4)}`, rank: 3 })),
      fc
        .tuple(fc.constantFrom("min", "max"), operands)
        .map(([name, [a, b]]): Expression => ({ text: `${name}(${a.text}, ${b.text})`, rank: 4 })),
      tie("expression").map((a): Expression => ({ text: `abs(${a.text})`, rank: 4 })),
    ),
  };
});

describe("a random formula", () => {
  it("of plain numbers comes to the bit to what the JavaScript engine makes of the same text", () => {
    let compared = 0;
    fc.assert(
      fc.property(expression, ({ text }) => {
        const expected = byTheEngine(text);
        const result = read(`= ${text}`, "number");
        if (!result.ok) {
          // Division by nothing, or a step out of bounds; the reason must be one of these.
          expect(result.error.message).toMatch(/divides by 0|too large|over 1,000,000,000/);
          return;
        }
        compared++;
        expect(result.value.value).toBe(expected + 0);
      }),
      { numRuns: 1000 },
    );
    expect(compared).toBeGreaterThan(600);
  });

  it("without blanks comes to the same", () => {
    fc.assert(
      fc.property(expression, ({ text }) => {
        const tight = text.replaceAll(", ", ";").replaceAll(" ", "");
        const result = read(`=${tight}`, "number");
        if (!result.ok) {
          expect(result.error.message).toMatch(
            /divides by 0|bottom of the fraction|too large|over 1,000,000,000|two slashes|the dash can join/,
          );
          return;
        }
        const expected = byTheEngine(text);
        // 2*6/3 is read as 2*(6/3), which may differ in the last bits.
        expect(Math.abs(result.value.value - expected)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(expected)));
      }),
      { numRuns: 1000 },
    );
  });

  it("of lengths scales with them: every number in cm gives ten times what it gives in mm", () => {
    // Sums of products of one length with plain numbers, so that every term is a length.
    const term = fc.tuple(number, fc.constantFrom("1", "0.5", "2.25"), fc.constantFrom("+", "-"));
    fc.assert(
      fc.property(fc.array(term, { minLength: 1, maxLength: 8 }), (terms) => {
        const inUnit = (unit: string): string => `= 0 mm ${terms.map(([a, b, sign]) => `${sign} ${a} * ${b} ${unit}`).join(" ")}`;
        const [mm, cm] = ["mm", "cm"].map((unit) => parseFormula(inUnit(unit)));
        if (!mm?.ok || !cm?.ok) throw new Error("a sum of lengths does not parse");
        const [small, large] = [mm, cm].map((tree) => evaluateFormula(tree.value, { quantity: "length", bareUnit: "in" }));
        fc.pre(small?.ok === true && large?.ok === true); // some are over 20 m
        expect(large?.ok && large.value).toBeCloseTo(10 * (small?.ok ? small.value : Number.NaN), 5);
      }),
    );
  });
});
