/** Sheets joined from nothing but what is printed on them: crosses of one number laid on each other. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readDesign } from "../../src/document/read.ts";
import { pdfOf } from "../../src/export/pdf/writer.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { layOut } from "../../src/sheets/lay-out.ts";
import { PAPERS } from "../../src/sheets/paper.ts";
import type { SheetOptions } from "../../src/sheets/sheet.ts";
import { templatesOf, type Template } from "../../src/templates/template.ts";
import { fonts } from "../export/fonts.ts";
import { distance, readPdf, straight, type Point, type ReadPage, type ReadPiece } from "../export/read-pdf.ts";
import { bodyHalf, fingerboard, ring, sheetOptions } from "../sheets/synthetic-templates.ts";
import { chance, star } from "../sheets/random-outlines.ts";

function exampleTemplates(name: string): Template[] {
  const read = readDesign(readFileSync(join(import.meta.dirname, "../../examples", name), "utf8"));
  if (!read.ok) throw new Error(read.message);
  return templatesOf(createDeriver()(read.design));
}

/** A joining mark: a circle of 1.5 mm with a cross through its middle and its number beside it. */
function marksOf(page: ReadPage): Map<string, Point> {
  const circles = new Map<number, Point[]>();
  for (const { path, points, inForm } of page.pieces) {
    if (!inForm && points.length === 4) circles.set(path, [...(circles.get(path) ?? []), points[0]!]);
  }
  const marks = new Map<string, Point>();
  for (const ends of circles.values()) {
    const centre = { x: ends.reduce((s, p) => s + p.x, 0) / ends.length, y: ends.reduce((s, p) => s + p.y, 0) / ends.length };
    if (!ends.every((p) => Math.abs(distance(p, centre) - 1.5) < 0.01)) continue;
    // Its number is the nearest one, within 4 mm of the circle's middle.
    const [near] = page.texts
      .filter((t) => /^\d+$/.test(t.text) && distance(t, centre) < 4)
      .toSorted((a, b) => distance(a, centre) - distance(b, centre));
    const arms = straight(page, false).filter(
      ({ a, b }) => distance({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }, centre) < 0.01 && Math.abs(distance(a, b) - 6) < 0.01,
    );
    if (!near || arms.length !== 2) continue;
    marks.set(near.text, centre);
  }
  return marks;
}

/** Where each page goes when pages are joined by their marks: a shift for each, the first at rest. */
function joinPages(pages: readonly ReadPage[]): { shifts: Point[]; worst: number } {
  const marks = pages.map(marksOf);
  const shifts: (Point | undefined)[] = pages.map((_, i) => (i === 0 ? { x: 0, y: 0 } : undefined));
  let worst = 0;
  for (let round = 0; round < pages.length; round++) {
    for (const [i, shift] of shifts.entries()) {
      if (!shift) continue;
      for (const [j, other] of shifts.entries()) {
        const shared = [...marks[i]!.keys()].filter((n) => i !== j && marks[j]!.has(n));
        if (shared.length === 0) continue;
        expect(shared.length, "two marks on every joint").toBe(2);
        const offsets = shared.map((n) => ({
          x: marks[i]!.get(n)!.x + shift.x - marks[j]!.get(n)!.x,
          y: marks[i]!.get(n)!.y + shift.y - marks[j]!.get(n)!.y,
        }));
        worst = Math.max(worst, distance(offsets[0]!, offsets[1]!));
        if (other) worst = Math.max(worst, ...offsets.map((o) => distance(o, other)));
        else shifts[j] = { x: (offsets[0]!.x + offsets[1]!.x) / 2, y: (offsets[0]!.y + offsets[1]!.y) / 2 };
      }
    }
  }
  expect(
    shifts.every((s) => s !== undefined),
    "every sheet hangs on another",
  ).toBe(true);
  return { shifts: shifts as Point[], worst };
}

/** Points along a piece, about 0.3 mm apart. */
function along({ points }: Pick<ReadPiece, "points">): Point[] {
  const [a, b, c, d] = points as [Point, Point, Point | undefined, Point | undefined];
  const end = d ?? b;
  const rough = points.slice(1).reduce((sum, p, k) => sum + distance(p, points[k]!), 0);
  const count = Math.max(1, Math.ceil(rough / 0.3));
  return Array.from({ length: count + 1 }, (_, i) => {
    const t = i / count;
    const u = 1 - t;
    if (!c || !d) return { x: a.x + (end.x - a.x) * t, y: a.y + (end.y - a.y) * t };
    return {
      x: u ** 3 * a.x + 3 * u * u * t * b.x + 3 * u * t * t * c.x + t ** 3 * d.x,
      y: u ** 3 * a.y + 3 * u * u * t * b.y + 3 * u * t * t * c.y + t ** 3 * d.y,
    };
  });
}

/** Everything of the template that is in sight on the joined sheets. */
function assembled(pages: readonly ReadPage[], shifts: readonly Point[]): Point[] {
  return pages.flatMap((page, i) =>
    page.pieces.flatMap((piece) => {
      const { clip } = piece;
      if (!piece.inForm || !clip) return [];
      const inSight = along(piece).filter(({ x, y }) => x >= clip.x0 && x <= clip.x1 && y >= clip.y0 && y <= clip.y1);
      return inSight.map(({ x, y }) => ({ x: x + shifts[i]!.x, y: y + shifts[i]!.y }));
    }),
  );
}

/** Distances from points to the nearest of many pieces, by a grid of 4 mm squares. */
function nearestTo(pieces: readonly (readonly [Point, Point])[]): (p: Point) => number {
  const squares = new Map<string, (readonly [Point, Point])[]>();
  const key = (x: number, y: number): string => `${Math.floor(x / 4)},${Math.floor(y / 4)}`;
  for (const piece of pieces) {
    const [a, b] = piece;
    const steps = Math.max(1, Math.ceil(distance(a, b)));
    const seen = new Set<string>();
    for (let k = 0; k <= steps; k++) {
      const [x, y] = [a.x + ((b.x - a.x) * k) / steps, a.y + ((b.y - a.y) * k) / steps];
      for (const dx of [-1, 0, 1]) for (const dy of [-1, 0, 1]) seen.add(key(x + dx, y + dy));
    }
    for (const square of seen) squares.set(square, [...(squares.get(square) ?? []), piece]);
  }
  return (p) => Math.min(Infinity, ...(squares.get(key(p.x, p.y)) ?? []).map(([a, b]) => toSegment(p, a, b)));
}
function toSegment(p: Point, a: Point, b: Point): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const t = Math.max(0, Math.min(1, ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy || 1)));
  return distance(p, { x: a.x + t * dx, y: a.y + t * dy });
}

/** The template's own lines in 0.0005 mm chords, turned by quarters and moved so that its lower left corner is `corner`. */
function trueLines(template: Template, quarters: number, corner: Point): (readonly [Point, Point])[] {
  const lines = template.drawing.layers.flatMap((layer) =>
    layer.shapes
      .flatMap(({ path, holes = [] }) => [path, ...holes])
      .map((path) => {
        const points = flatten(path, 0.0005).map(({ x, y }) =>
          quarters === 0 ? { x, y } : quarters === 1 ? { x: -y, y: x } : quarters === 2 ? { x: -x, y: -y } : { x: y, y: -x },
        );
        return path.closed ? [...points, points[0]!] : points;
      }),
  );
  const [minX, minY] = [Math.min(...lines.flat().map((p) => p.x)), Math.min(...lines.flat().map((p) => p.y))];
  const moved = lines.map((line) => line.map(({ x, y }) => ({ x: x - minX + corner.x, y: y - minY + corner.y })));
  return moved.flatMap((line) => line.slice(1).map((b, k) => [line[k]!, b] as const));
}

async function check(
  template: Template,
  change: Partial<SheetOptions>,
): Promise<{ sheets: number; worstMark: number; worstLine: number; missing: number }> {
  const set = layOut([template], sheetOptions(change));
  const pdf = await readPdf(await pdfOf(set, { fonts, title: "", number: "", date: "2026-03-09" }));
  const pages = pdf.pages.filter((page) => page.pieces.some((piece) => piece.inForm));
  const { shifts, worst } = joinPages(pages);
  const seen = assembled(pages, shifts);
  const corner = { x: Math.min(...seen.map((p) => p.x)), y: Math.min(...seen.map((p) => p.y)) };
  const fits = [0, 1, 2, 3].map((quarters) => {
    const lines = trueLines(template, quarters, corner);
    const near = nearestTo(lines);
    const worstLine = seen.reduce((most, p) => Math.max(most, near(p)), 0);
    return { lines, worstLine };
  });
  const best = fits.reduce((a, b) => (b.worstLine < a.worstLine ? b : a));
  // And the other way: of the true line nothing is missing on paper.
  const onPaper = nearestTo(seen.map((p) => [p, p] as const));
  const missing = best.lines.flatMap(([a, b]) => along({ points: [a, b] })).reduce((most, p) => Math.max(most, onPaper(p)), 0);
  return { sheets: pages.length, worstMark: worst, worstLine: best.worstLine, missing };
}

describe("tiles joined by their own marks give the template back", { timeout: 120_000 }, () => {
  const limb = chance(12);
  const templates: [string, Template][] = [
    ["a board", fingerboard()],
    ["half a body", bodyHalf()],
    ["a wild outline", ring("shape", star(limb, 320, 0.8, 13))],
  ];
  const ways: [string, Partial<SheetOptions>][] = [
    ["letter, overlapped", {}],
    ["A4, butt joints", { paper: PAPERS["a4"]!, overlap: 0 }],
    ["A5, upright only", { paper: PAPERS["a5"]!, orientation: "portrait" }],
    ["tabloid, lying only, wide overlap", { paper: PAPERS["tabloid"]!, orientation: "landscape", overlap: 12 }],
    [
      "A4, joints moved by the maker",
      {
        paper: PAPERS["a4"]!,
        joints: {
          "fingerboard/blank-outline": { x: 30, y: 0 },
          "body/half": { x: -21.7, y: 33.3 },
          "shape/ring": { x: 55, y: -18 },
        },
      },
    ],
  ];
  for (const [what, template] of templates) {
    for (const [how, change] of ways) {
      it(`${what} on ${how}`, async () => {
        const { sheets, worstMark, worstLine, missing } = await check(template, change);
        expect(sheets).toBeGreaterThan(1);
        expect(worstMark).toBeLessThan(0.01);
        expect(worstLine).toBeLessThan(0.01);
        // Points on paper are 0.3 mm apart, so the nearest is within 0.15 of any place and 0.16 with rounding.
        expect(missing).toBeLessThan(0.31);
      });
    }
  }

  const large = exampleTemplates("showpiece-tenor-guitar.json").filter(
    (template) => layOut([template], sheetOptions({ paper: PAPERS["a4"]! })).tilings[0]!.sheets.length > 3,
  );
  it("the richest example has templates of four sheets and more to join", () => {
    expect(large.length).toBeGreaterThan(2);
  });
  for (const template of large) {
    it(`${template.id} of the richest example on A4`, async () => {
      const { sheets, worstMark, worstLine, missing } = await check(template, { paper: PAPERS["a4"]! });
      expect(sheets).toBeGreaterThan(3);
      expect(worstMark).toBeLessThan(0.01);
      expect(worstLine).toBeLessThan(0.02);
      expect(missing).toBeLessThan(0.31);
    });
  }

  it("the length to measure after joining is true between its crosses", async () => {
    const set = layOut([bodyHalf()], sheetOptions({ paper: PAPERS["a4"]! }));
    const pdf = await readPdf(await pdfOf(set, { fonts, title: "", number: "", date: "2026-03-09" }));
    const { shifts } = joinPages(pdf.pages);
    const crosses = pdf.pages.flatMap((page, i) => {
      const lines = straight(page, false).filter(({ a, b }) => Math.abs(distance(a, b) - 6) < 0.001);
      const middles = lines.map(({ a, b }) => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }));
      const marks = [...marksOf(page).values()];
      const alone = middles.filter((m) => marks.every((mark) => distance(mark, m) > 0.1));
      return alone
        .filter((m, k) => alone.findIndex((o) => distance(o, m) < 0.001) === k)
        .map(({ x, y }) => ({ x: x + shifts[i]!.x, y: y + shifts[i]!.y }));
    });
    expect(crosses).toHaveLength(2);
    expect(distance(crosses[0]!, crosses[1]!)).toBeCloseTo(set.tilings[0]!.assembled!, 2);
    const said = `${set.tilings[0]!.assembled!.toFixed(2)} mm`;
    const texts = pdf.pages.map((page) => page.texts.map(({ text }) => text).join(" "));
    expect(texts.filter((text) => text.includes(said))).toHaveLength(2);
  });
});
