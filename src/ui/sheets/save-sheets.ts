/** Sheets and templates into files. */
import type { Design } from "../../document/design.ts";
import { fileNameOf } from "../../document/file-name.ts";
import { writeDesign } from "../../document/write.ts";
import { archiveOf } from "../../export/archive.ts";
import { fileStemOf, svgFileOf, svgFiles } from "../../export/job.ts";
import type { FontBytes } from "../../export/pdf/writer.ts";
import type { OnProgress } from "../../export/pause.ts";
import type { SheetSet } from "../../sheets/sheet.ts";
import type { Template } from "../../templates/template.ts";
import { writeFile } from "./sheets-client.ts";
import { withSay, type PlainOptions } from "./worker-words.ts";

/** A file on its way: its name is known before its content, so that the file dialog can open at once. */
export interface ComingFile {
  readonly name: string;
  readonly type: string;
  /** What is to be done with it. */
  readonly next?: string;
  readonly content: Promise<Uint8Array | string>;
}

export interface SheetJob {
  readonly design: Design;
  readonly templates: readonly Template[];
  readonly options: PlainOptions;
  /** The sheets, where they are laid out already. */
  readonly set?: SheetSet | undefined;
  readonly onProgress: OnProgress;
  readonly signal: AbortSignal;
}

const stemOf = ({ design }: SheetJob): string => fileNameOf(design.order ?? {}).replace(/\.json$/, "");

async function written(job: SheetJob, as: "pdf" | "archive"): Promise<Uint8Array> {
  const { templates, options, set, onProgress, signal } = job;
  const design = { stem: stemOf(job), text: writeDesign(job.design) };
  return writeFile({ as, templates, options, set, design, fonts: await fontBytes(signal) }, onProgress, signal);
}

/** All sheets as one PDF file. Its content rejects when cancelled. */
export const pdfOfJob = (job: SheetJob): ComingFile => ({
  name: `${stemOf(job)}${job.templates.length === 1 ? `-${job.templates[0]!.name}` : ""}.pdf`,
  type: "application/pdf",
  next: "Print it at 100 %, then measure the bars.",
  content: written(job, "pdf"),
});

/** One template as an SVG file, several as an archive of them. */
export function svgOfJob(job: SheetJob): ComingFile {
  const { templates, options } = job;
  const [only] = templates;
  if (only && templates.length === 1)
    return {
      name: `${fileStemOf(only)}.svg`,
      type: "image/svg+xml",
      content: Promise.resolve(svgFileOf(only, withSay(options))),
    };
  const { onProgress, signal } = job;
  const content = archiveOf(svgFiles(templates, withSay(options)), { onProgress, signal });
  return { name: `${stemOf(job)}-svg.zip`, type: "application/zip", content };
}

/** The sheets, every template as SVG, and the design itself, in one archive. Its content rejects when cancelled. */
export const archiveOfJob = (job: SheetJob): ComingFile => ({
  name: `${stemOf(job)}.zip`,
  type: "application/zip",
  next: "Print its PDF at 100 %, then measure the bars.",
  content: written(job, "archive"),
});

let fonts: Promise<FontBytes> | undefined;
/** The two faces of the lettering, fetched once. */
export function fontBytes(signal: AbortSignal): Promise<FontBytes> {
  const fetched = async (name: string): Promise<Uint8Array> => {
    const answer = await fetch(new URL(`fonts/${name}`, document.baseURI), { signal });
    if (!answer.ok) throw new Error(`the font ${name} did not come (${answer.status})`);
    return new Uint8Array(await answer.arrayBuffer());
  };
  fonts ??= Promise.all([
    fetched("atkinson-hyperlegible-mono-latin-400-normal.woff"),
    fetched("atkinson-hyperlegible-mono-latin-600-normal.woff"),
  ]).then(([regular, strong]) => ({ regular, strong }));
  fonts.catch(() => {
    fonts = undefined;
  });
  return fonts;
}
