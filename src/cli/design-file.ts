import { readDesign } from "../document/read.ts";
import { copyOf } from "../document/copies.ts";
import { setValue } from "../document/set-value.ts";
import type { Design } from "../document/design.ts";
import { createDeriver } from "../parts/derive.ts";
import type { Derived, DesignNumbers } from "../parts/derived.ts";
import { CliError, optionOf, type Arguments } from "./arguments.ts";
import { faceOfId } from "./faces.ts";
import { readBytes } from "./files.ts";

/** A design with the `--set` values put in. */
export function withSettings(design: Design, args: Arguments): Design {
  return (args.options["set"] ?? []).reduce((before, setting) => {
    const equals = setting.indexOf("=");
    if (equals < 1) throw new CliError(`--set ${setting} has no "path=value"`);
    const result = setValue(before, setting.slice(0, equals), valueOf(setting.slice(equals + 1)));
    if (!result.ok) throw new CliError(`${result.error.message}: --set ${setting} (${result.error.mend})`);
    return result.value;
  }, design);
}

/** A text as in a field; `true`, `false`, lists and records as in a design file. */
function valueOf(text: string): unknown {
  if (text === "true" || text === "false" || /^\s*[[{]/.test(text)) {
    try {
      return JSON.parse(text);
    } catch {
      return text;
    }
  }
  return text;
}

/** Opens a design file. What was repaired in reading is told through `tell`; of a damaged file nothing is worked out, since nobody looks at it here. */
export async function openDesign(file: string, args: Arguments, tell: (line: string) => void): Promise<Design> {
  const read = readDesign(await readBytes(file));
  if (!read.ok) throw new CliError(`${read.message}: ${file} (${read.mend})`);
  if (read.damaged)
    throw new CliError(`only a part of the file can be read: ${file} (Open what is left of it on screen, or take another copy.)`);
  for (const repair of read.repairs) tell([file, repair.path, repair.says].filter(Boolean).join(": "));
  return oneCopy(withSettings(read.design, args), optionOf(args, "copy"), tell);
}

/** The copy with an instrument number, where one is asked for; else the design. */
function oneCopy(design: Design, number: string | undefined, tell: (line: string) => void): Design {
  if (number === undefined || number === design.order?.number) return design;
  const copies = design.copies ?? [];
  const found = copyOf(
    design,
    copies.findIndex((copy) => copy.number === number),
  );
  const known = [design.order?.number, ...copies.map((copy) => copy.number)].filter(Boolean).join(", ");
  if (!found.ok) throw new CliError(`there is no copy numbered ${number} (known: ${known === "" ? "none" : known})`);
  for (const { message } of found.value.leftOut) tell(`copy ${number}: ${message}`);
  return found.value.design;
}

/** Everything derived from a design, or an error that names the first number in the way. */
export function deriveWhole(design: Design): Derived {
  const derived = deriveLettered(design);
  const [first, ...more] = derived.problems;
  if (first) {
    const others = more.length === 0 ? "" : `, and ${more.length} more`;
    throw new CliError(`${first.message}: ${first.path} (${first.mend.replace(/\.$/, "")}${others})`);
  }
  return derived;
}

/** Everything derived from a design, with the faces of letters that its parts ask for. */
export function deriveLettered(design: DesignNumbers): Derived {
  const derive = createDeriver();
  const faces = new Map<string, ReturnType<typeof faceOfId>>();
  for (;;) {
    const derived = derive(design, { faces });
    const missing = derived.faces.filter(({ id }) => !faces.has(id));
    if (missing.length === 0) return derived;
    for (const { id, wanted } of missing) faces.set(id, faceOfId(id, wanted));
  }
}
