import { pdfOfSet } from "../../export/job.ts";
import { reportSheets, usualPaper } from "../../report/sheets.ts";
import { parsePaper } from "../../sheets/paper.ts";
import { CliError, onlyWord, optionOf } from "../arguments.ts";
import { deriveLettered, deriveWhole, openDesign } from "../design-file.ts";
import { writeAll } from "../files.ts";
import { readFonts } from "../fonts.ts";
import { COMMON, type Command } from "../program.ts";

export const report: Command = {
  name: "report",
  usage: "DESIGN -o FILE.pdf [--paper a4|letter|...|WxH] [--set path=value]... [--json]",
  about: "the order for the shop's file: order sheet, checks, cutting list, what was cut, all numbers",
  valued: { ...COMMON.valued, paper: "once", o: "once" },
  flags: COMMON.flags,
  run: async (args, out) => {
    const design = await openDesign(onlyWord(args, "DESIGN"), args, out.note);
    const file = optionOf(args, "o");
    if (file === undefined) throw new CliError("-o FILE.pdf is missing");
    const wanted = optionOf(args, "paper");
    const paper = wanted === undefined ? { ok: true as const, value: usualPaper(design) } : parsePaper(wanted);
    if (!paper.ok) throw new CliError(`--paper: ${paper.error.message} (${paper.error.mend})`);
    if (paper.value.kind === "roll") throw new CliError(`--paper ${paper.value.label} is no sheet (take a4 or letter)`);
    const { set, words } = reportSheets(design, deriveWhole(design), (_, cut) => deriveLettered(cut), paper.value);
    await writeAll([{ file, content: await pdfOfSet(set, words, await readFonts()) }]);
    out.line(args.options["json"] ? JSON.stringify({ file, pages: set.sheets.length }) : file);
    return 0;
  },
};
