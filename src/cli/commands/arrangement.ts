import { fingerprintOf } from "../../document/fingerprint.ts";
import { overviewFile } from "../../export/overview-job.ts";
import { arrange } from "../../parts/general-arrangement.ts";
import { parsePaper } from "../../sheets/paper.ts";
import { SHEET_DEFAULTS } from "../../sheets/sheet.ts";
import { lengthInShort } from "../../units/format.ts";
import { CliError, onlyWord, optionOf } from "../arguments.ts";
import { deriveWhole, openDesign } from "../design-file.ts";
import { writeAll } from "../files.ts";
import { readFonts } from "../fonts.ts";
import { COMMON, type Command } from "../program.ts";

export const arrangement: Command = {
  name: "arrangement",
  usage: "DESIGN -o FILE [--paper a4|a3|letter|...|WxH] [--scale 1:N] [--set path=value]...",
  about: "the whole instrument from the front and from the side on one sheet, not for cutting",
  valued: { ...COMMON.valued, o: "once", paper: "once", scale: "once" },
  flags: COMMON.flags,
  run: async (args, out) => {
    const design = await openDesign(onlyWord(args, "DESIGN"), args, out.note);
    const file = optionOf(args, "o");
    if (file === undefined) throw new CliError("-o FILE is missing");
    const paper = parsePaper(optionOf(args, "paper") ?? "a3");
    if (!paper.ok) throw new CliError(`--paper: ${paper.error.message} (${paper.error.mend})`);
    const { dimensioned, distances } = arrange(deriveWhole(design));
    const { order } = design;
    const reduction = reductionOf(optionOf(args, "scale"));
    const made = await overviewFile(
      dimensioned,
      {
        paper: paper.value,
        margin: SHEET_DEFAULTS.margin,
        order: { number: order?.number ?? "", title: order?.title ?? "", player: order?.player ?? "" },
        date: order?.date ?? "",
        fingerprint: fingerprintOf(design),
        say: (mm) => lengthInShort(mm, { unit: design.units, fractions: design.fractions ?? false }),
        ...(reduction === undefined ? {} : { reduction }),
      },
      await readFonts(),
    );
    if (!made.ok) throw new CliError(`${made.error.message} (${made.error.mend})`);
    await writeAll([{ file, content: made.bytes }]);
    out.line(
      args.options["json"]
        ? JSON.stringify({ file, units: "mm", paper: paper.value.label, reduction: made.reduction, distances }, null, 2)
        : file,
    );
    return 0;
  },
};

/** "1:4" or "4". */
function reductionOf(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const number = Number(/^(?:1\s*:\s*)?(\d+(?:\.\d+)?)$/.exec(text.trim())?.[1]);
  if (!(number >= 1 && number <= 100)) throw new CliError(`--scale ${text} is no scale (give 1:4 for a quarter of true size)`);
  return number;
}
