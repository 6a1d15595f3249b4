import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { NamedQuantity } from "../../src/units/quantity.ts";
import { readQuantity } from "../../src/units/read.ts";
import { withUnits } from "../../src/units/with-units.ts";

const NAMES: Readonly<Record<string, NamedQuantity>> = {
  nutWidth: { quantity: "length", value: 42.8625 },
  frets: { quantity: "number", value: 20 },
  headAngle: { quantity: "angle", value: 0.25 },
};
const resolve = (name: string) => {
  const value = NAMES[name];
  return value
    ? ({ ok: true, value } as const)
    : ({ ok: false, error: { message: `there is no dimension named ${name}`, mend: "Use another." } } as const);
};
const spelled = (text: string, bareUnit: "in" | "mm" = "in", quantity: "length" | "angle" | "number" = "length"): string => {
  const result = withUnits(text, { quantity, bareUnit, resolve });
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
};

const zero = () => ({ ok: true, value: { quantity: "length", value: 0 } }) as const;

describe("a text made independent of the design's unit", () => {
  it.each([
    ["1 11/16", "1 11/16 in"],
    [" 0.095 ", "0.095 in"],
    ["1,5", "1,5 in"],
    ["-½", "-½ in"],
    ["1 11/16 + 0.004", "1 11/16 + 0.004 in"],
    ["= nutWidth - 2 * 0.095", "= nutWidth - 2 * 0.095 in"],
    ["=nutWidth-2*.095", "=nutWidth-2*.095 in"],
    ["= 4/2", "= 4/2 in"],
    ["= 4 / 2", "= 4 in / 2"],
    ["= nutWidth + (1 + 2 * 3) / 4", "= nutWidth + (1 in + 2 * 3 in) / 4"],
    ["= max(1, nutWidth) - min(2, 3)", "= max(1 in, nutWidth) - min(2 in, 3 in)"],
    ["= -(1 11/16)", "= -(1 11/16 in)"],
    ["= sqrt(4)", "= sqrt(4) * 1 in"],
    ["= nutWidth * abs(-1/2) + abs(-1)", "= nutWidth * abs(-1/2) + abs(-1 in)"],
  ])("%s in inches becomes %s", (text, expected) => {
    expect(spelled(text)).toBe(expected);
  });

  it.each([
    "1 11/16 in",
    " 42,86 mm",
    "95 thou",
    "= nutWidth / 2",
    "= nutWidth - 2 * 0.095 in",
    "= 3/8 in + 2 mm",
    "= frets * 1 mm",
  ])("%s stays as it is", (text) => {
    expect(spelled(text)).toBe(text);
  });

  it("is left alone where no length leans on the unit", () => {
    expect(spelled("14", "in", "angle")).toBe("14");
    expect(spelled("= headAngle + 1", "in", "angle")).toBe("= headAngle + 1");
    expect(spelled("1.5", "mm", "number")).toBe("1.5");
    expect(spelled("= (nutWidth + 1) / 1 mm", "mm", "number")).toBe("= (nutWidth + 1 mm) / 1 mm");
  });

  it("needs only the quantities of the dimensions named, whatever their values", () => {
    const field = { quantity: "length", bareUnit: "in", resolve: zero } as const;
    expect(withUnits("= 1 + nutWidth * sqrt(-1 - 1 in / nutWidth)", field)).toEqual({
      ok: true,
      value: "= 1 in + nutWidth * sqrt(-1 - 1 in / nutWidth)",
    });
    expect(withUnits("= nutWidth / 3 mm", { ...field, quantity: "count" })).toEqual({ ok: true, value: "= nutWidth / 3 mm" });
  });

  it("is refused where it cannot be read", () => {
    expect(withUnits("1 2", { quantity: "length", bareUnit: "in" })).toMatchObject({ ok: false, error: { at: 2 } });
    expect(withUnits("= 1 +", { quantity: "length", bareUnit: "in" })).toMatchObject({ ok: false, error: { at: 5 } });
    expect(withUnits("= unknown + 1", { quantity: "length", bareUnit: "in", resolve })).toMatchObject({
      ok: false,
      error: { at: 2 },
    });
  });

  it("has the same value whatever unit it is read with", () => {
    const { length } = fc.letrec<{ length: string; bare: string }>((tie) => ({
      bare: fc.oneof(
        { maxDepth: 3 },
        fc.constantFrom("1", "0.5", "1 11/16", "3/8", "4/2", "½"),
        fc.tuple(tie("bare"), fc.constantFrom("+", "-", "*"), tie("bare")).map(([a, sign, b]) => `(${a} ${sign} ${b})`),
        tie("bare")
          .map((a) => `${a} / 2`)
          .map((a) => `(${a})`),
        tie("bare").map((a) => `sqrt(abs(${a}))`),
        tie("bare")
          .map((a) => `-(${a})`)
          .map((a) => `(${a})`),
        fc.tuple(tie("bare"), tie("bare")).map(([a, b]) => `min(${a}, ${b})`),
      ),
      length: fc.oneof(
        { maxDepth: 3 },
        fc.constantFrom("nutWidth", "2 mm", "1 11/16 in", "2' 1\""),
        tie("bare"),
        fc.tuple(tie("length"), fc.constantFrom("+", "-"), tie("length")).map(([a, sign, b]) => `(${a} ${sign} ${b})`),
        fc.tuple(tie("length"), tie("bare")).map(([a, b]) => `max(${a}, ${b})`),
      ),
    }));
    let compared = 0;
    fc.assert(
      fc.property(length, fc.constantFrom("in", "mm"), (expression, bareUnit) => {
        const text = `= ${expression}`;
        const before = readQuantity(text, { quantity: "length", bareUnit, resolve });
        // Fractions are refused in millimetres, and some of these grow over 20 m.
        fc.pre(before.ok);
        const sure = spelled(text, bareUnit);
        for (const other of ["in", "mm"] as const) {
          const after = readQuantity(sure, { quantity: "length", bareUnit: other, resolve });
          if (!after.ok) throw new Error(`${sure}: ${after.error.message}`);
          expect(after.value.value).toBeCloseTo(before.ok ? before.value.value : Number.NaN, 6);
        }
        expect(spelled(sure, bareUnit)).toBe(sure);
        compared++;
      }),
      { numRuns: 500 },
    );
    expect(compared).toBe(500);
  });
});
