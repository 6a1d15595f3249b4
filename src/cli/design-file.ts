import { readDesign } from "../document/read.ts";
import { setValue } from "../document/set-value.ts";
import type { Design } from "../document/design.ts";
import { createDeriver } from "../parts/derive.ts";
import type { Derived } from "../parts/derived.ts";
import { CliError, type Arguments } from "./arguments.ts";
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

/** Opens a design file. What was repaired in reading is told through `tell`. */
export async function openDesign(file: string, args: Arguments, tell: (line: string) => void): Promise<Design> {
  const read = readDesign(await readBytes(file));
  if (!read.ok) throw new CliError(`${read.message}: ${file} (${read.mend})`);
  for (const repair of read.repairs) tell(`${file}: ${repair.path}: ${repair.says}`);
  return withSettings(read.design, args);
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
export function deriveLettered(design: Design): Derived {
  const derive = createDeriver();
  const faces = new Map<string, ReturnType<typeof faceOfId>>();
  for (;;) {
    const derived = derive(design, { faces });
    const missing = derived.faces.filter(({ id }) => !faces.has(id));
    if (missing.length === 0) return derived;
    for (const { id, wanted } of missing) faces.set(id, faceOfId(id, wanted));
  }
}
