/**
 * The value of a formula, with its quantity followed through every step.
 *
 * Plain numbers. In a product or a quotient a plain number is just a number. Added to a length, taken from one, or compared with one
 * by min or max, a number that was typed without a unit means the design's unit (degrees beside an angle); so does the whole formula
 * in a field for a length. Only typed numbers, and what was calculated from them alone, are taken so: a quotient of two lengths, or a
 * dimension that is a plain number, never turns into a length by itself.
 */
import type { Formula, FunctionName } from "./formula.ts";
import { takeBare, type Literal } from "./literal.ts";
import { A_KIND, type NamedQuantity, type QuantityKind } from "./quantity.ts";
import { done, refuse, type Reading, type Result, type Span } from "./result.ts";
import { bareUnitOf, inside, type LengthUnit } from "./unit.ts";

/** Gives the value of a dimension, or says why there is none: unknown, in a circle, not settled. */
export type Resolve = (name: string) => Result<NamedQuantity, { readonly message: string; readonly mend: string }>;

export interface Evaluated extends NamedQuantity {
  /** A plain number calculated from nothing but numbers that were typed without a unit. */
  readonly bare: boolean;
}

export interface Around {
  readonly bareUnit: LengthUnit;
  readonly resolve: Resolve;
  /** Told of each part of the formula that is a bare number and was taken as a length in the design's unit. */
  readonly leans?: (part: Formula) => void;
}

/** Steps beyond this are never meant, and products of them could leave the range of a double. */
const MOST = 1e12;

/** The value of a formula in mm, in radians, or as a number. `resolve` is asked for each name as it is met. */
export function evaluateFormula(formula: Formula, around: Around): Reading<Evaluated> {
  switch (formula.type) {
    case "literal": {
      const { quantity, value } = formula.literal;
      return within(formula, { quantity, value, bare: quantity === "number" });
    }
    case "name": {
      const found = around.resolve(formula.name);
      return found.ok ? done({ ...found.value, bare: false }) : refuse(formula, found.error.message, found.error.mend);
    }
    case "negative": {
      const of = evaluateFormula(formula.of, around);
      return of.ok ? done({ ...of.value, value: -of.value.value }) : of;
    }
    case "pair": {
      const left = evaluateFormula(formula.left, around);
      if (!left.ok) return left;
      const right = evaluateFormula(formula.right, around);
      if (!right.ok) return right;
      const [a, b] = [left.value, right.value];
      if (formula.sign === "*") return product(formula, a, b);
      if (formula.sign === "/") return quotient(formula, formula.right, a, b);
      const sign = formula.sign === "+" ? 1 : -1;
      const alike = asOneQuantity(formula, [formula.left, formula.right], [a, b], around);
      return alike.ok
        ? within(formula, { ...alike.value, value: alike.value.values[0]! + sign * alike.value.values[1]! })
        : alike;
    }
    case "call": {
      const of: Evaluated[] = [];
      for (const argument of formula.of) {
        const value = evaluateFormula(argument, around);
        if (!value.ok) return value;
        of.push(value.value);
      }
      return call(formula, formula.name, formula.of, of, around);
    }
  }
}

function product(place: Span, a: Evaluated, b: Evaluated): Reading<Evaluated> {
  if (a.quantity !== "number" && b.quantity !== "number") {
    const message =
      a.quantity === "length" && b.quantity === "length"
        ? "a length times a length is an area"
        : `${A_KIND[a.quantity]} times ${A_KIND[b.quantity]} is no length`;
    return refuse(place, message, "Leave out one of the units.");
  }
  return within(place, {
    quantity: a.quantity === "number" ? b.quantity : a.quantity,
    value: a.value * b.value,
    bare: a.bare && b.bare,
  });
}

function quotient(place: Span, divisor: Span, a: Evaluated, b: Evaluated): Reading<Evaluated> {
  if (b.quantity !== "number" && a.quantity !== b.quantity) {
    const mend = a.bare
      ? "Write the unit behind the first number, and a fraction without blanks, as in 3/8 in."
      : "Leave out the unit behind the slash.";
    return refuse(place, `${A_KIND[a.quantity]} cannot be divided by ${A_KIND[b.quantity]}`, mend);
  }
  if (b.value === 0) return refuse(divisor, "this divides by 0", "Divide by another number.");
  return within(place, {
    quantity: b.quantity === "number" ? a.quantity : "number",
    value: a.value / b.value,
    bare: a.bare && b.bare,
  });
}

function call(
  place: Span,
  name: FunctionName,
  nodes: readonly Formula[],
  of: readonly Evaluated[],
  around: Around,
): Reading<Evaluated> {
  const first = of[0]!;
  if (name === "abs") return done({ ...first, value: Math.abs(first.value) });
  if (name === "sqrt") {
    if (first.quantity !== "number")
      return refuse(
        place,
        `a square root is taken of a plain number, and this is ${A_KIND[first.quantity]}`,
        "Divide by a unit first, as in sqrt(a / 1 mm) * 1 mm.",
      );
    if (first.value < 0)
      return refuse(place, "a number below 0 has no square root", "Use abs inside it, or turn the difference round.");
    return done({ ...first, value: Math.sqrt(first.value) });
  }
  const alike = asOneQuantity(place, nodes, of, around);
  if (!alike.ok) return alike;
  return done({ ...alike.value, value: name === "min" ? Math.min(...alike.value.values) : Math.max(...alike.value.values) });
}

interface Alike {
  readonly quantity: NamedQuantity["quantity"];
  readonly bare: boolean;
  readonly values: readonly number[];
}

/** The values as one quantity: bare numbers beside a length or an angle take its unit. */
function asOneQuantity(place: Span, nodes: readonly Formula[], of: readonly Evaluated[], around: Around): Reading<Alike> {
  const quantity = of.find((v) => v.quantity !== "number")?.quantity ?? "number";
  const values: number[] = [];
  for (const [k, value] of of.entries()) {
    const taken = takeAs(value, quantity, nodes[k]!, around);
    if (!taken) {
      const mend =
        value.quantity === "number" ? "Multiply the number by a unit, as in frets * 1 mm." : "Bring them to the same quantity.";
      return refuse(place, `${A_KIND[quantity]} and ${A_KIND[value.quantity]} cannot be added or compared`, mend);
    }
    if (!taken.ok) return taken;
    values.push(taken.value);
  }
  return done({ quantity, bare: of.every((v) => v.bare), values });
}

/** The value as the quantity wanted, or undefined where it is another. */
function takeAs(
  value: Evaluated,
  quantity: NamedQuantity["quantity"],
  node: Formula,
  around: Around,
): Reading<number> | undefined {
  if (value.quantity === quantity) return done(value.value);
  if (!value.bare) return undefined;
  const unit = quantity === "angle" ? "deg" : around.bareUnit;
  const literal = literalOf(node);
  if (literal && looksLikeInches(literal)) {
    const taken = takeBare(literal, unit);
    if (!taken.ok) return taken;
  }
  if (quantity === "length") around.leans?.(node);
  return done(inside(value.value, bareUnitOf(unit)));
}

/** A single number, with or without a sign before it. */
const literalOf = (node: Formula): Literal | undefined =>
  node.type === "literal" ? node.literal : node.type === "negative" ? literalOf(node.of) : undefined;

/** 1 11/16 and 3/8, which are written of inches; 4/2 calculates. */
const looksLikeInches = ({ form, value }: Literal): boolean => form === "mixed" || (form === "fraction" && value < 1);

function within(place: Span, value: Evaluated): Reading<Evaluated> {
  return Math.abs(value.value) <= MOST
    ? done({ quantity: value.quantity, value: value.value, bare: value.bare })
    : refuse(place, "the number here is too large", "Check what is multiplied or divided here.");
}

/** What the whole formula gives in a field: a bare number takes the field's unit. */
export function resultFor(value: Evaluated, formula: Formula, quantity: QuantityKind, around: Around): Reading<number> {
  const wanted = quantity === "count" ? "number" : quantity;
  const taken = takeAs(value, wanted, formula, around);
  if (taken) return taken;
  const message = `the formula gives ${A_KIND[value.quantity]}, and ${A_KIND[quantity]} is wanted`;
  if (wanted === "number")
    return refuse(
      formula,
      message,
      value.quantity === "length" ? "Divide it by a length, such as 1 in." : "Divide it by an angle, such as 1 deg.",
    );
  return refuse(
    formula,
    message,
    value.quantity === "number"
      ? `Multiply it by a unit, such as ${wanted === "length" ? "1 mm" : "1 deg"}.`
      : "Use other dimensions.",
  );
}
