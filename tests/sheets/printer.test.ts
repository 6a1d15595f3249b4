import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { correctionOf, READING_ERROR, ruleError, scaleOf, skewOf } from "../../src/sheets/printer.ts";

describe("a rule", () => {
  // Directive 2014/32/EU, Annex X, table 1: a + b L with L rounded up to whole metres; class I 0.1 + 0.1, II 0.3 + 0.2, III 0.6 + 0.4.
  it.each([
    ["I", 300, 0.2],
    ["II", 300, 0.5],
    ["III", 300, 1],
    ["II", 1000, 0.5],
    ["II", 1001, 0.7],
  ] as const)("of class %s may be off over %d mm by %d", (rule, length, error) => {
    expect(ruleError(length, rule)).toBeCloseTo(error, 12);
  });
});

describe("the scale of a printer", () => {
  it("is what was drawn over what is read: 250 that reads 249 is made 250/249 as long, so that it prints 250", () => {
    const scale = scaleOf({ drawn: 250, reads: 249 }, "I");
    expect(scale.factor).toBeCloseTo(1.004016, 6);
    expect((249 / 250) * 250 * scale.factor).toBeCloseTo(250, 12);
    expect(scale).toMatchObject({ differs: true, suspect: false });
  });

  it("is known to a tenth of a percent from 250 mm by the reading alone, and to 0.3 % with a class II rule at its worst", () => {
    // 0.25/250 = 0.1 %; (0.25 + 0.5)/250 = 0.3 %.
    const { uncertainty } = scaleOf({ drawn: 250, reads: 250 }, "II");
    expect(uncertainty).toBeCloseTo(0.003, 12);
    expect(READING_ERROR / 250).toBeCloseTo(0.001, 12);
  });

  it("does not tell a difference that a rule cannot show, and suspects one over 2 %", () => {
    expect(scaleOf({ drawn: 200, reads: 200.2 }, "II").differs).toBe(false);
    expect(scaleOf({ drawn: 200, reads: 196.2 }, "II").suspect).toBe(false);
    expect(scaleOf({ drawn: 200, reads: 195.9 }, "II").suspect).toBe(true);
    // Fitted to a page: letter art on A4 comes out at 210/215.9 = 97.3 %.
    expect(scaleOf({ drawn: 180, reads: (180 * 210) / 215.9 }, "II").suspect).toBe(true);
  });

  it("refuses lengths of nothing", () => {
    expect(() => scaleOf({ drawn: 0, reads: 1 }, "I")).toThrow(RangeError);
    expect(() => scaleOf({ drawn: 200, reads: Number.NaN }, "I")).toThrow(RangeError);
  });

  it("gives a correction by the printer's name", () => {
    const [across, along] = [scaleOf({ drawn: 200, reads: 199.2 }, "I"), scaleOf({ drawn: 250, reads: 250.5 }, "I")];
    expect(correctionOf("inkjet", across, along)).toEqual({ name: "inkjet", sx: 200 / 199.2, sy: 250 / 250.5 });
  });
});

describe("the skew of a printer", () => {
  it("is found from the diagonals of any parallelogram", () => {
    const side = fc.double({ min: 100, max: 400, noNaN: true });
    fc.assert(
      fc.property(side, side, fc.double({ min: -0.02, max: 0.02, noNaN: true }), (across, along, lean) => {
        // The upper corners of a sheet whose sides lean to the right by `lean`.
        const [shift, height] = [along * Math.sin(lean), along * Math.cos(lean)];
        const found = skewOf({ across, along }, Math.hypot(across + shift, height), Math.hypot(across - shift, height));
        expect(found?.lean).toBeCloseTo(lean, 9);
      }),
    );
  });

  it("is not told where readings 0.25 mm off would show as much", () => {
    // A square of 150: diagonals 212.132. Each 0.25 off, one long and one short, is a lean of about 2 x 0.25 x sqrt(2) / (2 x 150) = 0.00236.
    const none = skewOf({ across: 150, along: 150 }, 212.37, 211.89);
    expect(none?.uncertainty).toBeCloseTo(0.00236, 4);
    expect(none?.differs).toBe(false);
    expect(skewOf({ across: 150, along: 150 }, 213, 211)?.differs).toBe(true);
  });

  it("refuses diagonals that no parallelogram has", () => {
    expect(skewOf({ across: 150, along: 150 }, 400, 10)).toBeUndefined();
    expect(skewOf({ across: 150, along: 150 }, 0, 212)).toBeUndefined();
  });
});
