import { describe, expect, it } from "vitest";
import { testFiguresOf, testSheetFile, type TestSheetChoice } from "../../src/export/test-sheet-job.ts";
import { PAPERS } from "../../src/sheets/paper.ts";
import { fonts } from "../export/fonts.ts";
import { distance, readPdf, straight } from "../export/read-pdf.ts";

const choiceOf = (paper: string, unit: "mm" | "in"): TestSheetChoice => ({
  paper: PAPERS[paper]!,
  margin: 8,
  style: { unit, fractions: false },
});

describe("the printer's test sheet, read back by another library", { timeout: 120_000 }, () => {
  it.each(
    Object.keys(PAPERS)
      .filter((name) => name !== "a5")
      .flatMap((name) => (["mm", "in"] as const).map((unit) => [name, unit] as const)),
  )("%s in %s: bars in whole steps as long as the paper lets them, and a square with its diagonals", async (name, unit) => {
    const choice = choiceOf(name, unit);
    const figures = testFiguresOf(choice)!;
    const step = unit === "mm" ? 10 : 12.7;
    for (const [length, side] of [
      [figures.across, PAPERS[name]!.width],
      [figures.along, PAPERS[name]!.height],
    ] as const) {
      expect(length).toBeGreaterThanOrEqual(150);
      expect(length / step).toBeCloseTo(Math.round(length / step), 9);
      // No more than margins, marks, words and one step are left.
      expect(length).toBeGreaterThan(side - 2 * 8 - 40 - step);
    }
    const pdf = await readPdf((await testSheetFile(choice, fonts))!);
    expect(pdf.preferences["PrintScaling"]).toBe("None");
    expect(pdf.pages).toHaveLength(1);
    const lines = straight(pdf.pages[0]!, false);
    const found = (length: number, is: (dx: number, dy: number) => boolean): boolean =>
      lines.some(({ a, b }) => Math.abs(distance(a, b) - length) < 0.005 && is(b.x - a.x, b.y - a.y));
    const { across, along, side, diagonal } = figures;
    expect(found(across, (_dx, dy) => Math.abs(dy) < 1e-6)).toBe(true);
    expect(found(along, (dx) => Math.abs(dx) < 1e-6)).toBe(true);
    expect(found(side, (_dx, dy) => Math.abs(dy) < 1e-6) && found(side, (dx) => Math.abs(dx) < 1e-6)).toBe(true);
    expect(diagonal).toBeCloseTo(side * Math.SQRT2, 9);
    expect(found(diagonal, (dx, dy) => dx * dy > 0) && found(diagonal, (dx, dy) => dx * dy < 0)).toBe(true);
    // Nothing in the margin.
    const [width, height] = [(pdf.pages[0]!.view[2]! * 25.4) / 72, (pdf.pages[0]!.view[3]! * 25.4) / 72];
    for (const { points } of pdf.pages[0]!.pieces)
      for (const { x, y } of points) {
        expect(Math.min(x, width - x), "across").toBeGreaterThan(8 - 1e-3);
        expect(Math.min(y, height - y), "along").toBeGreaterThan(8 - 1e-3);
      }
  });

  it("is refused on paper without room for 150 mm", async () => {
    expect(await testSheetFile(choiceOf("a5", "mm"), fonts)).toBeUndefined();
  });

  it("gives the same bytes twice", async () => {
    const [a, b] = [await testSheetFile(choiceOf("a4", "mm"), fonts), await testSheetFile(choiceOf("a4", "mm"), fonts)];
    expect(Buffer.from(a!).equals(Buffer.from(b!))).toBe(true);
  });
});
