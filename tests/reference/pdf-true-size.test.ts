import { describe, expect, it } from "vitest";
import { pdfOf } from "../../src/export/pdf/writer.ts";
import { layOut } from "../../src/sheets/lay-out.ts";
import { PAPERS, parsePaper, type Paper } from "../../src/sheets/paper.ts";
import type { PrinterCorrection, SheetOptions } from "../../src/sheets/sheet.ts";
import { fonts } from "../export/fonts.ts";
import { distance, readPdf, straight, type ReadPage, type ReadPdf } from "../export/read-pdf.ts";
import { bodyHalf, box, bridge, fingerboard, sheetOptions } from "../sheets/synthetic-templates.ts";

/** Width and height in points: ISO 216 sizes over 25.4 times 72; ASME Y14.1 and trade sizes in inches times 72. */
const POINTS: Readonly<Record<string, readonly [number, number]>> = {
  a5: [419.5276, 595.2756],
  a4: [595.2756, 841.8898],
  a3: [841.8898, 1190.5512],
  a2: [1190.5512, 1683.7795],
  a1: [1683.7795, 2383.937],
  a0: [2383.937, 3370.3937],
  letter: [612, 792],
  legal: [612, 1008],
  tabloid: [792, 1224],
  ledger: [1224, 792],
  "ansi-c": [1224, 1584],
  "ansi-d": [1584, 2448],
  "ansi-e": [2448, 3168],
};

const NO_CORRECTION: PrinterCorrection = { name: "none", sx: 1, sy: 1 };
const SHOP_LASER: PrinterCorrection = { name: "shop laser", sx: 1.0042, sy: 0.9969 };

async function pdfFor(paper: Paper, change: Partial<SheetOptions> = {}): Promise<ReadPdf> {
  const set = layOut([fingerboard(), bodyHalf(), bridge(), box("nut", 45, 9)], sheetOptions({ paper, ...change }));
  return readPdf(await pdfOf(set, { fonts, title: "Tenor guitar", number: "14", date: "2026-03-09" }));
}

/** Lengths of the furniture's lines that lie exactly along x and along y. */
function barsOf(page: ReadPage): { across: number[]; along: number[] } {
  const lines = straight(page, false);
  const long = (level: boolean): number[] =>
    lines.filter(({ a, b }) => (level ? Math.abs(a.y - b.y) : Math.abs(a.x - b.x)) < 1e-6).map(({ a, b }) => distance(a, b));
  return { across: long(true), along: long(false) };
}

const hasLength = (lengths: readonly number[], wanted: number): boolean =>
  lengths.some((length) => Math.abs(length - wanted) <= 0.01);

/** Fret 12 halves the string: 645.16 / 2. */
const FRET_12 = 322.58;

const SLOW = { timeout: 120_000 };

describe("every sheet is true in the file, read back by another library", SLOW, () => {
  for (const [name, size] of Object.entries(POINTS)) {
    for (const printer of [NO_CORRECTION, SHOP_LASER]) {
      it(`${name} with correction ${printer.name}`, async () => {
        const paper = PAPERS[name]!;
        const pdf = await pdfFor(paper, printer === NO_CORRECTION ? {} : { printer });
        expect(pdf.preferences["PrintScaling"]).toBe("None");
        let saw12 = 0;
        for (const page of pdf.pages) {
          expect(page.view.slice(0, 2)).toEqual([0, 0]);
          expect(page.view[2]).toBeCloseTo(size[0], 3);
          expect(page.view[3]).toBeCloseTo(size[1], 3);
          const { across, along } = barsOf(page);
          for (const bar of [100, 101.6]) {
            expect(hasLength(across, bar * printer.sx), `${bar} mm across`).toBe(true);
            expect(hasLength(along, bar * printer.sy), `${bar} mm along`).toBe(true);
          }
          // The board's ends and frets are the only straight lines of a template parallel to each other at these distances.
          const ends = straight(page, true);
          const nut = ends.find(({ a, b }) => Math.abs(distance(a, b) / 43 - 1) < 0.006);
          const twelfth = ends.filter(({ a, b }) => nut && Math.abs(distance(a, b) - (43 + (14 * FRET_12) / 470)) < 0.35);
          if (!nut || twelfth.length === 0) continue;
          const lies = Math.abs(nut.a.x - nut.b.x) < 1e-3;
          const wanted = FRET_12 * (lies ? printer.sx : printer.sy);
          const found = twelfth.map(({ a }) => (lies ? Math.abs(a.x - nut.a.x) : Math.abs(a.y - nut.a.y)));
          if (found.some((d) => Math.abs(d - wanted) <= 0.01)) saw12++;
        }
        expect(saw12).toBeGreaterThan(0);
      });
    }
  }

  it("nothing is drawn in the printer's margin, on paper of any size, corrected or not", async () => {
    const custom = parsePaper("300x500");
    const roll = parsePaper("roll 610");
    const small = parsePaper("150x210");
    if (!custom.ok || !roll.ok || !small.ok) throw new Error("these are papers");
    for (const paper of [
      PAPERS["a5"]!,
      PAPERS["a4"]!,
      PAPERS["letter"]!,
      PAPERS["ledger"]!,
      custom.value,
      roll.value,
      small.value,
    ]) {
      for (const printer of [NO_CORRECTION, SHOP_LASER, { name: "", sx: 0.97, sy: 1.03 }]) {
        for (const overlap of [0, 6]) {
          const margin = 8;
          const pdf = await pdfFor(paper, { printer, margin, overlap });
          for (const page of pdf.pages) {
            const [width, height] = [(page.view[2]! * 25.4) / 72, (page.view[3]! * 25.4) / 72];
            const within = (x: number, y: number): boolean =>
              x >= margin - 1e-3 && y >= margin - 1e-3 && x <= width - margin + 1e-3 && y <= height - margin + 1e-3;
            for (const { x, y, text } of page.texts) expect(within(x, y), `"${text}" on ${paper.label}`).toBe(true);
            for (const piece of page.pieces) {
              if (piece.inForm) {
                expect(piece.clip).toBeDefined();
                expect(within(piece.clip!.x0, piece.clip!.y0) && within(piece.clip!.x1, piece.clip!.y1)).toBe(true);
              } else for (const { x, y } of piece.points) expect(within(x, y), `${x}, ${y} on ${paper.label}`).toBe(true);
            }
          }
        }
      }
    }
  });

  it("a printer that prints 0.4 % short across is corrected: what it prints measures 100 mm", async () => {
    // The maker reads 199.2 mm on a 200 mm bar across and 200.5 along.
    const printer = { name: "inkjet", sx: 200 / 199.2, sy: 200 / 200.5 };
    const pdf = await pdfFor(PAPERS["a4"]!, { printer });
    for (const page of pdf.pages) {
      const { across, along } = barsOf(page);
      expect(across.some((length) => Math.abs((length * 199.2) / 200 - 100) < 0.01)).toBe(true);
      expect(along.some((length) => Math.abs((length * 200.5) / 200 - 100) < 0.01)).toBe(true);
      expect(page.texts.map(({ text }) => text).join(" ")).toMatch(/inkjet,? corrected x 1\.0040, y 0\.9975/);
    }
  });
});
