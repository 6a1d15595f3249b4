import { testFiguresOf, testSheetFile, type TestSheetChoice } from "../../export/test-sheet-job.ts";
import { parsePaper } from "../../sheets/paper.ts";
import { SHEET_DEFAULTS } from "../../sheets/sheet.ts";
import { LEAST_BAR } from "../../sheets/test-sheet.ts";
import { CliError, optionOf } from "../arguments.ts";
import { writeAll } from "../files.ts";
import { readFonts } from "../fonts.ts";
import type { Command } from "../program.ts";

export const testSheet: Command = {
  name: "test-sheet",
  usage: "-o FILE [--paper a4|letter|...|WxH] [--units mm|in]",
  about: "a sheet with long bars and a square, to measure what a printer does to a length",
  valued: { paper: "once", units: "once", o: "once" },
  flags: ["json"],
  run: async (args, out) => {
    if (args.words[0] !== undefined) throw new CliError(`${args.words[0]} is one word too many`);
    const file = optionOf(args, "o");
    if (file === undefined) throw new CliError("-o FILE is missing");
    const unit = optionOf(args, "units") ?? "mm";
    if (unit !== "mm" && unit !== "in") throw new CliError(`there are no units ${unit} (known: mm, in)`);
    const paper = parsePaper(optionOf(args, "paper") ?? "a4");
    if (!paper.ok) throw new CliError(`--paper: ${paper.error.message} (${paper.error.mend})`);
    const choice: TestSheetChoice = { paper: paper.value, margin: SHEET_DEFAULTS.margin, style: { unit, fractions: false } };
    const figures = testFiguresOf(choice);
    const bytes = await testSheetFile(choice, await readFonts());
    if (!bytes)
      throw new CliError(`${paper.value.label} has no room for bars of ${LEAST_BAR} mm (take the printer's largest paper)`);
    await writeAll([{ file, content: bytes }]);
    out.line(args.options["json"] ? JSON.stringify({ file, units: "mm", ...figures }) : file);
    return 0;
  },
};
