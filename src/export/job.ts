/** What the screen and the command line write alike: the same design and choices give the same bytes. */
import { layOut } from "../sheets/lay-out.ts";
import type { SheetOptions } from "../sheets/sheet.ts";
import type { Template } from "../templates/template.ts";
import { inkBounds } from "../sheets/ink.ts";
import { lineSentence, nameOf } from "../sheets/words.ts";
import type { OnProgress } from "./pause.ts";
import type { FontBytes } from "./pdf/writer.ts";
import { svgOf } from "./svg/write.ts";

/** Name of a template's file without its ending: `fingerboard-blank-outline`. */
export const fileStemOf = (template: Template): string => `${template.partId}-${template.name}`;

/** "No. 14, Tenor guitar: Fingerboard, blank outline" */
function titleOf({ number, title }: SheetOptions["order"], what: string): string {
  const order = [number === "" ? "" : `No. ${number}`, title].filter((text) => text !== "").join(", ");
  return order === "" ? what : `${order}: ${what}`;
}

/** One template as an SVG file. */
export function svgFileOf(template: Template, { order, fingerprint, date }: SheetOptions): string {
  const { minX, minY, maxX, maxY } = inkBounds(template);
  const size = `${(maxX - minX).toFixed(2)} by ${(maxY - minY).toFixed(2)} mm`;
  return svgOf(template.drawing, {
    title: titleOf(order, nameOf(template)),
    desc: [
      lineSentence(template),
      `True size, one unit is 1 mm, ${size}: check units and one length in the receiving program.`,
      [date, fingerprint].filter((text) => text !== "").join(" · "),
    ]
      .filter((text) => text !== "")
      .join(" "),
  });
}

/** Templates laid on sheets and written as one PDF file. Loads the PDF library on first use. */
export async function pdfFileOf(
  templates: readonly Template[],
  options: SheetOptions,
  fonts: FontBytes,
  { onProgress, signal }: { readonly onProgress?: OnProgress; readonly signal?: AbortSignal } = {},
): Promise<Uint8Array> {
  const { pdfOf } = await import("./pdf/writer.ts");
  const what = templates.length === 1 ? nameOf(templates[0]!) : "templates";
  return pdfOf(layOut(templates, options), {
    fonts,
    title: titleOf(options.order, what),
    number: options.order.number,
    // A date as the maker wrote it stands on the sheets; the file's own properties take only a day of the calendar.
    date: isDay(options.date) ? options.date : "",
    ...(onProgress ? { onProgress } : {}),
    ...(signal ? { signal } : {}),
  });
}

const isDay = (text: string): boolean => /^\d{4}-\d\d-\d\d$/.test(text) && !Number.isNaN(Date.parse(text));
