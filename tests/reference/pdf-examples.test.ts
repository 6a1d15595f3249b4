/** Every example's templates on paper, read back: each line of each template where it belongs, each bar true. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readDesign } from "../../src/document/read.ts";
import { pdfOf } from "../../src/export/pdf/writer.ts";
import { pathBounds } from "../../src/geometry/measure.ts";
import type { Path } from "../../src/geometry/path.ts";
import type { Vec } from "../../src/geometry/vec.ts";
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

/** Quarter turns counter-clockwise, then the printer's scale of each side: what becomes of a point of a template on the page as stored. */
function onPage({ x, y }: Vec, quarters: number, sx: number, sy: number): Vec {
  const [u, v] = quarters % 4 === 0 ? [x, y] : quarters % 4 === 1 ? [-y, x] : quarters % 4 === 2 ? [-x, -y] : [y, -x];
  return { x: u * sx, y: v * sy };
}
const apart = (a: Vec, b: Vec): number => Math.hypot(a.x - b.x, a.y - b.y);

/** Greatest distance of a loop's corners from where they should be; Infinity where one is missing. */
function worstCorner(path: Path, pieces: readonly ReadPiece[], placed: (p: Vec) => Vec): number {
  const read = [pieces[0]!.points[0]!, ...pieces.map(({ points }) => points.at(-1)!)];
  let [at, worst] = [0, 0];
  // An arc is several curves, so what is read may have more ends than the path has corners, never fewer.
  for (const corner of [path.start, ...path.segments.map(({ to }) => to)].map(placed)) {
    const found = read.findIndex((p, k) => k >= at && apart(p, corner) < 0.01);
    if (found < 0) return Infinity;
    worst = Math.max(worst, apart(read[found]!, corner));
    at = found;
  }
  return worst;
}

/**
 * A test run takes every example on every paper, uncorrected and corrected, with an eighth of its templates in turn, so that each
 * template is read from several papers both ways. `GRAMIL_ALL=1` takes all of them on all.
 */
const SHARES = process.env["GRAMIL_ALL"] === undefined ? 8 : 1;

const LASER = { name: "laser", sx: 1.0038, sy: 0.9974 };

describe("every example is true on every paper, shape by shape, distance by distance", { timeout: 240_000 }, () => {
  for (const example of EXAMPLES) {
    const all = templatesOfExample(example);
    for (const [p, [name, paper]] of Object.entries(PAPERS).entries()) {
      for (const printer of [undefined, LASER]) {
        const turn = p + (printer ? 1 : 0);
        const templates = all.filter((_, i) => i % SHARES === turn % SHARES);
        it(`${example} on ${name}${printer ? ", corrected" : ""}`, async () => {
          expect(templates.length).toBeGreaterThan(0);
          const set = layOut(templates, sheetOptions({ paper, ...(printer ? { printer } : {}) }));
          const { pages, preferences } = await readPdf(
            await pdfOf(set, { fonts, title: example, number: "", date: "2026-03-09" }),
          );
          expect(preferences["PrintScaling"]).toBe("None");
          expect(pages).toHaveLength(set.sheets.length);
          const [sx, sy] = [printer?.sx ?? 1, printer?.sy ?? 1];
          const shown = new Set<string>();
          for (const [n, page] of pages.entries()) {
            const sheet = set.sheets[n]!;
            const lines = page.pieces
              .filter(({ inForm, points }) => !inForm && points.length === 2)
              .map(({ points: [a, b] }) => [Math.abs(a!.x - b!.x), Math.abs(a!.y - b!.y)] as const);
            for (const bar of [100, 101.6]) {
              expect(lines.some(([x, y]) => Math.abs(x - bar * sx) < 0.01 && y < 1e-6)).toBe(true);
              expect(lines.some(([x, y]) => Math.abs(y - bar * sy) < 0.01 && x < 1e-6)).toBe(true);
            }
            // Forms are written whole and in the order of their shapes, so each subpath answers to one loop of one shape.
            const subpaths = new Map<number, ReadPiece[]>();
            for (const piece of page.pieces) {
              if (!piece.inForm) continue;
              const run = subpaths.get(piece.path);
              if (run) run.push(piece);
              else subpaths.set(piece.path, [piece]);
            }
            const read = [...subpaths.values()];
            let k = 0;
            for (const { template, at } of sheet.placed) {
              const quarters = at.turn + (sheet.turned ? 1 : 0);
              const loops = template.drawing.layers.flatMap(({ shapes }) =>
                shapes.flatMap(({ path, holes = [] }) => [path, ...holes]),
              );
              const [first, origin] = [onPage(loops[0]!.start, quarters, sx, sy), read[k]![0]!.points[0]!];
              const placed = (p: Vec): Vec => {
                const { x, y } = onPage(p, quarters, sx, sy);
                return { x: x - first.x + origin.x, y: y - first.y + origin.y };
              };
              for (const loop of loops) {
                const where = `${template.id}, a loop from ${loop.start.x}, ${loop.start.y} on sheet ${n + 1}`;
                expect(worstCorner(loop, read[k]!, placed), where).toBeLessThan(0.01);
                const { minX, minY, maxX, maxY } = pathBounds(loop);
                const [w, h] = quarters % 2 === 1 ? [maxY - minY, maxX - minX] : [maxX - minX, maxY - minY];
                const { width, height } = boxOf(read[k]!);
                expect(Math.max(Math.abs(width - w * sx), Math.abs(height - h * sy)), where).toBeLessThan(0.01);
                k++;
              }
              shown.add(template.id);
            }
            expect(read).toHaveLength(k);
          }
          expect([...shown].toSorted()).toEqual(templates.map(({ id }) => id).toSorted());
        });
      }
    }
  }
});
