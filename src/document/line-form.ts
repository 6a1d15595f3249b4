/** A line of a design file as the writer sets it: one entry, or the sign that opens or closes a record or list, set in by its depth. */
import { readJson } from "./json.ts";

export interface Line {
  /** How many records and lists it stands in. */
  readonly depth: number;
  readonly kind: "open" | "close" | "value";
  /** In records. */
  readonly key?: string;
  /** The value, or the sign. */
  readonly body: string;
  readonly comma: boolean;
}

const KEY = /^("(?:[^"\\\u0000-\u001f]|\\["\\/bfnrt]|\\u[0-9a-fA-F]{4})*")\s*:\s*/; // eslint-disable-line no-control-regex
/** A text, a number or a word; lists and records are read. */
const SIMPLE =
  // eslint-disable-next-line no-control-regex
  /^(?:"[^"\\\u0000-\u001f]*(?:(?:\\["\\/bfnrt]|\\u[0-9a-fA-F]{4})[^"\\\u0000-\u001f]*)*"|-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?|true|false|null)$/;
const BOUNDS = { depth: 60, values: 10_000 };

/** @param unit what a line is set in by for each depth */
export function formOf(text: string, unit: string): Line | undefined {
  const indent = /^[ \t]*/.exec(text)![0];
  const depth = indent.length / unit.length;
  if (indent !== unit.repeat(Math.floor(depth))) return undefined;
  const rest = text.slice(indent.length).replace(/[ \t\r]+$/, "");
  if (/^[}\]],?$/.test(rest)) return { depth, kind: "close", body: rest[0]!, comma: rest.length > 1 };
  const [before = "", name] = KEY.exec(rest) ?? [];
  const key = name === undefined ? {} : { key: JSON.parse(name) as string };
  const value = rest.slice(before.length);
  if (value === "{" || value === "[") return { depth, kind: "open", ...key, body: value, comma: false };
  const comma = value.endsWith(",");
  const body = comma ? value.slice(0, -1) : value;
  return SIMPLE.test(body) || (/^[[{].*[\]}]$/s.test(body) && readJson(body, BOUNDS).ok)
    ? { depth, kind: "value", ...key, body, comma }
    : undefined;
}

/** Whether nothing stands in a line but what JSON passes over. */
export const isBlank = (line: string): boolean => /^[ \t\r]*$/.test(line);

/** What the lines of a text are set in by for each depth; undefined where they are not set in. */
export function unitOf(lines: readonly string[]): string | undefined {
  const counts = new Map<string, number>();
  for (const line of lines) {
    const indent = /^([ \t]+)"/.exec(line)?.[1];
    if (indent !== undefined) counts.set(indent, (counts.get(indent) ?? 0) + 1);
  }
  return [...counts].filter(([, count]) => count > 2).toSorted(([a], [b]) => a.length - b.length)[0]?.[0];
}

/** Longer ones are not tried out. */
const LONGEST = 200;
/** Signs that give a line its form, and one each that stands for the others within a number, a text and blanks. */
const SIGNS = ['"', ":", ",", "{", "}", "[", "]", "\\", "0", "x", " "];

/** Kind and depth of all lines that a text becomes by one sign put in, taken out or put for another: `value 2`. */
export function formsNear(text: string, unit: string): ReadonlySet<string> {
  const found = new Set<string>();
  if (text.length > LONGEST) return found;
  const tried = (one: string): void => {
    const form = formOf(one, unit);
    if (form) found.add(`${form.kind} ${form.depth}`);
  };
  for (let at = 0; at <= text.length; at++) {
    const [before, rest] = [text.slice(0, at), text.slice(at)];
    for (const sign of SIGNS) {
      tried(before + sign + rest);
      if (rest !== "") tried(before + sign + rest.slice(1));
    }
    tried(before + rest.slice(1));
  }
  return found;
}

/** The two lines that a text holds whose line end between them is lost, or is another sign now. */
export function twoLinesOf(
  text: string,
  areLines: (first: string, second: string) => boolean,
): readonly [string, string] | undefined {
  if (text.length > LONGEST) return undefined;
  for (let at = 1; at < text.length; at++)
    for (const from of [at, at + 1]) {
      const [first, second] = [text.slice(0, at), text.slice(from)];
      if (areLines(first, second)) return [first, second];
    }
  return undefined;
}

/** Whether a line may stand at a depth inside what a sign has opened. */
export const mayStand = (line: Line, depth: number, sign: string): boolean =>
  line.kind === "close"
    ? line.depth === depth - 1 && line.body === (sign === "{" ? "}" : "]")
    : line.depth === depth && (line.key !== undefined) === (sign === "{");

/** The lines that are not blank. */
export const wordsOf = (lines: readonly { readonly text: string }[]): string =>
  lines.flatMap(({ text }) => (isBlank(text) ? [] : [text])).join("\n");

/** A line in a message. */
export function shown(words: string): string {
  // eslint-disable-next-line no-control-regex
  const text = words.trim().replace(/[\u0000-\u001f]+/g, "·");
  return `“${text.length > 60 ? `${text.slice(0, 60)}…` : text}”`;
}
