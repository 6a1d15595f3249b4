/** Sheets and templates into files. */
import type { Design } from "../../document/design.ts";
import { fileNameOf } from "../../document/file-name.ts";
import { writeDesign } from "../../document/write.ts";
import { fileStemOf, pdfFileOf, svgFileOf } from "../../export/job.ts";
import type { FontBytes } from "../../export/pdf/writer.ts";
import type { OnProgress } from "../../export/pause.ts";
import type { SheetOptions } from "../../sheets/sheet.ts";
import type { Template } from "../../templates/template.ts";

export interface Saved {
  readonly name: string;
  readonly bytes: Uint8Array | string;
  readonly type: string;
}

export interface SheetJob {
  readonly design: Design;
  readonly templates: readonly Template[];
  readonly options: SheetOptions;
  readonly onProgress: OnProgress;
  readonly signal: AbortSignal;
}

const stemOf = ({ design }: SheetJob): string => fileNameOf(design.order ?? {}).replace(/\.json$/, "");

/** All sheets as one PDF file. Rejects when cancelled. */
export async function pdfOfJob(job: SheetJob): Promise<Saved> {
  const { templates, options, onProgress, signal } = job;
  const bytes = await pdfFileOf(templates, options, await fontBytes(signal), { onProgress, signal });
  return { name: `${stemOf(job)}${templates.length === 1 ? `-${templates[0]!.name}` : ""}.pdf`, bytes, type: "application/pdf" };
}

/** One template as an SVG file, several as an archive of them. */
export async function svgOfJob(job: SheetJob): Promise<Saved> {
  const { templates, options } = job;
  const [only] = templates;
  if (only && templates.length === 1)
    return { name: `${fileStemOf(only)}.svg`, bytes: svgFileOf(only, options), type: "image/svg+xml" };
  return { name: `${stemOf(job)}-svg.zip`, bytes: await zipped(svgFiles(job)), type: "application/zip" };
}

/** The PDF, every template as SVG, and the design itself, in one archive. */
export async function archiveOfJob(job: SheetJob): Promise<Saved> {
  const pdf = await pdfOfJob(job);
  const files = {
    [pdf.name]: pdf.bytes as Uint8Array,
    ...svgFiles(job),
    [fileNameOf(job.design.order ?? {})]: writeDesign(job.design),
  };
  return { name: `${stemOf(job)}.zip`, bytes: await zipped(files), type: "application/zip" };
}

const svgFiles = ({ templates, options }: SheetJob): Record<string, string> =>
  Object.fromEntries(templates.map((template) => [`${fileStemOf(template)}.svg`, svgFileOf(template, options)]));

async function zipped(files: Readonly<Record<string, Uint8Array | string>>): Promise<Uint8Array> {
  const { strToU8, zipSync } = await import("fflate");
  return zipSync(
    Object.fromEntries(
      Object.entries(files).map(([name, content]) => [name, typeof content === "string" ? strToU8(content) : content]),
    ),
  );
}

let fonts: Promise<FontBytes> | undefined;
/** The two faces of the lettering, fetched once. */
function fontBytes(signal: AbortSignal): Promise<FontBytes> {
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
