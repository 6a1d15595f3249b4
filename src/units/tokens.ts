/**
 * Cuts typed text into numbers, fractions, units, names and signs, each with its place. Every kind of blank, quote, prime, dash and
 * slash that keyboards and word processors put in counts as the plain one.
 *
 * The comma. In plain text it is the decimal sign: `42,86` and `0,095`. `1,234` can be read two ways and is refused. Where comma and
 * point stand together the later one is the decimal sign, and the other must part groups of three: `1,234.5`. In a formula the
 * comma parts the arguments of a function, so one between two digits is refused there.
 */
import { done, quoted, refuse, type Reading, type Span } from "./result.ts";
import { UNIT_OF_MARK, unitNamed, type Unit } from "./unit.ts";

/** A plain text is one measure; a formula calculates. */
export type Grammar = "plain" | "formula";

export interface NumberToken extends Span {
  readonly type: "number";
  readonly value: number;
  /** Digits alone, no decimal sign. */
  readonly whole: boolean;
}
/** A fraction in one piece: ½, ¹¹⁄₁₆. */
export interface FractionToken extends Span {
  readonly type: "fraction";
  readonly top: number;
  readonly bottom: number;
}
export interface UnitToken extends Span {
  readonly type: "unit";
  readonly unit: Unit;
  /** The unit was written as a mark and not as a word. */
  readonly mark?: keyof typeof UNIT_OF_MARK;
}
export interface NameToken extends Span {
  readonly type: "name";
  readonly name: string;
}
export interface SignToken extends Span {
  readonly type: "sign";
  readonly sign: "+" | "-" | "*" | "/" | "(" | ")" | "," | "=";
  /** A dash that may join the parts of one measure, as in 1-11/16; the true minus sign may not. */
  readonly joins: boolean;
}
export interface EndToken extends Span {
  readonly type: "end";
}
export type Token = NumberToken | FractionToken | UnitToken | NameToken | SignToken | EndToken;

/** Whether nothing, not even a blank, stands between two neighbours. */
export const touch = (before: Token, after: Token): boolean => before.at + before.length === after.at;

const BLANKS = /[\s\u200B\u200E\u200F\u2060\u2064]+/y;
const FRACTION = /⅟(?:[0-9]+|[₀-₉]+)|[⁰¹²³⁴-⁹]+[⁄∕/][₀-₉]+|[¼-¾⅐-⅞↉]/y;
const DIGITS: Record<Grammar, RegExp> = { plain: /(?:[0-9]|[.,][0-9])[0-9.,]*/y, formula: /(?:[0-9]|\.[0-9])[0-9.]*/y };
const LETTERS = /[\p{L}_]+/uy;
const NAME = /[\p{L}_][\p{L}\p{N}_]*(?:\.[\p{L}_][\p{L}\p{N}_]*|\[[0-9]{1,4}\])*/uy;
/** The stop of an abbreviation: `in.` */
const STOP = /\.(?![\p{L}\p{N}.])/uy;
const POWER_OF_TEN = /e[+-]?[0-9]+/iy;
const OTHER_BASE = /[xob][0-9a-f]+/iy;
const MARKS: readonly (readonly [RegExp, keyof typeof UNIT_OF_MARK])[] = [
  [/["″”“‟ʺ]|['′’‘ʹ]{2}/y, '"'],
  [/['′’‘ʹ]/y, "'"],
  [/[°º˚]/y, "°"],
];
const SIGNS = new Map<string, SignToken["sign"]>(
  (
    [
      ["+", "+＋"],
      ["-", "-‐‑‒–−﹣－"],
      ["*", "*×·⋅∙✕"],
      ["/", "/⁄∕÷"],
      ["(", "("],
      [")", ")"],
      [",", ",;"],
      ["=", "="],
    ] as const
  ).flatMap(([sign, spellings]) => [...spellings].map((spelling) => [spelling, sign] as const)),
);
const TRUE_MINUS = "−";

/** More digits than this are a slip of the keyboard, and no double could hold them. */
const MOST_DIGITS = 25;

/** The tokens of `text` from the index `from` on; the last is always an end, placed behind the last character that is no blank. */
export function tokensOf(text: string, grammar: Grammar, from = 0): Reading<readonly Token[]> {
  const tokens: Token[] = [];
  let at = from;
  const taken = (pattern: RegExp, place = at): string | undefined => {
    pattern.lastIndex = place;
    return pattern.exec(text)?.[0];
  };

  let end = from;
  while (at < text.length) {
    const blanks = taken(BLANKS);
    if (blanks !== undefined) {
      at += blanks.length;
      continue;
    }
    const token = next();
    if (!token.ok) return token;
    tokens.push(token.value);
    at += token.value.length;
    end = at;
  }
  tokens.push({ type: "end", at: end, length: 0 });
  return done(tokens);

  function next(): Reading<Token> {
    const fraction = taken(FRACTION);
    if (fraction !== undefined) return fractionOf(fraction, at);
    const digits = taken(DIGITS[grammar]);
    if (digits !== undefined) return afterDigits(digits);
    // Before words, since Unicode counts some of the marks among the letters.
    for (const [pattern, mark] of MARKS) {
      const found = taken(pattern);
      if (found !== undefined) return done({ type: "unit", unit: UNIT_OF_MARK[mark], mark, at, length: found.length });
    }
    const word = wordAt();
    if (word) return done(word);
    const character = String.fromCodePoint(text.codePointAt(at)!);
    const place = { at, length: character.length };
    const sign = SIGNS.get(character);
    if (sign) return done({ type: "sign", sign, joins: sign === "-" && character !== TRUE_MINUS, ...place });
    if (character === "%") return refuse(place, "a percentage is not read here", "Write 50 % as 0.5.");
    if ("[]{}".includes(character))
      return refuse(place, `${quoted(character)} is not read here`, "Write round brackets, ( and ).");
    if (character === "^") return refuse(place, "“^” is not read here", "Multiply the number by itself with *.");
    return refuse(place, `${quoted(character)} is not read here`, `Leave out ${quoted(character)}.`);
  }

  function wordAt(): UnitToken | NameToken | undefined {
    const letters = taken(LETTERS);
    if (letters === undefined) return undefined;
    const last = tokens.at(-1)?.type;
    const unit = grammar === "plain" || last === "number" || last === "fraction" ? unitNamed(letters) : undefined;
    if (unit) return { type: "unit", unit, at, length: letters.length + (taken(STOP, at + letters.length)?.length ?? 0) };
    const name = taken(NAME) ?? letters;
    return { type: "name", name, at, length: name.length };
  }

  function afterDigits(digits: string): Reading<NumberToken> {
    const behind = at + digits.length;
    const power = taken(POWER_OF_TEN, behind);
    if (power !== undefined) {
      const place = { at, length: digits.length + power.length };
      return refuse(place, `${quoted(digits + power)} is a power of ten`, "Write the number out in full.");
    }
    const base = digits === "0" ? taken(OTHER_BASE, behind) : undefined;
    if (base !== undefined)
      return refuse(
        { at, length: 1 + base.length },
        `${quoted(`0${base}`)} is not a decimal number`,
        "Write it with the digits 0 to 9 alone.",
      );
    if (grammar === "formula" && text[behind] === "," && /[0-9]/.test(text[behind + 1] ?? "")) {
      const mend = "Write a point for the decimal sign, or a blank behind the comma where it parts two numbers.";
      return refuse({ at: behind, length: 1 }, "a comma between two digits can be read two ways", mend);
    }
    return numberOf(digits, at);
  }
}

function fractionOf(spelling: string, at: number): Reading<FractionToken> {
  // Compatibility decomposition turns each of these characters into ASCII digits around a fraction slash (Unicode Standard Annex 15).
  const [top = "", bottom = ""] = spelling.normalize("NFKD").split(/[⁄∕/]/);
  const place = { at, length: spelling.length };
  if (Math.max(top.length, bottom.length) > MOST_DIGITS) return tooLong(place);
  return done({ type: "fraction", top: Number(top), bottom: Number(bottom), ...place });
}

const GROUPED_BY_COMMA = /^[1-9][0-9]{0,2}(,[0-9]{3})+\.[0-9]+$/;
const GROUPED_BY_POINT = /^[1-9][0-9]{0,2}(\.[0-9]{3})+,[0-9]+$/;

/** The number that a run of digits, points and commas stands for. */
function numberOf(run: string, at: number): Reading<NumberToken> {
  const place = { at, length: run.length };
  const number = (spelling: string, whole: boolean): Reading<NumberToken> =>
    done({ type: "number", value: Number(spelling), whole, ...place });

  if (run.replace(/[.,]/g, "").length > MOST_DIGITS) return tooLong(place);
  if (/^[0-9]+$/.test(run)) return number(run, true);
  if (/^[0-9]*\.[0-9]+$/.test(run)) return number(run, false);
  if (/^[1-9][0-9]{0,2},[0-9]{3}$/.test(run)) {
    const mend = `Write ${run.replace(",", ".")} or ${run.replace(",", "")}.`;
    return refuse(place, `the comma in ${quoted(run)} can mean a decimal sign or thousands`, mend);
  }
  if (/^[0-9]*,[0-9]+$/.test(run)) return number(run.replace(",", "."), false);
  if (GROUPED_BY_COMMA.test(run)) return number(run.replaceAll(",", ""), false);
  if (GROUPED_BY_POINT.test(run)) return number(run.replaceAll(".", "").replace(",", "."), false);
  if (/^[0-9]+[.,]$/.test(run))
    return refuse(
      { at: at + run.length - 1, length: 1 },
      `${quoted(run)} ends in its decimal sign`,
      `Write ${run.slice(0, -1)} or ${run.slice(0, -1)}.0.`,
    );
  return refuse(place, `${quoted(run)} has too many points or commas`, "Write one decimal sign and no sign for thousands.");
}

const tooLong = (place: Span): Reading<never> =>
  refuse(place, `a number of more than ${MOST_DIGITS} digits is not read`, "Write fewer digits.");
