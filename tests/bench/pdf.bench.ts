/**
 * All templates of the richest example as the whole job in one archive (sheets, SVG files, design), beside writing the same segments with
 * the PDF library alone (no sheets, no fonts, no marks). Printed before the table: sheets, segments, bytes, the ratio of medians, the most
 * memory that the job held at any time, and the sheets that nesting saves. Fails where the job holds more than MOST_MEMORY. Run by
 * `npx vitest bench --run --project unit tests/bench/pdf.bench.ts`.
 */
import { PDFDocument } from "@cantoo/pdf-lib";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { bench, describe } from "vitest";
import { readDesign } from "../../src/document/read.ts";
import { jobArchive } from "../../src/export/job.ts";
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
  for (let i = 0; i < 6; i++) {
    const start = performance.now();
    await run();
    times.push(performance.now() - start);
  }
  return times.slice(1).toSorted((a, b) => a - b)[2]!;
}

const whole = (): Promise<Uint8Array> => pdfOf(set, about);
const job = (onProgress?: () => void): Promise<Uint8Array> =>
  jobArchive(templates, options, fonts, { stem: "job", text: "{}" }, onProgress ? { onProgress } : {});

/** The most that a job may hold beside what was there before, bytes: a phone gives a page several times as much. */
const MOST_MEMORY = 256 * 2 ** 20;

setFlagsFromString("--expose-gc");
const collect = runInNewContext("gc") as () => void;

/** The most memory in use at any step of `run` over what was in use before, bytes. Garbage counts as well, so it is never too low. */
async function memoryOf(run: (look: () => void) => Promise<unknown>): Promise<number> {
  const used = (): number => {
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    return heapUsed + arrayBuffers;
  };
  collect();
  const before = used();
  let most = before;
  const look = (): void => {
    most = Math.max(most, used());
  };
  const watch = setInterval(look, 5);
  await run(look);
  clearInterval(watch);
  look();
  return most - before;
}

const [laid, written, alone, archived] = [
  await median(() => Promise.resolve(layOut(templates, options))),
  await median(whole),
  await median(bare),
  await median(() => job()),
];
const apart = layOut(templates, { ...options, share: false }).sheets.length;
const memory = await memoryOf(job);
const mebibytes = (bytes: number): string => `${(bytes / 2 ** 20).toFixed(1)} MiB`;
console.log(
  [
    `${templates.length} templates, ${segmentsOf(templates)} segments, ${set.sheets.length} sheets`,
    `one template a sheet: ${apart} sheets; nesting takes ${(set.sheets.length / apart).toFixed(2)} of them`,
    `laying out ${laid.toFixed(0)} ms, PDF ${written.toFixed(0)} ms and ${(await whole()).length} bytes`,
    `the whole job ${archived.toFixed(0)} ms and ${(await job()).length} bytes; most memory ${mebibytes(memory)} of ${mebibytes(MOST_MEMORY)} allowed`,
    `the library alone ${alone.toFixed(0)} ms and ${(await bare()).length} bytes; PDF to library ${(written / alone).toFixed(1)}`,
  ].join("\n"),
);
if (memory > MOST_MEMORY) throw new Error(`the job held ${mebibytes(memory)}`);

const FEW = { time: 0, iterations: 3, warmupTime: 0, warmupIterations: 1 };

describe("all templates of one order", () => {
  bench("laid out", () => void layOut(templates, options), FEW);
  bench("written as PDF", async () => void (await whole()), FEW);
  bench("the whole job in one archive", async () => void (await job()), FEW);
  bench("the same segments by the PDF library alone", async () => void (await bare()), FEW);
});
