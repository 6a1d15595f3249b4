/** What the screen and the command line write alike: the same design and choices give the same bytes. */
import type { Drawing } from "../drawing/drawing.ts";
import { layOut } from "../sheets/lay-out.ts";
import type { SheetOptions, SheetSet } from "../sheets/sheet.ts";
import type { Template } from "../templates/template.ts";
import { inkBounds } from "../sheets/ink.ts";
import { lineSentence, nameOf } from "../sheets/words.ts";
import { archiveOf, type ArchiveFile } from "./archive.ts";
import type { OnProgress } from "./pause.ts";
import type { FontBytes } from "./pdf/writer.ts";
import { forMachine, ORDER_SAID, passesSaid, sideBySide, withPasses } from "./svg/machine.ts";
import { svgOf } from "./svg/write.ts";

/** Name of a template's file without its ending: `fingerboard-blank-outline`. */
export const fileStemOf = (template: Template): string => `${template.partId}-${template.name}`;

/** "No. 14, Tenor guitar: Fingerboard, blank outline" */
function titleOf({ number, title }: SheetOptions["order"], what: string): string {
  const order = [number === "" ? "" : `No. ${number}`, title].filter((text) => text !== "").join(", ");
  return order === "" ? what : `${order}: ${what}`;
}

/** What comes with a job. */
export interface JobWatch {
  readonly onProgress?: OnProgress;
  readonly signal?: AbortSignal;
  /** The sheets, where the templates are laid out already by the same options. */
  readonly set?: SheetSet | undefined;
}

const CHECK_UNITS = "one unit is 1 mm: check units and one length in the receiving program.";
const sentences = (texts: readonly string[]): string => texts.filter((text) => text !== "").join(" ");
const stampOf = ({ date, fingerprint }: SheetOptions): string => [date, fingerprint].filter((text) => text !== "").join(" · ");

/** A template ready for a machine. The passes that clear a recess stand before the cuts. */
const machineDrawing = ({ drawing, passes = [] }: Template): Drawing => withPasses(forMachine(drawing), passes);

/** One template as an SVG file, ready for a machine. */
export function svgFileOf(template: Template, options: SheetOptions): string {
  const { minX, minY, maxX, maxY } = inkBounds(template);
  const size = `${(maxX - minX).toFixed(2)} by ${(maxY - minY).toFixed(2)} mm`;
  return svgOf(machineDrawing(template), {
    title: titleOf(options.order, nameOf(template)),
    desc: sentences([
      lineSentence(template),
      `True size, ${size}, ${CHECK_UNITS}`,
      ORDER_SAID,
      passesSaid(template.passes ?? []),
      stampOf(options),
    ]),
  });
}

/** All templates side by side in one SVG file; their layers are named `fingerboard-blank-outline/outline`. */
export function svgOfAll(templates: readonly Template[], options: SheetOptions): string {
  const drawings = templates.map((template) => ({
    name: fileStemOf(template),
    drawing: machineDrawing(template),
    box: inkBounds(template),
  }));
  return svgOf(sideBySide(drawings), {
    title: titleOf(options.order, `${templates.length} templates`),
    desc: sentences([
      templates.map((template) => `${nameOf(template)}: ${lineSentence(template)}`).join(" "),
      `True size, ${CHECK_UNITS}`,
      ORDER_SAID,
      stampOf(options),
    ]),
  });
}

/** The whole job as the files of an archive: all sheets, every template for a machine, all of them in one, and the design. */
export function jobFiles(
  templates: readonly Template[],
  options: SheetOptions,
  fonts: FontBytes,
  design: { readonly stem: string; readonly text: string },
  watch: JobWatch = {},
): ArchiveFile[] {
  return [
    { name: `${design.stem}.pdf`, bytes: () => pdfFileOf(templates, options, fonts, watch) },
    ...svgFiles(templates, options),
    { name: `${design.stem}.json`, bytes: () => encoded(design.text) },
  ];
}

/** Every template as an SVG file, and where they are several all of them in one. */
export function svgFiles(templates: readonly Template[], options: SheetOptions): ArchiveFile[] {
  const each = templates.map((template): ArchiveFile => ({
    name: `${fileStemOf(template)}.svg`,
    bytes: () => encoded(svgFileOf(template, options)),
  }));
  return templates.length > 1 ? [...each, { name: ALL_IN_ONE, bytes: () => encoded(svgOfAll(templates, options)) }] : each;
}
export const ALL_IN_ONE = "all-templates.svg";

const encoded = (text: string): Uint8Array => new TextEncoder().encode(text);

/** How much of a whole job the sheets are. */
const SHEETS_SHARE = 0.9;

/** The whole job in one archive. The bytes hold nothing of the day or the machine; rejects with the signal's reason when cancelled. */
export function jobArchive(
  templates: readonly Template[],
  options: SheetOptions,
  fonts: FontBytes,
  design: { readonly stem: string; readonly text: string },
  { onProgress, signal, set }: JobWatch = {},
): Promise<Uint8Array<ArrayBuffer>> {
  const tell = (done: number): void => onProgress?.(done);
  const watch = { ...(signal ? { signal } : {}), set };
  const files = jobFiles(templates, options, fonts, design, { ...watch, onProgress: (done) => tell(SHEETS_SHARE * done) });
  // The sheets are the first of the files.
  const share = (done: number): number => SHEETS_SHARE + ((1 - SHEETS_SHARE) * (done * files.length - 1)) / (files.length - 1);
  return archiveOf(files, { ...watch, onProgress: (done) => tell(share(done)) });
}

/** Templates laid on sheets and written as one PDF file. Loads the PDF library on first use. */
export async function pdfFileOf(
  templates: readonly Template[],
  options: SheetOptions,
  fonts: FontBytes,
  watch: JobWatch = {},
): Promise<Uint8Array> {
  const what = templates.length === 1 ? nameOf(templates[0]!) : "templates";
  const words = { title: titleOf(options.order, what), number: options.order.number, date: options.date };
  const laying = watch.set ? 0 : LAYING_SHARE;
  const tell = (done: number): void => watch.onProgress?.(done);
  const set = watch.set ?? layOut(templates, options, (done) => tell(laying * done));
  return pdfOfSet(set, words, fonts, { ...watch, onProgress: (done) => tell(laying + (1 - laying) * done) });
}

/** How much of the sheets' file it is to lay them out. */
const LAYING_SHARE = 0.6;

/** What a file of sheets says of itself. */
export interface SetWords {
  readonly title: string;
  readonly number: string;
  /** As the maker wrote it. */
  readonly date: string;
}

/** Any sheets as one PDF file. Loads the PDF library on first use. */
export async function pdfOfSet(
  set: SheetSet,
  { title, number, date }: SetWords,
  fonts: FontBytes,
  { onProgress, signal }: { readonly onProgress?: OnProgress; readonly signal?: AbortSignal } = {},
): Promise<Uint8Array> {
  const { pdfOf } = await import("./pdf/writer.ts");
  return pdfOf(set, {
    fonts,
    title,
    number,
    // A date as the maker wrote it stands on the sheets; the file's own properties take only a day of the calendar.
    date: isDay(date) ? date : "",
    ...(onProgress ? { onProgress } : {}),
    ...(signal ? { signal } : {}),
  });
}

const isDay = (text: string): boolean => /^\d{4}-\d\d-\d\d$/.test(text) && !Number.isNaN(Date.parse(text));
