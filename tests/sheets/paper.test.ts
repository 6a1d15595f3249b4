import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { PAPERS, parsePaper } from "../../src/sheets/paper.ts";

describe("papers", () => {
  it("of ISO 216 halve at every step, rounded down to whole mm, from A0 of 841 by 1189 (ISO 216:2007)", () => {
    let [short, long] = [841, 1189];
    for (const name of ["a0", "a1", "a2", "a3", "a4", "a5"]) {
      expect(PAPERS[name]).toMatchObject({ width: short, height: long });
      [short, long] = [Math.floor(long / 2), short];
    }
  });

  it("of North America are whole or half inches, exact in mm (ASME Y14.1; legal by trade practice)", () => {
    const inches = {
      letter: [8.5, 11],
      legal: [8.5, 14],
      tabloid: [11, 17],
      ledger: [17, 11],
      "ansi-c": [17, 22],
      "ansi-d": [22, 34],
      "ansi-e": [34, 44],
    };
    for (const [name, [width, height]] of Object.entries(inches)) {
      expect(PAPERS[name]!.width).toBeCloseTo(width! * 25.4, 10);
      expect(PAPERS[name]!.height).toBeCloseTo(height! * 25.4, 10);
    }
  });

  it("are read as a maker writes them", () => {
    const read = (text: string): unknown => {
      const result = parsePaper(text);
      return result.ok ? result.value : result.error;
    };
    expect(read(" Letter ")).toBe(PAPERS["letter"]);
    expect(read("ANSI C")).toBe(PAPERS["ansi-c"]);
    for (const text of ["300x500", "300 x 500 mm", "300 × 500", "300.0*500"])
      expect(read(text)).toMatchObject({ kind: "sheet", width: 300, height: 500 });
    expect(read("297,5x420")).toMatchObject({ width: 297.5 });
    expect(read("roll 610")).toMatchObject({ kind: "roll", width: 610 });
    // 13 x 25.4 = 330.2 mm, 19 x 25.4 = 482.6 mm, 24 x 25.4 = 609.6 mm.
    for (const text of ["13 x 19 in", "13in x 19in"]) {
      const paper = read(text) as { label: string; width: number; height: number };
      expect(paper.label).toBe("13 × 19 in");
      expect([paper.width, paper.height].map((side) => Number(side.toFixed(6)))).toEqual([330.2, 482.6]);
    }
    expect(read("roll 24 in")).toMatchObject({ kind: "roll", label: "Roll 24 in", width: expect.closeTo(609.6, 6) });
    expect(read("Roll of 914.4 mm")).toMatchObject({ kind: "roll", width: 914.4 });
  });

  it("that are none are refused with the mend", () => {
    for (const text of [
      "",
      "b4",
      "0x0",
      "10x10",
      "300x",
      "1e3x300",
      "-300x500",
      "99999x300",
      "roll 90",
      "13 in x 330 mm",
      "roll 4 in",
      "constructor",
      "a".repeat(1e5),
    ]) {
      const result = parsePaper(text);
      expect(result.ok, text.slice(0, 20)).toBe(false);
      if (!result.ok) expect(`${result.error.message} (${result.error.mend})`).toMatch(/^[^\n]{10,300}$/);
    }
  });

  it("never make a page of another size than was typed", () => {
    fc.assert(
      fc.property(fc.integer({ min: 140, max: 5080 }), fc.integer({ min: 140, max: 5080 }), (width, height) => {
        const result = parsePaper(`${width}x${height}`);
        expect(result.ok && result.value).toMatchObject({ width, height });
      }),
    );
  });
});
