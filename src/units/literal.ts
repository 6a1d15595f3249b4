/**
 * Reads one typed measure from tokens: a whole number, a decimal, a fraction, a mixed number, each with or without a unit; feet with
 * inches; degrees with minutes and seconds. Plain texts and formulas share it.
 *
 * In a formula a slash makes a fraction only where it touches whole numbers on both sides (`3/8 in`, against `3 / 8`), and a dash is
 * always a minus. Where a dash without blanks could also join a mixed number (`1-11/16`), the formula is refused.
 */
import { done, refuse, spanOf, type Reading, type Span } from "./result.ts";
import { touch, type Grammar, type Token, type UnitToken } from "./tokens.ts";
import { bareUnitOf, inside, type LengthUnit } from "./unit.ts";

/** A measure as it was written. */
export interface Literal extends Span {
  readonly quantity: "length" | "angle" | "number";
  /** mm, radians, or the number itself where no unit was written. */
  readonly value: number;
  /** How the number was written. */
  readonly form: "whole" | "decimal" | "fraction" | "mixed";
}

interface Read<T> {
  readonly value: T;
  /** Index of the first token behind it. */
  readonly next: number;
}

interface Written extends Span {
  readonly value: number;
  readonly form: Literal["form"];
}

/** The measure that begins at token `i`. */
export function readLiteral(tokens: readonly Token[], i: number, grammar: Grammar): Reading<Read<Literal>> {
  const number = readNumber(tokens, i, grammar);
  if (!number.ok) return number;
  const { value: written, next } = number.value;
  const unitAt = grammar === "plain" && joinsAt(tokens, next) && tokens[next + 1]?.type === "unit" ? next + 1 : next;
  const unit = tokens[unitAt];
  if (unit?.type !== "unit") return done({ value: { ...written, quantity: "number" }, next });
  if (unit.unit.name === "ft") return withInches(tokens, written, unit, unitAt + 1, grammar);
  if (unit.unit.name === "deg") return withMinutes(tokens, written, unit, unitAt + 1, grammar);
  return done({ value: measure(written, unit), next: unitAt + 1 });
}

const measure = (written: Written, unit: UnitToken): Literal => ({
  ...written,
  ...spanOf(written, unit),
  quantity: unit.unit.measures,
  value: inside(written.value, unit.unit),
});

/** What a number without a unit stands for, if it is one of a kind that is written so. */
export function takeBare(literal: Literal, wanted: LengthUnit | "deg"): Reading<number> {
  if (wanted === "mm" && (literal.form === "fraction" || literal.form === "mixed")) {
    return refuse(
      literal,
      "a fraction without a unit may be meant in inches, and this design is in millimetres",
      "Write in or mm behind it.",
    );
  }
  return done(inside(literal.value, bareUnitOf(wanted)));
}

const FEET_MEND = "Write feet and inches as 2 ft 1 1/2 in.";

function withInches(
  tokens: readonly Token[],
  feet: Written,
  foot: UnitToken,
  i: number,
  grammar: Grammar,
): Reading<Read<Literal>> {
  const alone = done({ value: measure(feet, foot), next: i });
  const joined = joinsAt(tokens, i) && startsNumber(tokens[i + 1]);
  if (joined && grammar === "formula") {
    return refuse(
      spanOf(foot, tokens[i + 1]!),
      "the dash can join feet and inches or take away",
      "Put a blank on both sides of a minus, or leave out the dash.",
    );
  }
  const start = joined ? i + 1 : i;
  if (!startsNumber(tokens[start])) return alone;
  const number = readNumber(tokens, start, grammar);
  if (!number.ok) return number;
  const { value: inches, next } = number.value;
  const unit = tokens[next];
  if (unit?.type === "unit" && unit.unit.name !== "in") {
    return refuse(spanOf(inches, unit), "only inches may follow feet", `To add lengths begin with =, as in = 2 ft + 3 mm.`);
  }
  if (feet.form !== "whole") return refuse(feet, "feet with inches behind them must be a whole number", FEET_MEND);
  if (inches.value >= 12) return refuse(inches, "inches behind feet must be fewer than 12", FEET_MEND);
  const last = unit?.type === "unit" ? unit : inches;
  const value = inside(feet.value * 12 + inches.value, bareUnitOf("in"));
  return done({
    value: { ...spanOf(feet, last), quantity: "length", form: inches.form, value },
    next: last === unit ? next + 1 : next,
  });
}

const MINUTES_MEND = "Write degrees and minutes as 14° 30'.";

/** Minutes and seconds of arc: 60 minutes to the degree, 60 seconds to the minute. */
function withMinutes(
  tokens: readonly Token[],
  degrees: Written,
  ring: UnitToken,
  i: number,
  grammar: Grammar,
): Reading<Read<Literal>> {
  let value = degrees.value;
  let last: Span = ring;
  let form = degrees.form;
  let next = i;
  for (const [mark, parts] of [
    ["'", 60],
    ['"', 3600],
  ] as const) {
    if (!startsNumber(tokens[next])) break;
    const number = readNumber(tokens, next, grammar);
    if (!number.ok) return number;
    const unit = tokens[number.value.next];
    if (unit?.type !== "unit" || unit.mark !== mark) continue;
    const part = number.value.value;
    if (form !== "whole") return refuse(degrees, "only the last part of an angle may have a fraction", MINUTES_MEND);
    if (part.value >= 60) return refuse(part, "minutes and seconds must be fewer than 60", MINUTES_MEND);
    value += part.value / parts;
    form = part.form;
    last = unit;
    next = number.value.next + 1;
  }
  return done({ value: { ...spanOf(degrees, last), quantity: "angle", form, value: inside(value, ring.unit) }, next });
}

const startsNumber = (token: Token | undefined): boolean => token?.type === "number" || token?.type === "fraction";

/** Whether the token is a dash that touches both its neighbours. */
function joinsAt(tokens: readonly Token[], i: number): boolean {
  const [before, dash, after] = [tokens[i - 1], tokens[i], tokens[i + 1]];
  return (
    before !== undefined &&
    after !== undefined &&
    dash?.type === "sign" &&
    dash.joins &&
    touch(before, dash) &&
    touch(dash, after)
  );
}

function readNumber(tokens: readonly Token[], i: number, grammar: Grammar): Reading<Read<Written>> {
  const simple = readFraction(tokens, i, grammar);
  if (simple) return simple;
  const first = tokens[i];
  if (first?.type !== "number") throw new Error("readNumber: no number begins here");
  const alone = done({
    value: { at: first.at, length: first.length, value: first.value, form: first.whole ? "whole" : "decimal" } as const,
    next: i + 1,
  });
  if (!first.whole) return alone;

  const dashed = joinsAt(tokens, i + 1);
  const part = readFraction(tokens, dashed ? i + 2 : i + 1, grammar);
  if (!part) return alone;
  if (!part.ok) return part;
  const fraction = part.value.value;
  const both = spanOf(first, fraction);
  if (dashed && grammar === "formula") {
    if (fraction.value >= 1) return alone;
    return refuse(
      both,
      "the dash can join a mixed number or take away",
      "Write 1 11/16 for a mixed number, and a blank on both sides of a minus.",
    );
  }
  if (fraction.value >= 1)
    return refuse(fraction, "the fraction of a mixed number must be less than 1", "Write a mixed number as 1 11/16.");
  return done({ value: { ...both, value: first.value + fraction.value, form: "mixed" }, next: part.value.next });
}

/** The fraction that begins at token `i`, or undefined where none does. */
function readFraction(tokens: readonly Token[], i: number, grammar: Grammar): Reading<Read<Written>> | undefined {
  const [top, slash, bottom] = [tokens[i], tokens[i + 1], tokens[i + 2]];
  if (top?.type === "fraction") return fraction(top.top, top.bottom, top, top, i + 1);
  if (top?.type !== "number" || slash?.type !== "sign" || slash.sign !== "/" || !bottom) return undefined;
  if (grammar === "formula") {
    if (!touch(top, slash) || !touch(slash, bottom) || bottom.type !== "number" || !top.whole || !bottom.whole) return undefined;
  } else if (bottom.type !== "number") {
    return refuse(bottom.type === "end" ? bottom : slash, "the fraction has no bottom number", "Write it as 5/8.");
  } else if (!top.whole || !bottom.whole) {
    return refuse(
      top.whole ? bottom : top,
      "a fraction is written with whole numbers",
      "Write it as 5/8, or begin with = to calculate.",
    );
  }
  return fraction(top.value, bottom.value, bottom, spanOf(top, bottom), i + 3);
}

function fraction(top: number, bottom: number, bottomPlace: Span, { at, length }: Span, next: number): Reading<Read<Written>> {
  if (bottom === 0) return refuse(bottomPlace, "the bottom of the fraction is 0", "Write a bottom number of 1 or more.");
  return done({ value: { at, length, value: top / bottom, form: "fraction" }, next });
}

/** Whether a fraction with a slash of its own begins at token `i`: as a divisor it could be read two ways. */
export const isSlashed = (tokens: readonly Token[], i: number): boolean =>
  tokens[i]?.type === "number" && readFraction(tokens, i, "formula") !== undefined;
