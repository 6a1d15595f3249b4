import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fittingCourses, stringCentres, type Spacing } from "../../src/lutherie/string-spacing.ts";

const LIGHT = [1.3462, 1.0668, 0.8128, 0.6096, 0.4064, 0.3048];
const singles = (gauges: readonly number[]): number[] => gauges.map(() => 1);
const space = (over: Partial<Spacing> & Pick<Spacing, "gauges">): number[] =>
  stringCentres({ spread: 36, courses: singles(over.gauges), inCourse: 2, by: "equal-gap", ...over });
const gapsOf = (centres: readonly number[], gauges: readonly number[]): number[] =>
  centres.slice(1).map((y, i) => y - centres[i]! - (gauges[i]! + gauges[i + 1]!) / 2);

describe("string spacing", () => {
  it("leaves equal gaps, worked by hand for a light set over 36 mm", () => {
    // Sum of diameters 4.5466; half of the outer ones 0.8255. gap = (36 - 4.5466 + 0.8255) / 5 = 32.2789 / 5 = 6.45578.
    // Second string: -18 + 0.6731 + 6.45578 + 0.5334 = -10.33772.
    const centres = space({ gauges: LIGHT });
    for (const gap of gapsOf(centres, LIGHT)) expect(Math.abs(gap - 6.45578)).toBeLessThan(0.001);
    expect(centres[1]).toBeCloseTo(-10.33772, 6);
    expect([centres[0], centres[5]]).toEqual([-18, expect.closeTo(18, 9)]);
  });

  it("divides the spread itself for equal centres", () => {
    expect(space({ gauges: LIGHT, by: "equal-centre", spread: 35 }).map((y) => y + 17.5)).toEqual(
      [0, 7, 14, 21, 28, 35].map((y) => expect.closeTo(y, 9)),
    );
  });

  it("keeps pairs at their own spacing with equal gaps between them, worked by hand", () => {
    // Four pairs 2 mm apart over 23 mm, diameters 1, 1 | 0.8, 0.8 | 0.6, 0.6 | 0.4, 0.4 (bass to treble).
    // Facing halves 0.9, 0.7, 0.5: gap = (23 - 8 - 2.1) / 3 = 4.3. Pairs start at -11.5, then -11.5 + 2 + 4.3 + 0.9 = -4.3,
    // then -4.3 + 2 + 4.3 + 0.7 = 2.7, then 2.7 + 2 + 4.3 + 0.5 = 9.5.
    const gauges = [1, 1, 0.8, 0.8, 0.6, 0.6, 0.4, 0.4];
    const centres = space({ gauges, courses: [2, 2, 2, 2], spread: 23 });
    expect(centres).toEqual([-11.5, -9.5, -4.3, -2.3, 2.7, 4.7, 9.5, 11.5].map((y) => expect.closeTo(y, 9)));
  });

  it("sets the middles of courses at equal distances where that is chosen", () => {
    // A single and two pairs 2 mm apart over 21 mm: middles at 0, c, 2c from the first, and 2c + 1 = 21, so c = 10.
    const centres = space({ gauges: [1, 1, 1, 1, 1], courses: [1, 2, 2], spread: 21, by: "equal-centre" });
    expect(centres.map((y) => y + 10.5)).toEqual([0, 9, 11, 19, 21].map((y) => expect.closeTo(y, 9)));
  });

  it("places no string, one string, and one course", () => {
    expect(space({ gauges: [] })).toEqual([]);
    expect(space({ gauges: [1] })).toEqual([0]);
    expect(space({ gauges: [1, 1, 1], courses: [3] })).toEqual([-2, 0, 2]);
  });

  it("gives every string a place, from outer to outer with equal gaps, for any number of strings", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0.2, max: 2, noNaN: true }), { minLength: 2, maxLength: 24 }), (gauges) => {
        const centres = space({ gauges, spread: 80 });
        expect(centres[0]).toBe(-40);
        expect(centres.at(-1)).toBeCloseTo(40, 9);
        const gaps = gapsOf(centres, gauges);
        expect(Math.max(...gaps) - Math.min(...gaps)).toBeLessThan(0.001);
      }),
    );
  });
});

describe("courses made to fit", () => {
  it("fills with single strings and leaves out what is too much", () => {
    expect(fittingCourses([2, 2], 6)).toEqual([2, 2, 1, 1]);
    expect(fittingCourses([2, 2, 2], 5)).toEqual([2, 2, 1]);
    expect(fittingCourses([3], 0)).toEqual([]);
  });
});
