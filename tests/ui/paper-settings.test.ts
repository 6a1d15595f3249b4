import { describe, expect, it } from "vitest";
import { paperSettings } from "../../src/ui/sheets/paper-settings.ts";

describe("the paper and the printer", () => {
  it("begin with the paper that is usual where lengths are shown in inches, and in millimetres", () => {
    expect(paperSettings({}, "in").chosen?.paper.label).toBe("Letter");
    expect(paperSettings({}, "mm").chosen?.paper.label).toBe("A4");
  });

  it("make up for a printer by true length over printed length: 100 / 99.8 across, 100 / 100.15 along", () => {
    const printer = paperSettings({ barAcross: "99.8", barAlong: "100.15" }, "mm").chosen?.printer;
    expect(printer?.sx).toBeCloseTo(1.002004, 6);
    expect(printer?.sy).toBeCloseTo(0.998502, 6);
  });

  it("correct nothing where both bars read 100", () => {
    expect(paperSettings({ barAcross: "100.0" }, "in").chosen?.printer).toBeUndefined();
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
