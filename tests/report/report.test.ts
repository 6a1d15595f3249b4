import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { addCut } from "../../src/document/cuts.ts";
import type { Design } from "../../src/document/design.ts";
import { newDesign } from "../../src/document/new-design.ts";
import { readDesign } from "../../src/document/read.ts";
import { setValue } from "../../src/document/set-value.ts";
import { pdfOfSet } from "../../src/export/job.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { DeriveOther } from "../../src/parts/derived.ts";
import { reportOf } from "../../src/report/content.ts";
import type { Section } from "../../src/report/report.ts";
import { reportSheets } from "../../src/report/sheets.ts";
import { PAPERS } from "../../src/sheets/paper.ts";
import { fonts } from "../export/fonts.ts";
import { readPdf } from "../export/read-pdf.ts";

function set(design: Design, values: Readonly<Record<string, unknown>>): Design {
  return Object.entries(values).reduce((before, [path, raw]) => {
    const result = setValue(before, path, raw);
    if (!result.ok) throw new Error(result.error.message);
    return result.value;
  }, design);
}

/** A board with straight parallel sides, so that its lengths can be told by hand. */
const plank = set(newDesign("steel-string"), {
  units: "mm",
  frets: 20,
  scale: "640 mm",
  nutWidth: "50 mm",
  "fingerboard.widthAtEnd": "50 mm",
  "fingerboard.length": "480 mm",
  "fingerboard.thickness": "6.5 mm",
  "fingerboard.bindingThickness": "0",
  "fingerboard.radius": "16 in",
  "fingerboard.crownOverhang": "2 mm",
});
const alike: DeriveOther = (_, design) => createDeriver()(design);
const report = (design: Design) => reportOf(design, createDeriver()(design), alike);
const section = (design: Design, title: string): Section => {
  const found = report(design).sections.find((one) => one.title === title);
  if (!found) throw new Error(`no section ${title}`);
  return found;
};
const rowOf = (design: Design, title: string, first: string) => section(design, title).rows.find((row) => row[0] === first);

describe("the report of an order", () => {
  it("lists the rough board: 480 by 50 by 6.5 with 4 left on all round and 1 on the thickness", () => {
    // 480 + 2 × 4, 50 + 2 × 4, 6.5 + 1.
    const rough = set(plank, {
      "wood.fingerboard/board.allowance": "4 mm",
      "wood.fingerboard/board.planing": "1 mm",
      "wood.fingerboard/board.species": "rosewood-indian",
      "wood.fingerboard/board.origin": "Kerala",
      "wood.fingerboard/board.board": "rack 3, no. 12",
      "wood.fingerboard/board.papers": "invoice 2024-118",
    });
    expect(rowOf(rough, "Pieces of wood", "Fingerboard")?.slice(1, 6)).toEqual([
      "Indian rosewood",
      "1",
      "488 mm",
      "58 mm",
      "7.5 mm",
    ]);
    expect(section(rough, "Where the wood comes from").rows).toEqual([
      ["Fingerboard", "Indian rosewood", "Kerala", "rack 3, no. 12", "invoice 2024-118"],
    ]);
  });

  it("lists 20 pieces of fret wire over a face of 50 with 2 beyond each edge", () => {
    // Over a face of radius 406.4 the wire is 2 × 406.4 asin(25 / 406.4) = 50.0316 long between the edges; and 20 × 54.0316.
    const row = rowOf(plank, "By length", "Fingerboard: fret wire");
    expect(row?.slice(2)).toEqual(["20", "54.03 mm", "1080.63 mm"]);
  });

  it("sets what the player likes beside ours, with the difference, in the maker's own words", () => {
    // 1 3/4 in is 44.45; ours is 50.
    const liked = set(plank, { "order.reference.nutWidth": "1 3/4 in", "order.reference.scale": 640 });
    expect(section(liked, "An instrument the player likes").rows).toEqual([
      ["Width at the nut", "1 3/4 in", "50 mm", "-5.55 mm"],
      ["Scale", "640 mm", "640 mm", "the same"],
    ]);
  });

  it("says of every cut whether it still matches, and by how much not", () => {
    // The nut wider by 0.8 with the end unchanged: each side goes out by 0.4 there.
    const cut = addCut(plank, { date: "2025-03-31", part: "fingerboard", template: "blank-outline", material: "6 mm MDF" });
    expect(section(cut, "What was cut").rows[0]?.at(-1)).toBe("still matches");
    const wider = set(cut, { nutWidth: "50.8 mm" });
    expect(section(wider, "What was cut").rows[0]).toEqual([
      "2025-03-31",
      "Fingerboard, outline",
      cut.cuts![0]!.fingerprint,
      "6 mm MDF",
      expect.stringMatching(/^up to 0\.4 mm off at /),
    ]);
  });

  it("says how the checks stand, and what to do about each that is not fine", () => {
    const tight = set(plank, { nutWidth: "50 mm", nutSpread: "47 mm" });
    const checks = section(tight, "Checks");
    expect(checks.about).toMatch(/^[1-9]\d* to stop at/);
    expect(checks.rows.some(([severity]) => severity === "stop")).toBe(true);
  });

  it("names each number of a list, and gives every group of numbers a heading of its own", () => {
    const barred = set(plank, { "neck.bars": [{ offset: "8 mm", width: "3.2 mm" }, {}] });
    const { sections } = report(barred);
    const neck = sections.slice(sections.findIndex(({ title }) => title === "Neck"));
    const bars = neck.find(({ title, rows }) => title === "Stiffening bars" && rows[0]?.[0] === "Bar 1")!;
    expect(bars.within).toBe(true);
    expect(bars.rows[0]![1]).toMatch(/\b8 mm\b/);
    expect(bars.rows[0]![1]).toContain("width 3.2 mm");
    // No number stands there without words before it.
    for (const [, said] of bars.rows) for (const one of said!.split(", ")) expect(one).toMatch(/^[a-z]/);
    const rod = neck.find(({ title }) => title === "Truss rod")!;
    expect(rod.rows.flat()).toContain("Channel width");
    expect(rod.rows.flat()).not.toContain("Stiffening bars");
  });

  it("holds every number that is shown of every part, and what the order says", () => {
    const text = readFileSync(new URL("../../examples/nylon-650.json", import.meta.url), "utf8");
    const read = readDesign(text);
    if (!read.ok) throw new Error(read.message);
    const derived = createDeriver()(read.design);
    const said = reportOf(read.design, derived, alike);
    const words = said.sections.flatMap(({ rows }) => rows.flat());
    for (const part of [derived.instrument, ...derived.parts])
      for (const { idle, spec, value } of part.fields)
        if (!idle && typeof value === "number") expect(words).toContain(spec.label);
    expect(said.title).toContain(read.design.order!.title!);
    expect(said.facts.map(([, value]) => value)).toContain(read.design.order!.player);
  });
});

describe("its pages", () => {
  const { set: pages, words } = reportSheets(plank, createDeriver()(plank), alike, PAPERS["a5"]!);

  it("keep everything within the paper, and say on each which it is of how many", async () => {
    const pdf = await readPdf(await pdfOfSet(pages, words, fonts));
    expect(pdf.pages.length).toBeGreaterThan(1);
    for (const [i, page] of pdf.pages.entries()) {
      expect(page.view.slice(2).map((v) => Math.round((v * 25.4) / 72))).toEqual([148, 210]);
      for (const { x, y, text, size } of page.texts) {
        expect(x).toBeGreaterThan(10);
        // Letters are 632 of 1000 units wide.
        expect(x + text.length * size * 0.632, text).toBeLessThan(148 - 5);
        expect(y).toBeGreaterThan(8);
        expect(y).toBeLessThan(210 - 10);
      }
      expect(page.texts.map(({ text }) => text).join(" ")).toContain(`${i + 1} of ${pdf.pages.length}`);
    }
  });

  it("never let two lines of lettering run into each other", async () => {
    const pdf = await readPdf(await pdfOfSet(pages, words, fonts));
    for (const { texts } of pdf.pages) {
      const boxes = texts
        .filter(({ text }) => text.trim() !== "")
        .map(({ x, y, text, size }) => ({ text, x0: x, x1: x + text.length * size * 0.632, y0: y, y1: y + size * 0.668 }));
      for (const [i, a] of boxes.entries())
        for (const b of boxes.slice(i + 1)) {
          const meets = a.x0 < b.x1 - 0.01 && b.x0 < a.x1 - 0.01 && a.y0 < b.y1 && b.y0 < a.y1;
          expect(meets, `${a.text} / ${b.text}`).toBe(false);
        }
    }
  });
});
