import { describe, expect, it } from "vitest";
import { paperSettings } from "../../src/ui/sheets/paper-settings.ts";
import { findingsOf, type MeasuredPrinter } from "../../src/ui/sheets/printers.ts";

describe("the paper and the printer", () => {
  it("begin with the paper that is usual where lengths are shown in inches, and in millimetres", () => {
    expect(paperSettings({}, "in").chosen?.paper.label).toBe("Letter");
    expect(paperSettings({}, "mm").chosen?.paper.label).toBe("A4");
  });

  const drawn = { across: 180, along: 240, side: 160, diagonal: 160 * Math.SQRT2 };
  const inkjet: MeasuredPrinter = { name: "inkjet", drawn, across: "179.64 mm", along: "9 29/64 in", rule: "II" };

  it("make up for the chosen printer by drawn over read length: 180 / 179.64 across, 240 / (9 29/64 in) along", () => {
    const printer = paperSettings({ printer: "inkjet" }, "mm", [inkjet]).chosen?.printer;
    expect(printer?.name).toBe("inkjet");
    expect(printer?.sx).toBeCloseTo(1.002004, 6);
    // 9 29/64 in is 240.109 mm.
    expect(printer?.sy).toBeCloseTo(0.9995445, 6);
  });

  it("correct nothing for a printer that is not measured, or not any more", () => {
    expect(paperSettings({}, "in", [inkjet]).chosen?.printer).toBeUndefined();
    expect(paperSettings({ printer: "laser" }, "in", [inkjet]).chosen).toBeDefined();
    expect(paperSettings({ printer: "laser" }, "in", [inkjet]).chosen?.printer).toBeUndefined();
  });

  it("find the skew of a printer from both diagonals of its square", () => {
    // Sides of 160 leaning by 0.01: diagonals by the law of cosines, 2 x 160² (1 ± sin 0.01).
    const [rising, falling] = [1, -1].map((way) => `${Math.sqrt(2 * 160 ** 2 * (1 + way * Math.sin(0.01)))} mm`);
    const found = findingsOf({ ...inkjet, across: "180 mm", along: "240 mm", rising: rising!, falling: falling! });
    expect(found?.skew?.lean).toBeCloseTo(0.01, 9);
    expect(findingsOf(inkjet)?.skew).toBeUndefined();
  });

  it("keep the unit of a bare length, so that another design's units do not change it", () => {
    const { editing } = paperSettings({}, "in");
    expect(editing.sayValue("paper.margin", "1/2")).toBeUndefined();
    expect(editing.tryValue("paper.margin", "1/2")).toBeUndefined();
    expect(paperSettings({ margin: "1/2 in" }, "mm").chosen?.margin).toBeCloseTo(12.7, 9);
  });

  it("read another size or a roll, and refuse what is neither", () => {
    expect(paperSettings({ size: "other", other: "300 x 500" }, "mm").chosen?.paper).toMatchObject({ width: 300, height: 500 });
    expect(paperSettings({ size: "other", other: "roll 610" }, "mm").chosen?.paper).toMatchObject({ kind: "roll", width: 610 });
    const { editing } = paperSettings({ size: "other" }, "mm");
    expect(editing.tryValue("paper.other", "as it comes")?.mend).not.toBe("");
  });

  it("say nothing usable, but show their fields, where a kept setting cannot be read", () => {
    const settings = paperSettings({ margin: "wide" }, "mm");
    expect(settings.chosen).toBeUndefined();
    expect(settings.fields.find((field) => field.key === "margin")?.problem).toBeDefined();
  });
});
