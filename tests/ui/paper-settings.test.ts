import { describe, expect, it } from "vitest";
import { paperSettings } from "../../src/ui/sheets/paper-settings.ts";
import { findingsOf, type MeasuredPrinter } from "../../src/ui/sheets/printers.ts";
import { paperSaid } from "../../src/ui/sheets/words.ts";

const IN = { unit: "in", fractions: true } as const;
const MM = { unit: "mm", fractions: false } as const;

describe("the paper and the printer", () => {
  it("begin with the paper that is usual where lengths are shown in inches, and in millimetres", () => {
    expect(paperSettings({}, IN).chosen?.paper.label).toBe("Letter");
    expect(paperSettings({}, MM).chosen?.paper.label).toBe("A4");
  });

  // ISO 216 and ASME Y14.1: 8.5 in is 215.9 mm.
  it("are named with their sides as the maker says lengths, ISO papers in mm", () => {
    const sizeIn = (style: typeof IN | typeof MM | { unit: "in"; fractions: false }): unknown =>
      paperSettings({}, style).fields.find(({ key }) => key === "size")?.spec;
    expect(sizeIn(IN)).toMatchObject({
      options: expect.arrayContaining([
        { value: "a4", label: "A4, 210 × 297 mm" },
        { value: "letter", label: "Letter, 8 1/2 × 11 in" },
      ]),
    });
    expect(sizeIn({ unit: "in", fractions: false })).toMatchObject({
      options: expect.arrayContaining([{ value: "letter", label: "Letter, 8.5 × 11 in" }]),
    });
    expect(sizeIn(MM)).toMatchObject({
      options: expect.arrayContaining([{ value: "letter", label: "Letter, 215.9 × 279.4 mm" }]),
    });
    const said = (typed: string) => {
      const { paper } = paperSettings({ size: "other", other: typed }, IN).chosen!;
      return paperSaid(paper, IN);
    };
    expect(said("12.5 x 19 in")).toBe("12 1/2 × 19 in");
    expect(said("300 x 500")).toBe("300 × 500 mm");
    expect(said("roll 24 in")).toBe("roll 24 in");
  });

  const drawn = { across: 180, along: 240, side: 160, diagonal: 160 * Math.SQRT2 };
  const inkjet: MeasuredPrinter = { name: "inkjet", drawn, across: "179.64 mm", along: "9 29/64 in", rule: "II" };

  it("make up for the chosen printer by drawn over read length: 180 / 179.64 across, 240 / (9 29/64 in) along", () => {
    const printer = paperSettings({ printer: "inkjet" }, MM, [inkjet]).chosen?.printer;
    expect(printer?.name).toBe("inkjet");
    expect(printer?.sx).toBeCloseTo(1.002004, 6);
    // 9 29/64 in is 240.109 mm.
    expect(printer?.sy).toBeCloseTo(0.9995445, 6);
  });

  it("correct nothing for a printer that is not measured, or not any more", () => {
    expect(paperSettings({}, IN, [inkjet]).chosen?.printer).toBeUndefined();
    expect(paperSettings({ printer: "laser" }, IN, [inkjet]).chosen).toBeDefined();
    expect(paperSettings({ printer: "laser" }, IN, [inkjet]).chosen?.printer).toBeUndefined();
  });

  it("find the skew of a printer from both diagonals of its square", () => {
    // Sides of 160 leaning by 0.01: diagonals by the law of cosines, 2 x 160² (1 ± sin 0.01).
    const [rising, falling] = [1, -1].map((way) => `${Math.sqrt(2 * 160 ** 2 * (1 + way * Math.sin(0.01)))} mm`);
    const found = findingsOf({ ...inkjet, across: "180 mm", along: "240 mm", rising: rising!, falling: falling! });
    expect(found?.skew?.lean).toBeCloseTo(0.01, 9);
    expect(findingsOf(inkjet)?.skew).toBeUndefined();
  });

  it("keep the unit of a bare length, so that another design's units do not change it", () => {
    const { editing } = paperSettings({}, IN);
    expect(editing.sayValue("paper.margin", "1/2")).toBeUndefined();
    expect(editing.tryValue("paper.margin", "1/2")).toBeUndefined();
    expect(paperSettings({ margin: "1/2 in" }, MM).chosen?.margin).toBeCloseTo(12.7, 9);
  });

  it("read another size or a roll, and refuse what is neither", () => {
    expect(paperSettings({ size: "other", other: "300 x 500" }, MM).chosen?.paper).toMatchObject({ width: 300, height: 500 });
    expect(paperSettings({ size: "other", other: "roll 610" }, MM).chosen?.paper).toMatchObject({ kind: "roll", width: 610 });
    const { editing } = paperSettings({ size: "other" }, MM);
    expect(editing.tryValue("paper.other", "as it comes")?.mend).not.toBe("");
  });

  it("say nothing usable, but show their fields, where a kept setting cannot be read", () => {
    const settings = paperSettings({ margin: "wide" }, MM);
    expect(settings.chosen).toBeUndefined();
    expect(settings.fields.find((field) => field.key === "margin")?.problem).toBeDefined();
  });
});
