/** What was typed after the command's name. */
export interface Arguments {
  readonly words: readonly string[];
  readonly options: Readonly<Record<string, readonly string[]>>;
}

/** A mistake in what was asked for: ends the program with one line and exit code 2. */
export class CliError extends Error {}

interface Known {
  /** Options that take a value, and whether they may be repeated. */
  readonly valued: Readonly<Record<string, "once" | "many">>;
  readonly flags: readonly string[];
}

/**
 * Sorts arguments into words and options. `--name value`, `--name=value` and `-o value` are read; a flag has the value "true".
 * @throws CliError for an option that the command does not take, one given twice, or one without its value
 */
export function readArguments(args: readonly string[], known: Known): Arguments {
  const words: string[] = [];
  const options: Record<string, string[]> = {};
  const queue = [...args];
  for (let arg = queue.shift(); arg !== undefined; arg = queue.shift()) {
    if (!arg.startsWith("-") || arg === "-") {
      words.push(arg);
      continue;
    }
    const [, name = "", inline] = /^-{1,2}([^=]+)(?:=([\s\S]*))?$/.exec(arg) ?? [];
    if (known.flags.includes(name) && inline === undefined) {
      options[name] = ["true"];
      continue;
    }
    const times = known.valued[name];
    if (!times)
      throw new CliError(
        `there is no option ${arg} here (known: ${[...Object.keys(known.valued), ...known.flags].map(dashed).join(", ")})`,
      );
    const value = inline ?? queue.shift();
    if (value === undefined) throw new CliError(`${arg} lacks its value`);
    if (options[name] && times === "once") throw new CliError(`${dashed(name)} is given twice`);
    (options[name] ??= []).push(value);
  }
  return { words, options };
}

const dashed = (name: string): string => (name.length === 1 ? `-${name}` : `--${name}`);

/** The one value of an option, or undefined. */
export const optionOf = (args: Arguments, name: string): string | undefined => args.options[name]?.[0];

/** The only word, by its role in messages. */
export function onlyWord(args: Arguments, role: string): string {
  const [word, ...more] = args.words;
  if (word === undefined) throw new CliError(`${role} is missing`);
  if (more.length > 0) throw new CliError(`one ${role} is enough, but ${more[0]} stands there too`);
  return word;
}
