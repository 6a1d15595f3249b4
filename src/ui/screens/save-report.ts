import { fileNameOf } from "../../document/file-name.ts";
import { cutKey, numbersOfCut } from "../../document/cuts.ts";
import { pdfOfSet } from "../../export/job.ts";
import { reportSheets } from "../../report/sheets.ts";
import { whenSettled } from "../../store/others.ts";
import type { Workbench } from "../../store/workbench.ts";
import { saveBytes } from "../files.ts";
import { tell } from "../kit/tell.tsx";
import { fontBytes } from "../sheets/save-sheets.ts";

/** Saves the report of the open design as a PDF file, once nothing heavy is being worked out any more. Rejects when it is aborted. */
export async function saveReport(bench: Workbench, signal: AbortSignal): Promise<void> {
  const { design } = bench.design.getState();
  const { derived, others } = bench;
  const name = `${fileNameOf(design.order ?? {}).replace(/\.json$/, "")}-report.pdf`;
  const cuts = (design.cuts ?? []).flatMap((_, index) => {
    const numbers = numbersOfCut(design, index);
    return numbers.ok ? [whenSettled(others.outside, () => others.derive(cutKey(index), numbers.value), signal)] : [];
  });
  const bytes = Promise.all([fontBytes(signal), whenSettled(derived, derived.getState, signal), ...cuts]).then(
    ([fonts, settled]) => {
      const { set, words } = reportSheets(design, settled, others.derive);
      return pdfOfSet(set, words, fonts, { signal });
    },
  );
  if (await saveBytes(name, bytes, "application/pdf")) tell({ title: "The report is saved.", more: name, kind: "fine" });
}
