import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { LEAST_PX_PER_MM, MOST_PX_PER_MM } from "../../../src/ui/board/viewport.ts";
import { ticks } from "../../../src/ui/board/ticks.ts";

const MM = { unit: "mm", fractions: false } as const;
const FRACTIONS = { unit: "in", fractions: true } as const;
const DECIMAL = { unit: "in", fractions: false } as const;
/** CSS Values and Units Level 4, 6.2: 1in = 96px, so that a mm at full size is 96 / 25.4 px. */
const FULL_SIZE = 96 / 25.4;
/** The inch as the international yard and pound agreement of 1959 has it. */
const INCH = 25.4;

describe("the divisions of a ruler", () => {
  it("shows millimetres at full size, with every fifth longer and numbers at tens, like a steel rule", () => {
    const found = ticks(0, 20, FULL_SIZE, MM);
    expect(found.map((t) => t.at)).toEqual(Array.from({ length: 21 }, (_, i) => i));
    expect(found.filter((t) => t.rank === 1).map((t) => t.at)).toEqual([5, 15]);
    expect(found.flatMap((t) => t.label ?? [])).toEqual(["0", "10", "20"]);
  });

  it("shows sixteenths at full size, with the halves longer and numbers at inches", () => {
    const found = ticks(0, 2 * INCH, FULL_SIZE, FRACTIONS);
    expect(found).toHaveLength(33);
    expect(found[1]!.at).toBeCloseTo(INCH / 16, 9);
    expect(found.filter((t) => t.rank === 1).map((t) => Math.round((t.at / INCH) * 1e9) / 1e9)).toEqual([0.5, 1.5]);
    expect(found.flatMap((t) => t.label ?? [])).toEqual(["0", "1", "2"]);
  });

  it("shows tenths at full size where inches are decimal", () => {
    expect(ticks(0, INCH, FULL_SIZE, DECIMAL).map((t) => Math.round((t.at / INCH) * 1000) / 1000)).toEqual([
      0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1,
    ]);
  });

  it("numbers fractions as they are spoken when there is room", () => {
    const labels = ticks(INCH, 1.5 * INCH, 40, FRACTIONS).flatMap((t) => t.label ?? []);
    expect(labels).toContain("1 1/8");
    expect(labels).toContain("1 1/2");
  });

  it("keeps divisions and numbers apart at every zoom, and never has so few that none is seen on 1000 px", () => {
    fc.assert(
      fc.property(
        fc.double({ min: LEAST_PX_PER_MM, max: MOST_PX_PER_MM, noNaN: true }),
        fc.double({ min: -3000, max: 3000, noNaN: true }),
        fc.constantFrom(MM, FRACTIONS, DECIMAL),
        (pxPerMm, from, style) => {
          const found = ticks(from, from + 1000 / pxPerMm, pxPerMm, style);
          const numbered = found.filter((t) => t.label !== undefined);
          for (let i = 1; i < found.length; i++) expect((found[i]!.at - found[i - 1]!.at) * pxPerMm).toBeGreaterThan(3.4);
          for (let i = 1; i < numbered.length; i++) {
            // 6.6 px a character of 11 px type, a little room behind.
            expect((numbered[i]!.at - numbered[i - 1]!.at) * pxPerMm).toBeGreaterThan(6.6 * numbered[i]!.label!.length - 2);
            expect(numbered[i]!.label).not.toBe(numbered[i - 1]!.label);
          }
          expect(numbered.length).toBeGreaterThanOrEqual(2);
        },
      ),
      { numRuns: 1000 },
    );
  });
});
