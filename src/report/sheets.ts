/** The report of an order as pages: the same from the screen and from the command line. */
import type { Design } from "../document/design.ts";
import type { Derived, DeriveOther } from "../parts/derived.ts";
import { PAPERS, type SheetPaper } from "../sheets/paper.ts";
import type { SheetSet } from "../sheets/sheet.ts";
import { reportOf } from "./content.ts";
import { reportPages } from "./pages.ts";

/** The paper that is usual where lengths are said so. */
export const usualPaper = ({ units }: Pick<Design, "units">): SheetPaper => (units === "in" ? PAPERS["letter"]! : PAPERS["a4"]!);

/** The pages of a design's report, and what the file says of itself. `deriveOther` derives what was cut from other numbers. */
export function reportSheets(
  design: Design,
  derived: Derived,
  deriveOther: DeriveOther,
  paper: SheetPaper = usualPaper(design),
): { readonly set: SheetSet; readonly words: { readonly title: string; readonly number: string; readonly date: string } } {
  const report = reportOf(design, derived, deriveOther);
  const { number = "", date = "" } = design.order ?? {};
  return { set: reportPages(report, paper), words: { title: `${report.title}: report`, number, date } };
}
