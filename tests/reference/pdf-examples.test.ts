/** Every example's templates on paper, read back: each line of each template where it belongs, each bar true. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readDesign } from "../../src/document/read.ts";
import { pdfOf } from "../../src/export/pdf/writer.ts";
import { pathBounds } from "../../src/geometry/measure.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { layOut } from "../../src/sheets/lay-out.ts";
import { PAPERS } from "../../src/sheets/paper.ts";
import { templatesOf, type Template } from "../../src/templates/template.ts";
import { fonts } from "../export/fonts.ts";
import { readPdf, type ReadPiece } from "../export/read-pdf.ts";
import { sheetOptions } from "../sheets/synthetic-templates.ts";

const folder = join(import.meta.dirname, "../../examples");
const EXAMPLES = readdirSync(folder).filter((name) => name.endsWith(".json"));

function templatesOfExample(name: string): Template[] {
  const read = readDesign(readFileSync(join(folder, name), "utf8"));
  if (!read.ok) throw new Error(read.message);
  return templatesOf(createDeriver()(read.design));
}

/** Extremes of a cubic or a straight piece, from 64 points on it; within 0.0005 mm for the curves that templates have. */
function boxOf(pieces: readonly ReadPiece[]): { width: number; height: number } {
  const points = pieces.flatMap(({ points: [a, b, c, d] }) =>
    a && b && c && d
      ? Array.from({ length: 65 }, (_, i) => {
          const t = i / 64;
          const u = 1 - t;
          return {
            x: u ** 3 * a.x + 3 * u * u * t * b.x + 3 * u * t * t * c.x + t ** 3 * d.x,
            y: u ** 3 * a.y + 3 * u * u * t * b.y + 3 * u * t * t * c.y + t ** 3 * d.y,
          };
        })
      : [a!, b!],
  );
  const [xs, ys] = [points.map((p) => p.x), points.map((p) => p.y)];
  return { width: Math.max(...xs) - Math.min(...xs), height: Math.max(...ys) - Math.min(...ys) };
}

/** The papers dealt out, so that every size comes up, with and without a correction. */
const DEALS = Object.entries(PAPERS).flatMap(([name, paper]) => [
  { name, paper, printer: undefined },
  { name, paper, printer: { name: "laser", sx: 1.0038, sy: 0.9974 } },
]);

describe("every example is true on paper, shape by shape", { timeout: 240_000 }, () => {
  for (const [i, example] of EXAMPLES.entries()) {
    const templates = templatesOfExample(example);
    for (const { name, paper, printer } of DEALS.filter((_, k) => k % EXAMPLES.length === i)) {
      it(`${example} on ${name}${printer ? ", corrected" : ""}`, async () => {
        expect(templates.length).toBeGreaterThan(0);
        const set = layOut(templates, sheetOptions({ paper, ...(printer ? { printer } : {}) }));
        const { pages, preferences } = await readPdf(await pdfOf(set, { fonts, title: example, number: "", date: "2026-03-09" }));
        expect(preferences["PrintScaling"]).toBe("None");
        expect(pages).toHaveLength(set.sheets.length);
        const [sx, sy] = [printer?.sx ?? 1, printer?.sy ?? 1];
        for (const [n, page] of pages.entries()) {
          for (const bar of [100, 101.6]) {
            const lines = page.pieces
              .filter(({ inForm, points }) => !inForm && points.length === 2)
              .map(({ points: [a, b] }) => [Math.abs(a!.x - b!.x), Math.abs(a!.y - b!.y)]);
            expect(lines.some(([x, y]) => Math.abs(x! - bar * sx) < 0.01 && y! < 1e-6)).toBe(true);
            expect(lines.some(([x, y]) => Math.abs(y! - bar * sy) < 0.01 && x! < 1e-6)).toBe(true);
          }
          // Forms are written whole and in the order of their shapes, so each subpath answers to one loop of one shape.
          const subpaths = new Map<number, ReadPiece[]>();
          for (const piece of page.pieces)
            if (piece.inForm) subpaths.set(piece.path, [...(subpaths.get(piece.path) ?? []), piece]);
          const read = [...subpaths.values()].map(boxOf);
          const sheet = set.sheets[n]!;
          const wanted = sheet.placed.flatMap(({ template, at }) =>
            template.drawing.layers.flatMap(({ shapes }) =>
              shapes.flatMap(({ path, holes = [] }) =>
                [path, ...holes].map((loop) => {
                  const { minX, minY, maxX, maxY } = pathBounds(loop);
                  const lies = (at.turn % 2 === 1) !== sheet.turned;
                  const [w, h] = lies ? [maxY - minY, maxX - minX] : [maxX - minX, maxY - minY];
                  return { width: w * sx, height: h * sy };
                }),
              ),
            ),
          );
          expect(read).toHaveLength(wanted.length);
          for (const [k, { width, height }] of wanted.entries()) {
            expect(Math.abs(read[k]!.width - width), `loop ${k} of sheet ${n + 1}`).toBeLessThan(0.01);
            expect(Math.abs(read[k]!.height - height), `loop ${k} of sheet ${n + 1}`).toBeLessThan(0.01);
          }
        }
      });
    }
  }
});
