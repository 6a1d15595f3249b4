import { describe, expect, it } from "vitest";
import { segmentPath } from "../../src/geometry/path.ts";
import { vec } from "../../src/geometry/vec.ts";
import { sheetFindings } from "../../src/sheets/findings.ts";
import { PAPERS } from "../../src/sheets/paper.ts";
import { SHEET_DEFAULTS } from "../../src/sheets/sheet.ts";
import type { Template } from "../../src/templates/template.ts";

/** A template that is one line, `length` long. */
const template = (length: number): Template => ({
  id: "shape/outline",
  partId: "shape",
  partLabel: "Free shape",
  name: "outline",
  title: "Outline",
  lineIs: "a line",
  drawing: {
    layers: [
      {
        name: "outline",
        shapes: [{ id: "line", role: "cut", line: "visible", path: segmentPath(vec(0, 0), vec(length, 0)), name: "line" }],
      },
    ],
    dimensions: [],
  },
});

const OPTIONS = { ...SHEET_DEFAULTS, paper: PAPERS["a4"]! };
const severityOf = (id: string, length: number, options: object = {}) =>
  sheetFindings([template(length)], { ...OPTIONS, ...options }).find((finding) => finding.id === id)?.severity;

describe("what paper and printer do to templates", () => {
  it("lets a template lie on one sheet within its margins, and tells what is over just beyond", () => {
    const fits = (length: number) => severityOf("paper-fit", length);
    expect(fits(150)).toBe("fine");
    const over = sheetFindings([template(400)], OPTIONS).find(({ id }) => id === "paper-fit");
    expect(over!.severity).toBe("look");
    // What is over grows with the template, millimetre by millimetre; at nothing over it fits.
    const most = 400 - over!.measured!;
    expect([fits(most - 0.01), fits(most + 0.01)]).toEqual(["fine", "look"]);
    // An A4 sheet is 297 long with 8 of margin at either end; strip and bars take some of it.
    expect(most).toBeLessThan(297 - 16 + 1);
    expect(most).toBeGreaterThan(180);
  });

  it("looks at a margin that printers leave white, and stops at one that leaves no room", () => {
    expect([4.19, 4.21].map((margin) => severityOf("paper-margin", 100, { margin }))).toEqual(["look", "fine"]);
    expect(severityOf("paper-room", 100, { margin: 90 })).toBe("stop");
  });

  it("looks at a printer that nobody has measured, with what half a per cent is over the longest template", () => {
    const found = sheetFindings([template(400)], OPTIONS).find(({ id }) => id === "printer-corrected");
    expect(found!.severity).toBe("look");
    expect(found!.measured).toBeCloseTo(2, 0);
    const corrected = (sx: number) => severityOf("printer-corrected", 100, { printer: { name: "inkjet", sx, sy: 1 } });
    expect([corrected(1.004), corrected(1.0199), corrected(1.0201), corrected(0.9799)]).toEqual(["fine", "fine", "look", "look"]);
  });

  it("is left alone by what does not matter to it", () => {
    expect(sheetFindings([template(150)], { ...OPTIONS, overlap: 10 })).toEqual(sheetFindings([template(150)], OPTIONS));
  });
});
