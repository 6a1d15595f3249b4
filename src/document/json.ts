/**
 * A reader of JSON (RFC 8259) for files that may be damaged or hostile: it names the place of the first mistake by line and column,
 * bounds depth and count, and tells what a plain parser would pass over in silence: keys that stand twice, numbers too large to hold,
 * and keys that would reach into the language's own objects.
 */
import { quoted, type Result } from "../units/result.ts";

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

export interface JsonMistake {
  /** What is wrong, without a stop and without the place. */
  readonly message: string;
  /** Counted from 1; a column is one UTF-16 unit. */
  readonly line: number;
  readonly column: number;
  /** The text ends before the value does. */
  readonly cutOff: boolean;
  /** The value is closed before the text ends. */
  readonly behindEnd: boolean;
  /** What stands whole before the mistake, closed so that it can be read, and the path of its last value. */
  readonly whole: { readonly text: string; readonly last: string };
}

/** Something left out of the value, told and not silent. */
export interface Omission {
  /** `parts.fingerboard.binding[1]` */
  readonly path: string;
  readonly what: "key twice" | "forbidden key" | "number too large";
}

export interface JsonReading {
  readonly value: Json;
  readonly omissions: readonly Omission[];
}

export interface JsonBounds {
  readonly depth: number;
  /** Values in all, lists and records included. */
  readonly values: number;
}

/** Assigning to these keys, or merging them, would change objects that are not the file's. */
const FORBIDDEN_KEYS: ReadonlySet<string> = new Set(["__proto__", "constructor", "prototype"]);

/** Ends the reading; never leaves this file. */
class Mistake extends Error {
  readonly at: number;
  constructor(message: string, at: number) {
    super(message);
    this.at = at;
  }
}

const BLANK = /[ \t\n\r]*/y;
const NUMBER = /-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?/y;
const WORD = /[A-Za-z]+/y;
/** What may be left of a value where a text was cut; a disk that fails fills the rest with zeros. */
// eslint-disable-next-line no-control-regex
const CUT_OFF = /^[-+.\w\s\0]*$/;
const WORDS: ReadonlyMap<string, Json> = new Map<string, Json>([
  ["true", true],
  ["false", false],
  ["null", null],
]);

/**
 * Reads one JSON value and nothing behind it.
 * @param opens of which lists and records the whole entries stand when there is a mistake further on in them
 */
export function readJson(
  text: string,
  bounds: JsonBounds,
  opens: (path: readonly (string | number)[]) => boolean = () => false,
): Result<JsonReading, JsonMistake> {
  const omissions: Omission[] = [];
  const path: (string | number)[] = [];
  /** The signs that close what is open. */
  const closing: string[] = [];
  // Fields and no variables: Chromium 147 loses steps of a variable that several inner functions count on while it compiles them.
  const cursor = { at: 0, whole: { end: 0, closing: "", last: "" } };
  let count = 0;
  try {
    skipBlanks();
    const value = readValue() ?? null;
    skipBlanks();
    if (cursor.at < text.length) throw new Mistake("something stands behind the end", cursor.at);
    return { ok: true, value: { value, omissions } };
  } catch (error) {
    if (!(error instanceof Mistake)) throw error;
    const { end, closing: signs, last } = cursor.whole;
    return {
      ok: false,
      error: {
        message: error.message,
        ...lineOf(text, error.at),
        cutOff: CUT_OFF.test(text.slice(error.at)),
        behindEnd: closing.length === 0 && error.at > 0,
        whole: { text: text.slice(0, end) + signs, last },
      },
    };
  }

  function skipBlanks(): void {
    BLANK.lastIndex = cursor.at;
    cursor.at += BLANK.exec(text)?.[0].length ?? 0;
  }

  function omit(what: Omission["what"]): void {
    omissions.push({ path: pathText(path), what });
  }

  /** Undefined for a value that is left out. */
  function readValue(): Json | undefined {
    if (++count > bounds.values)
      throw new Mistake(`more than ${bounds.values.toLocaleString("en")} values stand in it`, cursor.at);
    switch (text[cursor.at]) {
      case "{":
        return readRecord();
      case "[":
        return readList();
      case '"':
        return readText();
      default:
        return readPlain();
    }
  }

  function readPlain(): Json | undefined {
    NUMBER.lastIndex = cursor.at;
    const number = NUMBER.exec(text)?.[0];
    if (number !== undefined) {
      cursor.at += number.length;
      const value = Number(number);
      if (Number.isFinite(value)) return value;
      omit("number too large");
      return undefined;
    }
    WORD.lastIndex = cursor.at;
    const word = WORD.exec(text)?.[0];
    const value = word === undefined ? undefined : WORDS.get(word);
    if (value === undefined) {
      if (cursor.at >= text.length) throw new Mistake("the text ends where a value should stand", cursor.at);
      throw new Mistake(
        word === undefined ? `${shown(cursor.at)} stands where a value should` : `${quoted(word)} is no value`,
        cursor.at,
      );
    }
    cursor.at += word!.length;
    return value;
  }

  function readText(): string {
    const start = cursor.at;
    let end = text.indexOf('"', start + 1);
    while (end >= 0 && backslashesBefore(end) % 2 === 1) end = text.indexOf('"', end + 1);
    if (end < 0) throw new Mistake("a text in quotes is not closed", text.length);
    cursor.at = end + 1;
    const inner = text.slice(start + 1, end);
    // Control characters must be written as escapes (RFC 8259, 7).
    // eslint-disable-next-line no-control-regex
    const control = inner.search(/[\u0000-\u001f]/);
    if (control >= 0) throw new Mistake("a text in quotes runs over the end of its line", start + 1 + control);
    if (!inner.includes("\\")) return inner;
    try {
      return JSON.parse(text.slice(start, cursor.at)) as string;
    } catch {
      const wrong = wrongEscapeIn(inner);
      throw new Mistake(`${inner.slice(wrong, wrong + 2)} is no escape`, start + 1 + wrong);
    }
  }

  function backslashesBefore(end: number): number {
    let start = end;
    while (text[start - 1] === "\\") start--;
    return end - start;
  }

  function readList(): Json[] {
    const list: Json[] = [];
    readItems("]", "list", (index) => {
      path.push(index);
      const value = readValue();
      path.pop();
      if (value !== undefined) list.push(value);
      return index;
    });
    return list;
  }

  function readRecord(): { readonly [key: string]: Json } {
    const entries = new Map<string, Json>();
    readItems("}", "record", () => {
      if (text[cursor.at] !== '"')
        throw new Mistake(
          cursor.at >= text.length
            ? "the text ends where a key should stand"
            : `${shown(cursor.at)} stands where a key in quotes should`,
          cursor.at,
        );
      const key = readText();
      skipBlanks();
      if (text[cursor.at] !== ":")
        throw new Mistake(cursor.at >= text.length ? "the text ends behind a key" : "a colon is missing behind a key", cursor.at);
      cursor.at++;
      skipBlanks();
      path.push(key);
      const value = readValue();
      if (FORBIDDEN_KEYS.has(key)) omit("forbidden key");
      else {
        if (entries.has(key)) omit("key twice");
        if (value !== undefined) entries.set(key, value);
      }
      path.pop();
      return key;
    });
    return Object.fromEntries(entries);
  }

  /** `readItem` returns the key or index of what it has read. */
  function readItems(close: string, name: string, readItem: (index: number) => string | number): void {
    if (path.length >= bounds.depth)
      throw new Mistake(`lists and records stand more than ${bounds.depth} deep in each other`, cursor.at);
    cursor.at++;
    skipBlanks();
    if (text[cursor.at] === close) {
      cursor.at++;
      return;
    }
    closing.unshift(close);
    for (let index = 0; ; index++) {
      const step = readItem(index);
      skipBlanks();
      const next = text[cursor.at];
      // Only what follows says that a number is whole.
      const whole = { end: cursor.at, closing: closing.join(""), last: pathText([...path, step]) };
      if (next === close) {
        if (opens(path)) cursor.whole = whole;
        closing.shift();
        cursor.at++;
        return;
      }
      if (next !== ",")
        throw new Mistake(
          cursor.at >= text.length ? `the text ends inside a ${name}` : `a comma is missing before ${shown(cursor.at)}`,
          cursor.at,
        );
      const comma = cursor.at++;
      skipBlanks();
      if (text[cursor.at] === close) throw new Mistake(`a comma too many stands at the end of a ${name}`, comma);
      // Where no entry follows, the comma may have been another sign, or a list was closed early.
      if ((close === "]" ? /[^,:}]|$/y : /"|$/y).test(text[cursor.at] ?? "") && opens(path)) cursor.whole = whole;
    }
  }

  function shown(place: number): string {
    return String.fromCodePoint(text.codePointAt(place)!);
  }
}

/** Index of the first backslash that begins no escape of the grammar. */
function wrongEscapeIn(inner: string): number {
  for (const escape of inner.matchAll(/\\(u[0-9a-fA-F]{4}|["\\/bfnrt])?/g)) if (escape[1] === undefined) return escape.index;
  throw new Error("every escape is of the grammar, and the text was refused all the same");
}

function lineOf(text: string, at: number): { readonly line: number; readonly column: number } {
  let line = 1;
  let start = 0;
  for (let end = text.indexOf("\n"); end >= 0 && end < at; end = text.indexOf("\n", end + 1)) {
    line++;
    start = end + 1;
  }
  return { line, column: at - start + 1 };
}

/** Keys and indices as a path: `binding[0].thickness`. */
export const pathText = (steps: readonly (string | number)[]): string =>
  steps.reduce<string>(
    (path, step) => (typeof step === "number" ? `${path}[${step}]` : path === "" ? step : `${path}.${step}`),
    "",
  );
