import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatAngle, formatLength, formatQuantity, inFull, lengthInFull, type LengthStyle } from "../../src/units/format.ts";
import { readQuantity } from "../../src/units/read.ts";

const INCHES: LengthStyle = { unit: "in", fractions: false };
const FRACTIONS: LengthStyle = { unit: "in", fractions: true };
const MM: LengthStyle = { unit: "mm", fractions: false };

describe("a length", () => {
  // Worked by hand from 1 in = 25.4 mm.
  it.each<readonly [number, string, string, string]>([
    [0, "0 in", "0 in", "0 mm"],
    [42.8625, "1.688 in", "1 11/16 in", "42.86 mm"], // 1.6875 in, half of a thousandth goes up
    [44.45, "1.75 in", "1 3/4 in", "44.45 mm"],
    [645.16, "25.4 in", "25 13/32 - 0.006 in", "645.16 mm"], // 13/32 = 0.40625
    [2.413, "0.095 in", "3/32 + 0.001 in", "2.41 mm"], // 3/32 = 0.09375, 0.00125 over
    [1.2, "0.047 in", "3/64 in", "1.2 mm"], // 3/64 in = 1.190625 mm, 0.000369 in over
    [25.4, "1 in", "1 in", "25.4 mm"],
    [50.9, "2.004 in", "2 + 0.004 in", "50.9 mm"], // 0.1 mm = 0.003937 in
    [0.1, "0.004 in", "0.004 in", "0.1 mm"], // nearer to 0 than to 1/64: no "0 + 0.004"
    [-42.8625, "-1.688 in", "-1 11/16 in", "-42.86 mm"],
    [-42.9641, "-1.692 in", "-1 11/16 - 0.004 in", "-42.96 mm"], // 1.6915 in, half of a thousandth goes away from 0
    [-12.7, "-0.5 in", "-1/2 in", "-12.7 mm"],
    [0.4, "0.016 in", "1/64 in", "0.4 mm"], // 0.015748 in, 0.000123 over 1/64
    [100, "3.937 in", "3 15/16 in", "100 mm"], // 3.937008 in, 0.000492 under 3 15/16
    [-0.0001, "0 in", "0 in", "0 mm"],
    [-0, "0 in", "0 in", "0 mm"],
  ])("%d mm", (mm, decimal, fraction, metric) => {
    expect(lengthInFull(mm, INCHES)).toBe(decimal);
    expect(lengthInFull(mm, FRACTIONS)).toBe(fraction);
    expect(lengthInFull(mm, MM)).toBe(metric);
  });

  it.each([
    [42.8625, "1.688", "42.86"],
    [25.4, "1.000", "25.40"],
    [0, "0.000", "0.00"],
    [-0.0001, "0.000", "0.00"],
    [10_000, "393.701", "10000.00"],
    [1.2, "0.047", "1.20"],
  ])("%d mm keeps its zeros in a table", (mm, inches, metric) => {
    expect(formatLength(mm, INCHES, "fixed").text).toBe(inches);
    expect(formatLength(mm, MM, "fixed").text).toBe(metric);
  });

  it("keeps zeros that are not at the end of a decimal", () => {
    expect(formatLength(100, MM).text).toBe("100");
    expect(formatLength(100.5, MM).text).toBe("100.5");
    expect(formatLength(254, INCHES).text).toBe("10");
  });

  it("comes as the number and its unit apart", () => {
    expect(formatLength(42.8625, FRACTIONS)).toEqual({ text: "1 11/16", main: "1 11/16", rest: "", unit: "in", remainderMm: 0 });
    const over = formatLength(42.8625 + 0.004 * 25.4, FRACTIONS);
    expect(over).toMatchObject({ text: "1 11/16 + 0.004", main: "1 11/16", rest: "+ 0.004", unit: "in" });
    expect(over.remainderMm).toBeCloseTo(0.1016, 12);
    const under = formatLength(42.8625 - 0.004 * 25.4, FRACTIONS);
    expect(under).toMatchObject({ main: "1 11/16", rest: "- 0.004" });
    expect(under.remainderMm).toBeCloseTo(-0.1016, 12);
    expect(formatLength(42.8625, MM)).toMatchObject({ text: "42.86", unit: "mm" });
    expect(formatLength(42.8625, MM).remainderMm).toBeCloseTo(0.0025, 12);
  });

  it("gives every sixty-fourth of an inch reduced, with nothing left over", () => {
    for (let n = 1; n <= 192; n++) {
      const { text, rest, remainderMm } = formatLength((n * 25.4) / 64, FRACTIONS);
      expect(rest).toBe("");
      expect(remainderMm).toBeCloseTo(0, 12);
      // The text as whole numbers: n/64 must equal whole + top/bottom, and no number but 1 divides both top and bottom.
      const [, whole = "0", top = "0", bottom = "1"] = /^(\d+)?(?:^| |$)(?:(\d+)\/(\d+))?$/.exec(text) ?? [];
      expect((Number(whole) * Number(bottom) + Number(top)) * 64).toBe(n * Number(bottom));
      expect(Number(top) % 2 === 1 || bottom === "1").toBe(true);
    }
  });

  it("rounds an exact half of the last place away from zero, though binary cannot hold it", () => {
    // 1.005 is a double a little under 1.005, and 1.005 * 100 is 100.49999999999999.
    expect(formatLength(1.005, MM).text).toBe("1.01");
    expect(formatLength(-1.005, MM).text).toBe("-1.01");
    expect(formatLength(40.005, MM).text).toBe("40.01");
    expect(formatLength(0.0625 * 25.4, INCHES).text).toBe("0.063");
    expect(formatLength(1.0049, MM).text).toBe("1");
    expect(formatLength(1.00499, MM).text).toBe("1");
  });

  it("rounds once: a remainder is taken from the length and not from its rounded decimals", () => {
    // 0.18849 in is 0.188 in thousandths, which is 0.0005 over 3/16; the length itself is 0.00099 over.
    expect(formatLength(0.18849 * 25.4, FRACTIONS).text).toBe("3/16 + 0.001");
    // 0.18751 in is 0.188 in thousandths; the length itself is 0.00001 over 3/16, which is nothing.
    expect(formatLength(0.18751 * 25.4, FRACTIONS).text).toBe("3/16");
  });

  it("that is not finite is a bug of the caller and throws", () => {
    for (const style of [INCHES, FRACTIONS, MM]) {
      expect(() => formatLength(Number.NaN, style)).toThrow(RangeError);
      expect(() => formatLength(Infinity, style)).toThrow(RangeError);
    }
  });
});

describe("other quantities", () => {
  it("are shown with their unit: degrees to 0.01, numbers to 0.0001, counts whole", () => {
    expect(inFull(formatAngle((14 * Math.PI) / 180))).toBe("14°");
    expect(inFull(formatAngle(0.2))).toBe("11.46°"); // 0.2 * 180 / pi = 11.4592
    expect(inFull(formatAngle(-1e-9))).toBe("0°");
    expect(formatAngle((14 * Math.PI) / 180, "fixed")).toEqual({ text: "14.00", unit: "°" });
    expect(formatQuantity(1 / 3, "number", MM)).toEqual({ text: "0.3333", unit: "" });
    expect(formatQuantity(1.5, "number", MM, "fixed").text).toBe("1.5000");
    expect(formatQuantity(20, "count", MM)).toEqual({ text: "20", unit: "" });
    expect(formatQuantity(200, "count", MM).text).toBe("200");
    expect(inFull(formatQuantity(44.45, "length", FRACTIONS))).toBe("1 3/4 in");
    expect(inFull(formatQuantity(Math.PI / 2, "angle", FRACTIONS))).toBe("90°");
  });
});

/** Half of the last place, mm, with room for the rounding of doubles at 20 m. */
const within = (halfPlaceMm: number): number => halfPlaceMm + 1e-9;

describe("reading back what was shown", () => {
  const mm = fc.oneof(
    fc.double({ min: -20_000, max: 20_000, noNaN: true }),
    fc.double({ min: -60, max: 60, noNaN: true }),
    fc.integer({ min: -100_000, max: 100_000 }).map((n) => n / 5), // on the exact halves of 0.1 and 0.01
    fc.integer({ min: -80_000, max: 80_000 }).map((n) => (n * 25.4) / 128), // on the exact halves of 1/64 in
  );

  it.each([
    ["decimal inches", INCHES, within(0.0005 * 25.4)],
    ["fractions of an inch", FRACTIONS, within(0.0005 * 25.4)],
    ["millimetres", MM, within(0.005)],
  ] as const)("gives the same length within half of the last place, in %s", (_, style, tolerance) => {
    fc.assert(
      fc.property(mm, fc.constantFrom("trimmed", "fixed"), (length, digits) => {
        const shown = formatLength(length, style, digits);
        expect(shown.text).not.toMatch(/^-0(\.0*)?$/);
        // The number alone in a design of that unit, and the full form in a design of the other.
        const bare = readQuantity(shown.text, { quantity: "length", bareUnit: style.unit });
        const full = readQuantity(inFull(shown), { quantity: "length", bareUnit: style.unit === "in" ? "mm" : "in" });
        if (Math.abs(length) > 19_999.9) return; // what rounds up over 20 m is refused
        if (!bare.ok || !full.ok) throw new Error(`${shown.text} does not read back`);
        expect(Math.abs(bare.value.value - length)).toBeLessThanOrEqual(tolerance);
        expect(full.value.value).toBe(bare.value.value);
      }),
      { numRuns: 1000 },
    );
  });

  it("and showing it again changes nothing, but halfway between two sixty-fourths, where either may be named", () => {
    fc.assert(
      fc.property(mm, fc.constantFrom(INCHES, FRACTIONS, MM), (length, style) => {
        fc.pre(Math.abs(length) < 19_999);
        fc.pre(!style.fractions || Math.abs(formatLength(length, style).remainderMm) < (1 / 128 - 0.0005) * 25.4);
        const shown = lengthInFull(length, style);
        const read = readQuantity(shown, { quantity: "length", bareUnit: "mm" });
        expect(read.ok && lengthInFull(read.value.value, style)).toBe(shown);
      }),
      { numRuns: 1000 },
    );
  });

  it("tells in remainderMm exactly what the main number leaves", () => {
    fc.assert(
      fc.property(mm, fc.constantFrom(INCHES, FRACTIONS, MM), (length, style) => {
        fc.pre(Math.abs(length) < 19_999);
        const { main, unit, remainderMm } = formatLength(length, style);
        const read = readQuantity(`${main} ${unit}`, { quantity: "length", bareUnit: "mm" });
        expect(read.ok && read.value.value + remainderMm).toBeCloseTo(length, 8);
      }),
    );
  });

  it("gives the same angle within 0.005 degrees", () => {
    fc.assert(
      fc.property(fc.double({ min: -6.28, max: 6.28, noNaN: true }), (radians) => {
        const read = readQuantity(inFull(formatAngle(radians)), { quantity: "angle", bareUnit: "mm" });
        expect(read.ok && Math.abs(read.value.value - radians)).toBeLessThanOrEqual((0.005 * Math.PI) / 180 + 1e-12);
      }),
    );
  });
});
