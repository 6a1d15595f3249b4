import type { Design } from "../../document/design.ts";
import { fileNameOf } from "../../document/file-name.ts";
import { pdfOfSet } from "../../export/job.ts";
import type { Derived } from "../../parts/derived.ts";
import { reportSheets } from "../../report/sheets.ts";
import { saveBytes } from "../files.ts";
import { tell } from "../kit/tell.tsx";
import { fontBytes } from "../sheets/save-sheets.ts";

/** Saves the report of an order as a PDF file. */
export async function saveReport(design: Design, derived: Derived, signal: AbortSignal): Promise<void> {
  const name = `${fileNameOf(design.order ?? {}).replace(/\.json$/, "")}-report.pdf`;
  const { set, words } = reportSheets(design, derived);
  const bytes = fontBytes(signal).then((fonts) => pdfOfSet(set, words, fonts, { signal }));
  if (await saveBytes(name, bytes, "application/pdf")) tell({ title: "The report is saved.", more: name, kind: "fine" });
}
