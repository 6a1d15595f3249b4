import { formatFixed } from "../format-fixed.ts";
import { onlyWord } from "../arguments.ts";
import { deriveWhole, openDesign } from "../design-file.ts";
import { COMMON, type Command } from "../program.ts";

export const measure: Command = {
  name: "measure",
  usage: "DESIGN [--set path=value]... [--json]",
  about: "every measure of every part, in mm and radians",
  ...COMMON,
  run: async (args, out) => {
    const design = await openDesign(onlyWord(args, "DESIGN"), args, out.note);
    const derived = deriveWhole(design);
    const measures = {
      instrument: derived.instrument.measures,
      parts: Object.fromEntries(derived.parts.map((part) => [part.id, part.measures])),
    };
    if (args.options["json"]) out.line(JSON.stringify(measures, null, 2));
    else for (const row of rowsOf(measures)) out.line(row);
    return 0;
  },
};

/** One row a number: "parts.fingerboard.widthAtNut  42.8625". */
function rowsOf(value: unknown, path = ""): string[] {
  if (typeof value !== "object" || value === null)
    return value === undefined ? [] : [`${path}  ${typeof value === "number" ? formatFixed(value) : String(value)}`];
  return Object.entries(value).flatMap(([key, inner]) =>
    rowsOf(inner, Array.isArray(value) ? `${path}[${key}]` : path === "" ? key : `${path}.${key}`),
  );
}
