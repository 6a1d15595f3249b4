/**
 * All templates of the richest example to one PDF and one archive, beside writing the same segments with the PDF library alone (no
 * sheets, no fonts, no marks). Printed before the table: sheets, segments, bytes, and the ratio of medians. Run by
 * `npx vitest bench --run --project unit tests/bench/pdf.bench.ts`.
 */
import { PDFDocument } from "@cantoo/pdf-lib";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { bench, describe } from "vitest";
import { readDesign } from "../../src/document/read.ts";
import { archiveOf } from "../../src/export/archive.ts";
import { pathOperators, POINTS_PER_MM } from "../../src/export/pdf/content.ts";
import { pdfOf } from "../../src/export/pdf/writer.ts";
import { scaling } from "../../src/geometry/transform.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { layOut } from "../../src/sheets/lay-out.ts";
import { templatesOf, type Template } from "../../src/templates/template.ts";
import { fonts } from "../export/fonts.ts";
import { sheetOptions } from "../sheets/synthetic-templates.ts";

const folder = join(import.meta.dirname, "../../examples");
const jobs = readdirSync(folder)
  .filter((name) => name.endsWith(".json"))
  .map((name): Template[] => {
    const read = readDesign(readFileSync(join(folder, name), "utf8"));
    if (!read.ok) throw new Error(read.message);
    return templatesOf(createDeriver()(read.design));
  });
const segmentsOf = (templates: readonly Template[]): number =>
  templates
    .flatMap(({ drawing }) => drawing.layers.flatMap(({ shapes }) => shapes))
    .reduce((sum, { path, holes = [] }) => sum + [path, ...holes].reduce((s, p) => s + p.segments.length, 0), 0);
const templates = jobs.toSorted((a, b) => segmentsOf(b) - segmentsOf(a))[0]!;

const options = sheetOptions();
const set = layOut(templates, options);
const about = { fonts, title: "job", number: "14", date: "2026-03-09" };

/** The same segments through the library's own page and stream, one template after the other on one page. */
async function bare(): Promise<Uint8Array> {
  const doc = await PDFDocument.create({ updateMetadata: false });
  const page = doc.addPage([612, 792]);
  const to = scaling(POINTS_PER_MM);
  const content = templates.flatMap(({ drawing }) =>
    drawing.layers.flatMap(({ shapes }) =>
      shapes.map(({ path, holes = [] }) => [path, ...holes].map((p) => `${pathOperators(p, to)}\nS`).join("\n")),
    ),
  );
  page.node.addContentStream(doc.context.register(doc.context.flateStream(content.join("\n"))));
  return doc.save();
}

async function median(run: () => Promise<unknown>): Promise<number> {
  const times: number[] = [];
  for (let i = 0; i < 15; i++) {
    const start = performance.now();
    await run();
    times.push(performance.now() - start);
  }
  return times.slice(4).toSorted((a, b) => a - b)[5]!;
}

const whole = (): Promise<Uint8Array> => pdfOf(set, about);
const archived = async (): Promise<Uint8Array> => archiveOf([{ name: "all.pdf", bytes: whole }]);

const [laid, written, alone] = [
  await median(() => Promise.resolve(layOut(templates, options))),
  await median(whole),
  await median(bare),
];
const apart = layOut(templates, { ...options, share: false }).sheets.length;
console.log(
  [
    `${templates.length} templates, ${segmentsOf(templates)} segments, ${set.sheets.length} sheets (${apart} without sharing)`,
    `laying out ${laid.toFixed(1)} ms, PDF ${written.toFixed(1)} ms and ${(await whole()).length} bytes, archive ${(await archived()).length} bytes`,
    `the library alone ${alone.toFixed(1)} ms and ${(await bare()).length} bytes; ratio ${(written / alone).toFixed(1)}`,
  ].join("\n"),
);

describe("all templates of one order", () => {
  bench("laid out", () => void layOut(templates, options));
  bench("written as PDF", async () => void (await whole()));
  bench("the same segments by the PDF library alone", async () => void (await bare()));
});
