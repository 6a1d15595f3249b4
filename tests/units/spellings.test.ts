/**
 * Every spelling of a measure that makers use.
 *
 * Expected lengths rest on two definitions: the international yard of 1959 (agreement of the standards laboratories of six countries,
 * in force from 1 July 1959; the inch of ISO 31 and of CSS Values and Units, "Absolute lengths") is exactly 0.9144 m, and a yard is 36 in
 * or 3 ft. The expected values are written out by hand from these, and a second column of exact whole-number fractions checks them.
 */
import { describe, expect, it } from "vitest";
import { readQuantity } from "../../src/units/read.ts";
import { bareUnitOf, inside, MM_PER_INCH } from "../../src/units/unit.ts";

const value = (text: string, quantity: "length" | "angle" | "number" | "count", bareUnit: "in" | "mm" = "in"): number => {
  const read = readQuantity(text, { quantity, bareUnit });
  if (!read.ok) throw new Error(`${JSON.stringify(text)}: ${read.error.message}`);
  return read.value.value;
};
const length = (text: string, bareUnit: "in" | "mm" = "in"): number => value(text, "length", bareUnit);

describe("the inch", () => {
  it("is a thirty-sixth of the international yard of 0.9144 m", () => {
    expect(length("36 in")).toBe(914.4);
    expect(length("3 ft")).toBe(914.4);
    expect(length("0.9144 m")).toBe(914.4);
    expect(MM_PER_INCH).toBe(25.4);
    expect(inside(36, bareUnitOf("in"))).toBe(36 * MM_PER_INCH);
  });

  it("is 2.54 cm, and a thou is its thousandth", () => {
    expect(length("2.54 cm")).toBe(length("1 in"));
    expect(length("1000 thou")).toBe(length("1 in"));
    expect(length("1000 mil")).toBe(length("1 in"));
    expect(length("95 thou")).toBe(length("0.095 in"));
  });
});

/** Text, and the length in 1/6400 in for inches: a number that every one of these spellings gives whole. */
const INCHES: readonly (readonly [string, number])[] = [
  // 1 11/16 in = 27/16 in = 10800/6400 in, the narrow nut of the trade
  ["1 11/16", 10_800],
  ["1  11/16", 10_800],
  ["  1 11/16  ", 10_800],
  ["\t1 11/16\n", 10_800],
  ["1-11/16", 10_800],
  ['1-11/16"', 10_800],
  ["1‑11/16″", 10_800],
  ["1–11/16 in", 10_800],
  ["1 11/16 in", 10_800],
  ["1 11/16in", 10_800],
  ["1 11/16 IN", 10_800],
  ["1 11/16 in.", 10_800],
  ["1 11/16 inch", 10_800],
  ["1 11/16 inches", 10_800],
  ["1-11/16-inch", 10_800],
  ['1 11/16"', 10_800],
  ["1 11/16 ″", 10_800],
  ["1 11/16”", 10_800],
  ["1 11/16''", 10_800],
  ["1 11/16′′", 10_800],
  ["1 11/16’’", 10_800],
  ["1 11⁄16", 10_800],
  ["1 11∕16", 10_800],
  ["1 11 / 16", 10_800],
  ["1¹¹⁄₁₆", 10_800],
  ["1 ¹¹⁄₁₆ in", 10_800],
  ["1\u00a011/16\u00a0in", 10_800],
  ["1\u202f11/16\u202fin", 10_800],
  ["1\u200911/16\u2009in", 10_800],
  ["27/16", 10_800],
  ["1.6875", 10_800],
  ["1,6875", 10_800],
  ["+1.6875 in", 10_800],
  ["43/64", 4300],
  ["43/64 in", 4300],
  ["½", 3200],
  ["½ in", 3200],
  ["1½", 9600],
  ["1 ½", 9600],
  ["1-½ in", 9600],
  ["⅛", 800],
  ["1⅜″", 8800],
  ["⅟16", 400],
  ["⅟₁₆", 400],
  ["¾", 4800],
  [".5", 3200],
  [",5", 3200],
  ["0.5", 3200],
  ["0,5", 3200],
  ["00.50", 3200],
  ["25.4", 162_560],
  ['25.4"', 162_560],
  // 2 ft 1 in = 25 in = 160000/6400 in
  ["2' 1\"", 160_000],
  ["2'1\"", 160_000],
  ["2′ 1″", 160_000],
  ["2’ 1”", 160_000],
  ["2' 1''", 160_000],
  ["2'-1\"", 160_000],
  ["2 ft 1 in", 160_000],
  ["2ft1in", 160_000],
  ["2 ft. 1 in.", 160_000],
  ["2 feet 1 inch", 160_000],
  ["2 foot 1", 160_000],
  ["2' 1", 160_000],
  ["2' 1 1/2\"", 163_200],
  ["2'-1 1/2\"", 163_200],
  ["2'-1-1/2\"", 163_200],
  ["2' 1½\"", 163_200],
  ["2' 1.5\"", 163_200],
  ["2' 1/2\"", 156_800],
  ["2' 0\"", 153_600],
  ["2'", 153_600],
  ["2 1/2 ft", 192_000],
  ["2.5'", 192_000],
  ["-1 11/16 in", -10_800],
  ["−1 11/16 in", -10_800],
  ["–1 11/16 in", -10_800],
  ["- 1/2", -3200],
  // A fraction with the thousandths that it leaves: 1.6875 + 0.005 in
  ["1 11/16 + 0.005", 10_832],
  ["1 11/16 + .005 in", 10_832],
  ["1 11/16 - 0.005 in", 10_768],
  ["-1 11/16 - 0.005 in", -10_832],
];

const MILLIMETRES: readonly (readonly [string, number])[] = [
  ["1.2mm", 1.2],
  ["1.2 mm", 1.2],
  ["1.2 MM", 1.2],
  ["1.2 millimetres", 1.2],
  ["1.2 millimeter", 1.2],
  ["42,86 mm", 42.86],
  ["42,8600 mm", 42.86],
  ["42,86\u00a0mm", 42.86],
  ["0,095 mm", 0.095],
  ["0,125mm", 0.125],
  ["1,234.5 mm", 1234.5],
  ["1.234,5 mm", 1234.5],
  ["12,345.25 mm", 12_345.25],
  ["1.234 mm", 1.234],
  ["½ mm", 0.5],
  ["1 1/2 mm", 1.5],
  ["4.5 cm", 45],
  ["4,5 centimetres", 45],
  ["0.65 m", 650],
  ["0,65 metres", 650],
  ["20 m", 20_000],
  ["-20 m", -20_000],
  ["5\u200bmm", 5],
  ["−0.3 mm", -0.3],
  ["0", 0],
  ["-0", 0],
  ["95 thou", 2.413],
  ["95thou", 2.413],
  ["95 mils", 2.413],
  ["9.5 thou", 0.2413],
];

describe("a length", () => {
  it.each(INCHES)("%j is read in inches", (text, parts) => {
    // 25.4 mm / 6400 = 254 / 64000 mm; both numbers are whole, so one division rounds once.
    expect(length(text)).toBeCloseTo((parts * 254) / 64_000, 10);
  });

  it.each(MILLIMETRES)("%j is read in millimetres", (text, mm) => {
    expect(length(text, "mm")).toBeCloseTo(mm, 10);
    expect(Object.is(length(text, "mm"), -0)).toBe(false);
  });

  it("without a unit means the unit of the design", () => {
    expect(length("0.095", "in")).toBe(2.413);
    expect(length("0.095", "mm")).toBe(0.095);
    expect(length("25.4", "in")).toBe(645.16);
    expect(length("25.4", "mm")).toBe(25.4);
  });

  it("with a unit means the same in every design", () => {
    for (const [text, mm] of MILLIMETRES) {
      if (/[a-z]/i.test(text)) expect(length(text, "in")).toBeCloseTo(mm, 10);
    }
  });

  // Decimal equivalents of fractions of an inch, as handbooks of the metal trades print them; from memory, to their four places.
  it.each([
    ["1/64", 0.3969],
    ["1/32", 0.7938],
    ["3/64", 1.1906],
    ["1/16", 1.5875],
    ["3/32", 2.3812],
    ["1/8", 3.175],
    ["3/16", 4.7625],
    ["1/4", 6.35],
    ["43/64", 17.0656],
    ["11/16", 17.4625],
    ["63/64", 25.0031],
  ])("%s in agrees with the printed table of decimal equivalents", (text, mm) => {
    expect(Math.abs(length(text) - mm)).toBeLessThanOrEqual(0.000_051);
  });
});

// 1 degree is pi/180 rad, 60 minutes and 3600 seconds: SI Brochure, 9th edition, table 8.
describe("an angle", () => {
  it.each([
    ["14", 14],
    ["14 deg", 14],
    ["14deg.", 14],
    ["14 degrees", 14],
    ["14°", 14],
    ["14 °", 14],
    ["14º", 14],
    ["14˚", 14],
    ["14,5°", 14.5],
    ["14 1/2°", 14.5],
    ["14½", 14.5],
    ["14° 30'", 14.5],
    ["14°30′", 14.5],
    ["14° 30.5'", 14 + 30.5 / 60],
    ["14° 30' 36\"", 14.51],
    ["14° 36″", 14.01],
    ["-14 deg", -14],
    ["360", 360],
  ])("%j is read in degrees", (text, degrees) => {
    expect(value(text, "angle")).toBeCloseTo((degrees / 180) * Math.PI, 12);
  });

  it("may be given in radians", () => {
    expect(value("0.2 rad", "angle")).toBe(0.2);
    expect(value("3.141592653589793 radians", "angle")).toBeCloseTo(value("180 deg", "angle"), 15);
  });

  it("without a unit is in degrees whatever the unit of lengths", () => {
    expect(value("14", "angle", "mm")).toBe(value("14", "angle", "in"));
    expect(value("14 1/2", "angle", "mm")).toBe(value("14.5", "angle", "in"));
  });
});

describe("a plain number", () => {
  it.each([
    ["0.5", 0.5],
    ["0,5", 0.5],
    ["1/2", 0.5],
    ["1 1/2", 1.5],
    ["-3", -3],
    ["1,234.5", 1234.5],
    ["1000000000", 1e9],
  ])("%j", (text, number) => {
    expect(value(text, "number")).toBe(number);
  });

  it.each([
    ["12", 12],
    ["0", 0],
    ["12.0", 12],
    ["24/2", 12],
    ["-2", -2],
  ])("%j is a count", (text, number) => {
    expect(value(text, "count")).toBe(number);
  });
});
