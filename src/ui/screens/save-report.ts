import { fileNameOf } from "../../document/file-name.ts";
import { pdfOfSet } from "../../export/job.ts";
import type { Derived } from "../../parts/derived.ts";
import { reportSheets } from "../../report/sheets.ts";
import type { Workbench } from "../../store/workbench.ts";
import { saveBytes } from "../files.ts";
import { tell } from "../kit/tell.tsx";
import { fontBytes } from "../sheets/save-sheets.ts";

/** Saves the report of the open design as a PDF file, once nothing heavy is being worked out any more. Rejects when it is aborted. */
export async function saveReport(bench: Workbench, signal: AbortSignal): Promise<void> {
  const { design } = bench.design.getState();
  const name = `${fileNameOf(design.order ?? {}).replace(/\.json$/, "")}-report.pdf`;
  const bytes = Promise.all([fontBytes(signal), settled(bench, signal)]).then(([fonts, derived]) => {
    const { set, words } = reportSheets(design, derived);
    return pdfOfSet(set, words, fonts, { signal });
  });
  if (await saveBytes(name, bytes, "application/pdf")) tell({ title: "The report is saved.", more: name, kind: "fine" });
}

/** What is derived from the open design, when all of it is there. */
function settled({ derived }: Workbench, signal: AbortSignal): Promise<Derived> {
  const now = derived.getState();
  if (!now.waiting) return Promise.resolve(now);
  return new Promise((resolve, reject) => {
    const leave = derived.subscribe((later) => {
      if (later.waiting) return;
      leave();
      resolve(later);
    });
    signal.addEventListener("abort", () => {
      leave();
      reject(signal.reason as Error);
    });
  });
}
