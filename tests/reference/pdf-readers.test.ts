/** PDF files opened by independent programs and libraries. */
import { PDFiumLibrary } from "@hyzyla/pdfium";
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { getDocument, VerbosityLevel } from "pdfjs-dist/legacy/build/pdf.mjs";
import { beforeAll, describe, expect, it, vi } from "vitest";
import { pdfOf } from "../../src/export/pdf/writer.ts";
import { layOut } from "../../src/sheets/lay-out.ts";
import { PAPERS } from "../../src/sheets/paper.ts";
import { fonts } from "../export/fonts.ts";
import { bodyHalf, box, bridge, disc, fingerboard, sheetOptions } from "../sheets/synthetic-templates.ts";

const folder = mkdtempSync(join(tmpdir(), "gramil-"));
const path = join(folder, "job.pdf");
const square = join(folder, "square.pdf");
let pages = 0;

beforeAll(async () => {
  const set = layOut(
    [fingerboard(), bodyHalf(), bridge(), disc("soundhole", 50), box("nut", 45, 9)],
    sheetOptions({ waste: "grey", printer: { name: "laser", sx: 1.002, sy: 0.999 } }),
  );
  pages = set.sheets.length;
  writeFileSync(path, await pdfOf(set, { fonts, title: "Tenor guitar", number: "14", date: "2026-03-09" }));
  const one = layOut([box("plate", 100, 100)], sheetOptions({ paper: PAPERS["letter"]!, orientation: "portrait" }));
  writeFileSync(square, await pdfOf(one, { fonts, title: "", number: "", date: "2026-03-09" }));
});

const has = (program: string): boolean => spawnSync(program, ["--version"]).error === undefined;

describe("independent readers", { timeout: 60_000 }, () => {
  it("qpdf finds nothing wrong", (context) => {
    if (!has("qpdf")) return context.skip("qpdf is not installed");
    const { status, stdout, stderr } = spawnSync("qpdf", ["--check", path], { encoding: "utf8" });
    expect(stdout + stderr).toContain("No syntax or stream encoding errors found");
    expect(status).toBe(0);
  });

  it("poppler draws every page without a complaint", (context) => {
    if (!has("pdftoppm")) return context.skip("pdftoppm is not installed");
    const { status, stderr } = spawnSync("pdftoppm", ["-r", "30", "-gray", path, join(folder, "page")], { encoding: "utf8" });
    expect([status, stderr]).toEqual([0, ""]);
    expect(readdirSync(folder).filter((name) => name.startsWith("page")).length).toBe(pages);
  });

  it("poppler finds both faces embedded and subset", (context) => {
    if (!has("pdffonts")) return context.skip("pdffonts is not installed");
    const { stdout } = spawnSync("pdffonts", [path], { encoding: "utf8" });
    const faces = stdout.split("\n").filter((line) => /^[A-Z]{6}\+/.test(line));
    expect(faces).toHaveLength(2);
    for (const face of faces) expect(face).toMatch(/TrueType\s+Identity-H\s+yes\s+yes\s+yes/);
  });

  it("pdfium opens and draws every page, whatever is installed beside this project", async () => {
    const library = await PDFiumLibrary.init();
    const document = await library.loadDocument(readFileSync(path));
    expect(document.getPageCount()).toBe(pages);
    for (const page of document.pages()) {
      const { data } = await page.render({ scale: 0.5, render: "bitmap" });
      expect(data.some((value, k) => k % 4 === 0 && value < 128)).toBe(true);
    }
    document.destroy();
    library.destroy();
  });

  it("pdf.js reads every page without a warning, whatever is installed beside this project", async () => {
    const said: unknown[] = [];
    const spies = (["log", "warn", "error"] as const).map((way) =>
      vi.spyOn(console, way).mockImplementation((...words) => void said.push(...words)),
    );
    const doc = await getDocument({ data: new Uint8Array(readFileSync(path)), verbosity: VerbosityLevel.WARNINGS }).promise;
    expect(doc.numPages).toBe(pages);
    for (let n = 1; n <= pages; n++) {
      const page = await doc.getPage(n);
      expect((await page.getOperatorList()).fnArray.length).toBeGreaterThan(50);
      expect((await page.getTextContent()).items.length).toBeGreaterThan(10);
    }
    await doc.destroy();
    for (const spy of spies) spy.mockRestore();
    expect(said).toEqual([]);
  });

  it("pdfium draws a 100 mm square 100 mm wide and high at 600 dots an inch", async () => {
    const library = await PDFiumLibrary.init();
    const document = await library.loadDocument(readFileSync(square));
    const image = await document.getPage(0).render({ scale: 600 / 72, render: "bitmap" });
    const { width, height, data } = image;
    expect([width, height]).toEqual([8.5 * 600, 11 * 600]);
    const perMm = 600 / 25.4;
    const dark = (x: number, y: number): boolean => data[(y * width + x) * 4]! < 128;
    /** Middles of the dark runs of a row or column. */
    const runs = (length: number, at: (k: number) => boolean): number[] => {
      const middles: number[] = [];
      for (let k = 0; k < length; k++) {
        if (!at(k)) continue;
        const start = k;
        while (k < length && at(k)) k++;
        middles.push((start + k) / 2);
      }
      return middles;
    };
    const spans = (middles: readonly number[]): number[] =>
      middles.flatMap((a, i) => middles.slice(i + 1).map((b) => (b - a) / perMm));
    // The square lies in the middle of the frame; a row through it crosses its two sides.
    const near = (spans: readonly number[]): number => Math.min(...spans.map((s) => Math.abs(s - 100)));
    const rows = [0.4, 0.42, 0.45, 0.5].map((f) => near(spans(runs(width, (x) => dark(x, Math.round(height * f))))));
    const columns = [0.4, 0.45, 0.55, 0.6].map((f) => near(spans(runs(height, (y) => dark(Math.round(width * f), y)))));
    // One dot is 0.042 mm; a side's middle is found to half a dot.
    expect(Math.min(...rows)).toBeLessThan(0.05);
    expect(Math.min(...columns)).toBeLessThan(0.05);
    document.destroy();
    library.destroy();
  });
});
