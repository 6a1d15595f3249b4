/** The general arrangement as a file, the same from the screen and from the command line. */
import type { Drawing } from "../drawing/drawing.ts";
import { overviewSheet, type OverviewOptions } from "../sheets/overview.ts";
import { pdfOfSet } from "./job.ts";
import type { FontBytes } from "./pdf/writer.ts";

export type OverviewFile =
  | { readonly ok: true; readonly bytes: Uint8Array; readonly reduction: number }
  | { readonly ok: false; readonly error: { readonly message: string; readonly mend: string } };

/** The bytes of its PDF, or why there is none. Loads the PDF library on first use. */
export async function overviewFile(drawing: Drawing, options: OverviewOptions, fonts: FontBytes): Promise<OverviewFile> {
  const sheet = overviewSheet(drawing, options);
  if (!sheet.ok) return sheet;
  const { number, title } = options.order;
  const words = {
    title: [number === "" ? "" : `No. ${number}`, title, "general arrangement"].filter((text) => text !== "").join(", "),
    number,
    date: options.date,
  };
  return { ok: true, bytes: await pdfOfSet(sheet.value, words, fonts), reduction: sheet.reduction };
}
