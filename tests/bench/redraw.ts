/**
 * From a changed number to a new drawing: a bound board of 24 frets, every run with another nut width, so that nothing can be kept from the
 * run before. Beside it the same two outlines moved in by the binding with the clipping library alone, and the sheets of the board as PDF.
 * Run by `npm run bench`; prints milliseconds.
 */
import "../every-part.ts";
import { readFileSync } from "node:fs";
import ClipperLib from "clipper-lib";
import { newDesign } from "../../src/document/new-design.ts";
import { setValue } from "../../src/document/set-value.ts";
import type { Design } from "../../src/document/design.ts";
import { pdfFileOf } from "../../src/export/job.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { PAPERS } from "../../src/sheets/paper.ts";
import { SHEET_DEFAULTS, type SheetOptions } from "../../src/sheets/sheet.ts";
import { templatesOf } from "../../src/templates/template.ts";

const RUNS = 400;
const WARM = 80;

function times(runs: number, warm: number, work: (i: number) => void): number[] {
  const all: number[] = [];
  for (let i = 0; i < runs + warm; i++) {
    const start = performance.now();
    work(i);
    if (i >= warm) all.push(performance.now() - start);
  }
  return all.toSorted((a, b) => a - b);
}
const at = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;

function set(design: Design, path: string, raw: unknown): Design {
  const result = setValue(design, path, raw);
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
}

let design = newDesign("steel-string");
design = set(design, "instrument.frets", 24);
design = set(design, "parts.fingerboard.binding", [
  { name: "binding", thickness: "0.060 in" },
  { name: "purfling", thickness: "0.035 in" },
]);

const derive = createDeriver();
const redraw = times(RUNS, WARM, (i) => {
  const changed = set(design, "instrument.nutWidth", `${43 + (i % 100) * 0.01} mm`);
  const board = derive(changed).parts.find((part) => part.kind === "fingerboard");
  if (!board || board.problems.length > 0 || board.drawing().layers.length === 0) throw new Error("no board was drawn");
});

const outline = derive(design)
  .parts.find((part) => part.kind === "fingerboard")!
  .drawing()
  .layers.flatMap((layer) => layer.shapes)
  .find((shape) => shape.id === "outline")!;
const ring = flatten(outline.path).map(({ x, y }) => ({ X: Math.round(x * 10_000), Y: Math.round(y * 10_000) }));
const bare = times(RUNS, WARM, () => {
  for (const distance of [1.524, 2.413]) {
    const engine = new ClipperLib.ClipperOffset(2, 10);
    engine.AddPath(ring, ClipperLib.JoinType.jtMiter, ClipperLib.EndType.etClosedPolygon);
    const out: ClipperLib.Paths = [];
    engine.Execute(out, -distance * 10_000);
    if (out.length !== 1) throw new Error("the outline was lost");
  }
});

const font = (name: string): Uint8Array => new Uint8Array(readFileSync(new URL(`../../public/fonts/${name}`, import.meta.url)));
const fonts = {
  regular: font("atkinson-hyperlegible-mono-latin-400-normal.woff"),
  strong: font("atkinson-hyperlegible-mono-latin-600-normal.woff"),
};
const options: SheetOptions = {
  ...SHEET_DEFAULTS,
  paper: PAPERS["a4"]!,
  order: { number: "1", title: "Bench", player: "" },
  date: "",
  fingerprint: "BEN-CH0",
  say: (mm) => `${mm.toFixed(2)} mm`,
};
const templates = templatesOf(derive(design)).filter((template) => template.partId === "fingerboard");
const pdfTimes: number[] = [];
let bytes = 0;
for (let i = 0; i < 12; i++) {
  const start = performance.now();
  bytes = (await pdfFileOf(templates, options, fonts)).length;
  if (i >= 2) pdfTimes.push(performance.now() - start);
}
pdfTimes.sort((a, b) => a - b);

const ms = (value: number): string => value.toFixed(2);
console.table({
  "changed number to drawing, bound board of 24 frets": { p50: ms(at(redraw, 0.5)), p95: ms(at(redraw, 0.95)) },
  "the two inset outlines by the clipping library alone": { p50: ms(at(bare, 0.5)), p95: ms(at(bare, 0.95)) },
  [`all ${templates.length} sheets-to-be of the board as PDF, ${Math.round(bytes / 1024)} kB`]: {
    p50: ms(at(pdfTimes, 0.5)),
    p95: ms(at(pdfTimes, 0.95)),
  },
});
console.log(`ratio of the first two, p95: ${(at(redraw, 0.95) / at(bare, 0.95)).toFixed(1)}`);
