import { measuringFile } from "../../export/measuring-job.ts";
import { parsePaper } from "../../sheets/paper.ts";
import { CliError, optionOf } from "../arguments.ts";
import { openDesign } from "../design-file.ts";
import { writeAll } from "../files.ts";
import { readFonts } from "../fonts.ts";
import { COMMON, type Command } from "../program.ts";

export const form: Command = {
  name: "form",
  usage: "[DESIGN] -o FILE [--paper a4|letter|...|WxH] [--units mm|in]",
  about: "the sheet for measuring an instrument, empty, or filled in with a design's reference",
  valued: { ...COMMON.valued, paper: "once", units: "once", o: "once" },
  flags: [...COMMON.flags],
  run: async (args, out) => {
    const [file, more] = args.words;
    if (more !== undefined) throw new CliError(`${more} is one word too many`);
    const target = optionOf(args, "o");
    if (target === undefined) throw new CliError("-o FILE is missing");
    const design = file === undefined ? undefined : await openDesign(file, args, out.note);
    const unit = optionOf(args, "units") ?? design?.units ?? "mm";
    if (unit !== "mm" && unit !== "in") throw new CliError(`there are no units ${unit} (known: mm, in)`);
    const paper = parsePaper(optionOf(args, "paper") ?? "a4");
    if (!paper.ok) throw new CliError(`--paper: ${paper.error.message} (${paper.error.mend})`);
    const { number = "", title = "", reference = {} } = design?.order ?? {};
    const order = [number === "" ? "" : `No. ${number}`, title].filter((text) => text !== "").join(", ");
    const bytes = await measuringFile({ paper: paper.value, unit, order, written: reference }, await readFonts());
    await writeAll([{ file: target, content: bytes }]);
    out.line(args.options["json"] ? JSON.stringify({ file: target }) : target);
    return 0;
  },
};
