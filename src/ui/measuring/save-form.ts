/** The measuring sheet into a PDF file. */
import type { Design } from "../../document/design.ts";
import { measuringFile } from "../../export/measuring-job.ts";
import { saveBytes, tellTrouble } from "../files.ts";
import { titleOf } from "../frame/title.ts";
import { PAPERS, type Paper } from "../../sheets/paper.ts";
import { fontBytes } from "../sheets/save-sheets.ts";

/** Saves the form, empty or with what is written, on the paper in the printer. */
export async function saveForm(design: Design, chosen: Paper | undefined, how: "empty" | "filled"): Promise<void> {
  const choice = {
    paper: chosen ?? PAPERS[design.units === "in" ? "letter" : "a4"]!,
    unit: design.units,
    order: how === "empty" ? "" : titleOf(design),
    written: how === "empty" ? {} : (design.order?.reference ?? {}),
  };
  try {
    const content = fontBytes(new AbortController().signal).then((fonts) => measuringFile(choice, fonts));
    await saveBytes(`measuring-${how}.pdf`, content, "application/pdf");
  } catch (error) {
    tellTrouble("The form was not saved", {
      message: error instanceof Error ? error.message : String(error),
      mend: "Try again.",
    });
  }
}
