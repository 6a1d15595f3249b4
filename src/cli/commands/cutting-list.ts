import { pdfOfSet } from "../../export/job.ts";
import { makingsOf } from "../../parts/makings.ts";
import { cuttingListCsv, cuttingListReport } from "../../report/cutting-list.ts";
import { reportPages } from "../../report/pages.ts";
import { usualPaper } from "../../report/sheets.ts";
import { cuttingList } from "../../templates/cutting-list.ts";
import { formatQuantity, inFull } from "../../units/format.ts";
import { CliError, onlyWord, optionOf } from "../arguments.ts";
import { deriveWhole, openDesign } from "../design-file.ts";
import { writeAll } from "../files.ts";
import { readFonts } from "../fonts.ts";
import { COMMON, type Command } from "../program.ts";

export const cuttingListCommand: Command = {
  name: "cutting-list",
  usage: "DESIGN [-o FILE.csv|FILE.pdf] [--decimal .|,] [--set path=value]... [--json]",
  about: "wood, lengths, holes and bits that a design takes; as a table, on paper or in words",
  valued: { ...COMMON.valued, o: "once", decimal: "once" },
  flags: COMMON.flags,
  run: async (args, out) => {
    const design = await openDesign(onlyWord(args, "DESIGN"), args, out.note);
    const decimal = optionOf(args, "decimal") ?? ".";
    if (decimal !== "." && decimal !== ",") throw new CliError(`--decimal ${decimal} is no decimal sign (known: . and ,)`);
    const derived = deriveWhole(design);
    const list = cuttingList(design, derived, makingsOf(design, derived));
    const file = optionOf(args, "o");
    if (file === undefined) {
      if (args.options["json"]) out.line(JSON.stringify(list, withoutOutlines, 2));
      else out.line(cuttingListCsv(list, decimal).trimEnd());
      return 0;
    }
    const content = file.toLowerCase().endsWith(".csv")
      ? cuttingListCsv(list, decimal)
      : file.toLowerCase().endsWith(".pdf")
        ? await onPaper()
        : undefined;
    if (content === undefined) throw new CliError(`${file} is neither .csv nor .pdf (give it one of these endings)`);
    await writeAll([{ file, content }]);
    out.line(args.options["json"] ? JSON.stringify({ file }) : file);
    return 0;

    async function onPaper(): Promise<Uint8Array> {
      const style = { unit: design.units, fractions: design.fractions ?? false };
      const report = cuttingListReport(design, list, (value, quantity) => inFull(formatQuantity(value, quantity, style)));
      const words = { title: report.title, number: design.order?.number ?? "", date: design.order?.date ?? "" };
      return pdfOfSet(reportPages(report, usualPaper(design)), words, await readFonts());
    }
  },
};

/** Outlines and fields of blanks stand in the design and its drawings. */
const withoutOutlines = (key: string, value: unknown): unknown => (key === "outline" || key === "fields" ? undefined : value);
