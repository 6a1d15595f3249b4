import { NEW_KINDS, newDesign, type NewKind } from "../../document/new-design.ts";
import { writeDesign } from "../../document/write.ts";
import { CliError, optionOf } from "../arguments.ts";
import { deriveWhole, withSettings } from "../design-file.ts";
import { writeAll } from "../files.ts";
import { COMMON, type Command } from "../program.ts";

export const create: Command = {
  name: "new",
  usage: `--kind ${NEW_KINDS.join("|")} -o FILE [--set path=value]...`,
  about: "a complete design with the usual numbers",
  valued: { ...COMMON.valued, kind: "once", o: "once" },
  flags: COMMON.flags,
  run: async (args, out) => {
    const kind = optionOf(args, "kind") ?? "steel-string";
    if (!(NEW_KINDS as readonly string[]).includes(kind))
      throw new CliError(`there is no kind ${kind} (known: ${NEW_KINDS.join(", ")})`);
    const file = optionOf(args, "o");
    if (file === undefined) throw new CliError("-o FILE is missing");
    if (args.words[0] !== undefined) throw new CliError(`${args.words[0]} is one word too many`);
    const design = withSettings(newDesign(kind as NewKind), args);
    deriveWhole(design);
    await writeAll([{ file, content: writeDesign(design) }]);
    if (args.options["json"]) out.line(JSON.stringify({ file, kind }));
    else out.line(`${file}: a ${kind}`);
    return 0;
  },
};
