/**
 * The grammar of formulas. A formula begins with `=` and holds measures (`1 11/16 in`, `95 thou`, `0.19`), names of dimensions
 * (`nutWidth`, `fingerboard.overhang`, `binding[0].thickness`), + - * /, round brackets, and the functions min, max, abs and sqrt.
 *
 *     formula  = "=" sum
 *     sum      = product { ("+" | "-") product }
 *     product  = signed { ("*" | "/") signed }
 *     signed   = [ "+" | "-" ] ( measure | name | function "(" sum { "," sum } ")" | "(" sum ")" )
 */
import { isSlashed, readLiteral, type Literal } from "./literal.ts";
import { nearestName } from "./nearest-name.ts";
import { done, quoted, refuse, spanOf, type Reading, type Span } from "./result.ts";
import { tokensOf, type NameToken, type SignToken, type Token } from "./tokens.ts";
import { unitNamed } from "./unit.ts";

export const FUNCTIONS = ["min", "max", "abs", "sqrt"] as const;
export type FunctionName = (typeof FUNCTIONS)[number];
const isFunction = (name: string): name is FunctionName => (FUNCTIONS as readonly string[]).includes(name);

/** A parsed formula; every node knows its place in the text. */
export type Formula =
  | (Span & { readonly type: "literal"; readonly literal: Literal })
  | (Span & { readonly type: "name"; readonly name: string })
  | (Span & { readonly type: "negative"; readonly of: Formula })
  | (Span & { readonly type: "pair"; readonly sign: "+" | "-" | "*" | "/"; readonly left: Formula; readonly right: Formula })
  | (Span & { readonly type: "call"; readonly name: FunctionName; readonly of: readonly Formula[] });

/** Both bounds keep the parser and whoever walks the formula far from the end of the stack. */
const MOST_CHARACTERS = 2000;
const MOST_NESTED = 50;

/** Whether the text is meant as a formula. */
export const isFormula = (text: string): boolean => text.trimStart().startsWith("=");

/** The tree of a formula; the text must begin with `=`. */
export function parseFormula(text: string): Reading<Formula> {
  const start = text.length - text.trimStart().length;
  if (!isFormula(text)) return refuse({ at: start, length: 0 }, "a formula begins with =", "Write = before it.");
  if (text.length > MOST_CHARACTERS) {
    return refuse(
      { at: MOST_CHARACTERS, length: text.length - MOST_CHARACTERS },
      `a formula of more than ${MOST_CHARACTERS} characters is not read`,
      "Write a shorter one.",
    );
  }
  const cut = tokensOf(text, "formula", start + 1);
  if (!cut.ok) return cut;
  const tokens = cut.value;
  let i = 0;
  let nested = 0;

  const formula = sum();
  if (!formula.ok) return formula;
  const leftover = tokens[i]!;
  return leftover.type === "end" ? formula : refuseLeftover(leftover);

  function signAt<S extends SignToken["sign"]>(...signs: readonly S[]): (SignToken & { readonly sign: S }) | undefined {
    const token = tokens[i]!;
    return token.type === "sign" && (signs as readonly string[]).includes(token.sign)
      ? (token as SignToken & { readonly sign: S })
      : undefined;
  }

  function sum(): Reading<Formula> {
    return pairs(["+", "-"], () => pairs(["*", "/"], signed));
  }

  /** Operands with signs of one rank between them, taken from the left. */
  function pairs(signs: readonly ("+" | "-" | "*" | "/")[], operand: (after?: SignToken) => Reading<Formula>): Reading<Formula> {
    let left = operand();
    while (left.ok) {
      const sign = signAt(...signs);
      if (!sign) break;
      i++;
      const right = operand(sign);
      if (!right.ok) return right;
      left = done({ type: "pair", sign: sign.sign, left: left.value, right: right.value, ...spanOf(left.value, right.value) });
    }
    return left;
  }

  function signed(after?: SignToken): Reading<Formula> {
    const sign = signAt("+", "-");
    if (sign) i++;
    if (after?.sign === "/" && isSlashed(tokens, i)) {
      return refuse(
        spanOf(after, tokens[i + 2]!),
        "two slashes in a row can be read two ways",
        "Put the fraction in brackets, as in a / (3/8), or blanks around both slashes.",
      );
    }
    const operand = primary();
    if (!operand.ok || sign?.sign !== "-") return operand;
    return done({ type: "negative", of: operand.value, ...spanOf(sign, operand.value) });
  }

  function primary(): Reading<Formula> {
    const token = tokens[i]!;
    switch (token.type) {
      case "number":
      case "fraction": {
        const read = readLiteral(tokens, i, "formula");
        if (!read.ok) return read;
        i = read.value.next;
        const { at, length } = read.value.value;
        return done({ type: "literal", literal: read.value.value, at, length });
      }
      case "name":
        i++;
        return signAt("(") ? call(token) : done({ type: "name", name: token.name, at: token.at, length: token.length });
      case "sign":
        return token.sign === "(" ? bracket(token) : refuseMissing(token);
      case "unit":
      case "end":
        return refuseMissing(token);
    }
  }

  function bracket(open: SignToken): Reading<Formula> {
    const inner = within(open, sum);
    if (!inner.ok) return inner;
    const close = tokens[i - 1]!;
    return done({ ...inner.value, ...spanOf(open, close) });
  }

  function call(name: NameToken): Reading<Formula> {
    if (!isFunction(name.name)) {
      const near = nearestName(name.name, FUNCTIONS);
      const mend =
        near === undefined ? `Use ${FUNCTIONS.join(", ")}, or * before a bracket to multiply.` : `Did you mean ${near}?`;
      return refuse(name, `${quoted(name.name)} is no function`, mend);
    }
    const of: Formula[] = [];
    const read = within(tokens[i]!, () => {
      for (;;) {
        const argument = sum();
        if (!argument.ok) return argument;
        of.push(argument.value);
        if (!signAt(",")) return argument;
        i++;
      }
    });
    if (!read.ok) return read;
    const place = spanOf(name, tokens[i - 1]!);
    if (of.length > 1 && (name.name === "abs" || name.name === "sqrt"))
      return refuse(place, `${name.name} takes one number`, "Leave out the others.");
    return done({ type: "call", name: name.name, of, ...place });
  }

  /** Reads what stands between the bracket `open`, where the cursor is, and its partner. */
  function within(open: Token, content: () => Reading<Formula>): Reading<Formula> {
    if (++nested > MOST_NESTED) return refuse(open, `brackets are nested more than ${MOST_NESTED} deep`, "Take some out.");
    i++;
    const read = content();
    nested--;
    if (!read.ok) return read;
    if (signAt(")")) {
      i++;
      return read;
    }
    const token = tokens[i]!;
    return token.type === "end" ? refuse(open, "this bracket is not closed", "Write ) where it ends.") : refuseLeftover(token);
  }

  function refuseMissing(token: Token): Reading<never> {
    const before = tokens[i - 1];
    const mend = "Write a number or the name of a dimension.";
    if (token.type === "sign" && (token.sign === "+" || token.sign === "-"))
      return refuse(token, "two signs follow each other", "Write one, or put brackets around the second number.");
    if (token.type === "sign" && token.sign === "=")
      return refuse(token, "a second = stands in the formula", "Write one = at its beginning.");
    if (!before) return refuse(token, token.type === "end" ? "nothing follows the =" : "a number is missing behind the =", mend);
    return refuse(token, `a number is missing behind ${quoted(text.slice(before.at, before.at + before.length))}`, mend);
  }

  function refuseLeftover(token: Token): Reading<never> {
    const typed = quoted(text.slice(token.at, token.at + token.length));
    const before = tokens[i - 1]!;
    if (token.type === "sign" && token.sign === ")")
      return refuse(token, "this bracket closes none", "Leave it out, or open it further left.");
    if (token.type === "sign" && token.sign === ",")
      return refuse(
        token,
        "a comma parts the numbers of min and max, and stands in neither",
        "Write a point for the decimal sign.",
      );
    if (token.type === "sign" && token.sign === "=")
      return refuse(token, "a second = stands in the formula", "Write one = at its beginning.");
    if (token.type === "sign" && token.sign === "(")
      return refuse(token, "no sign stands before this bracket", "Write * before it to multiply.");
    if (token.type === "name" && (before.type === "number" || before.type === "fraction")) {
      if (/^[x×]$/i.test(token.name)) return refuse(token, `${typed} is not read here`, "Write * to multiply.");
      return refuse(token, `${typed} is no unit`, "Write a unit behind the number, or * to multiply.");
    }
    if (token.type === "unit" || (token.type === "name" && unitNamed(token.name))) {
      return refuse(
        token,
        `the unit ${typed} stands behind no number`,
        "Write the unit directly behind a number, or multiply by one, as in (1 + 2) * 1 in.",
      );
    }
    return refuse(token, `no sign stands before ${typed}`, "Write + - * or / before it.");
  }
}

/** The names of dimensions that a formula reads, each once, in the order in which they stand. */
export function namesIn(formula: Formula): readonly string[] {
  const names = new Set<string>();
  collect(formula);
  return [...names];

  function collect(node: Formula): void {
    switch (node.type) {
      case "literal":
        return;
      case "name":
        names.add(node.name);
        return;
      case "negative":
        collect(node.of);
        return;
      case "pair":
        collect(node.left);
        collect(node.right);
        return;
      case "call":
        node.of.forEach(collect);
    }
  }
}
