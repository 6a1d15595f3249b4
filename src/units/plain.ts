/** Reads text that is one measure, in any spelling that makers use: `1 11/16"`, `95 thou`, `42,86 mm`, `2' 1 1/2"`, `14° 30'`. */
import { nearestName } from "./nearest-name.ts";
import { A_KIND, accept, EXAMPLE, type Wanted, type QuantityKind } from "./quantity.ts";
import { readLiteral, takeBare, type Literal } from "./literal.ts";
import { done, quoted, refuse, spanOf, type Reading, type Span } from "./result.ts";
import { tokensOf, type Token } from "./tokens.ts";
import { inside, UNIT_OF_MARK, unitNamed, UNIT_WORDS } from "./unit.ts";

/**
 * The value of a plain text in mm, in radians, or as a number. A number without a unit means the field's `bareUnit` in a length and
 * degrees in an angle. A minus or a plus may stand before it; whether a negative value makes sense is for the field to say.
 */
export function readPlain(text: string, field: Wanted): Reading<number> {
  const cut = tokensOf(text, "plain");
  if (!cut.ok) return cut;
  const tokens = cut.value;
  const first = tokens[0]!;
  const signed = first.type === "sign" && (first.sign === "-" || first.sign === "+");
  const start = signed ? 1 : 0;
  const number = tokens[start]!;
  if (number.type !== "number" && number.type !== "fraction") return refuseStart(number, signed, text, field.quantity);

  const read = readLiteral(tokens, start, "plain");
  if (!read.ok) return read;
  const sign = signed && first.sign === "-" ? -1 : 1;
  const split =
    field.quantity === "length"
      ? withRemainder(tokens, read.value.next, sign * read.value.value.value, read.value.value, field)
      : undefined;
  if (split) return split;

  const leftover = tokens[read.value.next]!;
  if (leftover.type !== "end") return refuseLeftover(leftover, spanOf(leftover, tokens.at(-1)!), text, field.quantity);
  const literal = read.value.value;
  const value = valueAs(literal, field);
  return value.ok ? accept(sign * value.value, field.quantity, spanOf(first, literal)) : value;
}

function valueAs(literal: Literal, { quantity, bareUnit }: Wanted): Reading<number> {
  const wanted = quantity === "count" ? "number" : quantity;
  if (literal.quantity === wanted) return done(literal.value);
  if (literal.quantity === "number") return takeBare(literal, wanted === "angle" ? "deg" : bareUnit);
  const mend = wanted === "number" ? "Leave out the unit." : `Write ${A_KIND[quantity]}, such as ${EXAMPLE[quantity]}.`;
  return refuse(literal, `this is ${A_KIND[literal.quantity]}, and ${A_KIND[quantity]} is wanted`, mend);
}

/** Less than the finest line of a rule, so that nobody can take it for a sum. */
const REMAINDER_UNDER_IN = 1 / 64;

/** Reads a fraction of an inch with the thousandths that it leaves: `1 11/16 + 0.004 in`. Undefined where the text is not of this form. */
function withRemainder(
  tokens: readonly Token[],
  i: number,
  before: number,
  literal: Literal,
  field: Wanted,
): Reading<number> | undefined {
  const [sign, rest, unit] = [tokens[i], tokens[i + 1], tokens[i + 2]];
  if (literal.quantity !== "number" || literal.form === "decimal") return undefined;
  if (sign?.type !== "sign" || (sign.sign !== "+" && sign.sign !== "-")) return undefined;
  if (rest?.type !== "number" || rest.whole || rest.value >= REMAINDER_UNDER_IN) return undefined;
  const inInches =
    unit?.type === "unit"
      ? unit.unit === UNIT_OF_MARK['"'] && tokens[i + 3]?.type === "end"
      : unit?.type === "end" && field.bareUnit === "in";
  if (!inInches) return undefined;
  const inches = sign.sign === "+" ? before + rest.value : before - rest.value;
  return accept(inside(inches, UNIT_OF_MARK['"']), "length", spanOf(tokens[0]!, rest));
}

function refuseStart(token: Token, signed: boolean, text: string, quantity: QuantityKind): Reading<never> {
  const example = EXAMPLE[quantity];
  switch (token.type) {
    case "name":
      return refuse(
        token,
        `${quoted(token.name)} is not a number`,
        `Write digits, such as ${example}, or begin with = to use the name of a dimension.`,
      );
    case "unit":
      return refuse(token, "no number stands before the unit", `Write it as ${example}.`);
    case "sign":
      if (token.sign === "/") return refuse(token, "the fraction has no top number", "Write it as 5/8.");
      if (signed && (token.sign === "-" || token.sign === "+"))
        return refuse(token, "two signs stand before the number", "Write one.");
      return refuse(
        token,
        `${quoted(text.slice(token.at, token.at + token.length))} does not begin a number`,
        `Write digits, such as ${example}, or begin with = to calculate.`,
      );
    default:
      if (signed) return refuse(token, "no number follows the sign", `Write it as -${example}.`);
      return refuse({ at: 0, length: text.length }, "nothing is written here", `Write ${A_KIND[quantity]}, such as ${example}.`);
  }
}

/** Says what is wrong with the token behind a finished measure; `rest` is all that follows the measure. */
function refuseLeftover(token: Token, rest: Span, text: string, quantity: QuantityKind): Reading<never> {
  const typed = quoted(text.slice(token.at, token.at + token.length));
  const mend = `Write ${A_KIND[quantity]}, such as ${EXAMPLE[quantity]}, or begin with = to calculate.`;
  switch (token.type) {
    case "number":
    case "fraction":
      return refuse(rest, `a second number, ${quoted(text.slice(rest.at, rest.at + rest.length))}, follows the first`, mend);
    case "unit":
      return refuse(token, `a second unit, ${typed}, follows the first`, "Write one unit behind the number.");
    case "name":
      return refuseWord(token, typed, quantity);
    default:
      if (text[token.at] === ",") return refuse(token, "a comma stands behind the number", "Leave it out.");
      return refuse(
        token,
        `${typed} does not belong in one measure`,
        `Begin with = to calculate, or write ${A_KIND[quantity]}, such as ${EXAMPLE[quantity]}.`,
      );
  }
}

/** Says what is wrong with a word where a unit should stand. */
function refuseWord(place: Span, typed: string, quantity: QuantityKind): Reading<never> {
  if (quantity !== "length" && quantity !== "angle")
    return refuse(place, `${typed} does not belong in ${A_KIND[quantity]}`, "Leave it out.");
  const near = nearestName(
    typed.slice(1, -1),
    UNIT_WORDS.filter((known) => unitNamed(known)!.measures === quantity),
  );
  const known = quantity === "length" ? "in, ft, thou, mm, cm or m" : "deg or rad";
  return refuse(
    place,
    `${typed} is no unit`,
    near === undefined ? `Use ${known}.` : `Did you mean ${near}? The units are ${known}.`,
  );
}
