/**
 * Which quantity every part of a formula is. This needs no values, so it holds however the dimensions of the design change.
 *
 * Plain numbers. In a product or a quotient a plain number is just a number. Added to a length, taken from one, or compared with one
 * by min or max, a number that was typed without a unit means the design's unit (degrees beside an angle); so does the whole formula
 * in a field for a length. Only typed numbers, and what is calculated from them alone, are taken so: a quotient of two lengths, or a
 * dimension that is a plain number, never turns into a length by itself.
 */
import type { Formula } from "./formula.ts";
import { takeBare, type Literal } from "./literal.ts";
import { A_KIND, type FieldReading, type NamedQuantity, type Resolve } from "./quantity.ts";
import { done, refuse, type Reading, type Span } from "./result.ts";
import { bareUnitOf, type Unit } from "./unit.ts";

export interface Quantities {
  /** The parts that are bare numbers and are taken in a unit, and that unit. */
  readonly units: ReadonlyMap<Formula, Unit>;
  /** The value of each dimension that the formula names, mm, radians, or the number. */
  readonly dimensions: ReadonlyMap<string, number>;
}

interface Kind {
  readonly quantity: NamedQuantity["quantity"];
  /** A plain number calculated from nothing but numbers that were typed without a unit. */
  readonly bare: boolean;
}

/** The quantities of a formula as its field takes it, or why they do not go together. */
export function quantitiesIn(formula: Formula, field: FieldReading): Reading<Quantities> {
  const units = new Map<Formula, Unit>();
  const dimensions = new Map<string, number>();
  const resolve = field.resolve ?? nothingKnown;

  const kind = kindOf(formula);
  if (!kind.ok) return kind;
  const wanted = field.quantity === "count" ? "number" : field.quantity;
  const taken = takeAs(kind.value, wanted, formula);
  if (!taken) return refuseResult(formula, kind.value.quantity);
  return taken.ok ? done({ units, dimensions }) : taken;

  function kindOf(node: Formula): Reading<Kind> {
    switch (node.type) {
      case "literal":
        return done({ quantity: node.literal.quantity, bare: node.literal.quantity === "number" });
      case "name": {
        const found = resolve(node.name);
        if (!found.ok) return refuse(node, found.error.message, found.error.mend);
        dimensions.set(node.name, found.value.value);
        return done({ quantity: found.value.quantity, bare: false });
      }
      case "negative":
        return kindOf(node.of);
      case "pair": {
        const left = kindOf(node.left);
        if (!left.ok) return left;
        const right = kindOf(node.right);
        if (!right.ok) return right;
        if (node.sign === "*") return product(node, left.value, right.value);
        if (node.sign === "/") return quotient(node, left.value, right.value);
        return alike(node, [node.left, node.right], [left.value, right.value]);
      }
      case "call": {
        const kinds: Kind[] = [];
        for (const argument of node.of) {
          const kind = kindOf(argument);
          if (!kind.ok) return kind;
          kinds.push(kind.value);
        }
        if (node.name === "min" || node.name === "max") return alike(node, node.of, kinds);
        const [kind] = kinds;
        if (node.name === "abs" || kind!.quantity === "number") return done(kind!);
        const message = `a square root is taken of a plain number, and this is ${A_KIND[kind!.quantity]}`;
        return refuse(node, message, "Divide by a unit first, as in sqrt(a / 1 mm) * 1 mm.");
      }
    }
  }

  /** The one quantity of parts that are added or compared: bare numbers beside a length or an angle take its unit. */
  function alike(place: Span, nodes: readonly Formula[], kinds: readonly Kind[]): Reading<Kind> {
    const quantity = kinds.find((kind) => kind.quantity !== "number")?.quantity ?? "number";
    for (const [k, kind] of kinds.entries()) {
      const taken = takeAs(kind, quantity, nodes[k]!);
      if (!taken) {
        const mend =
          kind.quantity === "number" ? "Multiply the number by a unit, as in frets * 1 mm." : "Bring them to the same quantity.";
        return refuse(place, `${A_KIND[quantity]} and ${A_KIND[kind.quantity]} cannot be added or compared`, mend);
      }
      if (!taken.ok) return taken;
    }
    return done({ quantity, bare: kinds.every((kind) => kind.bare) });
  }

  /** Takes a part as the quantity wanted, in its unit if it is a bare number; undefined where it is another quantity. */
  function takeAs(kind: Kind, quantity: Kind["quantity"], node: Formula): Reading<unknown> | undefined {
    if (kind.quantity === quantity) return done(kind);
    if (!kind.bare) return undefined;
    const unit = quantity === "angle" ? "deg" : field.bareUnit;
    units.set(node, bareUnitOf(unit));
    const literal = literalOf(node);
    return literal && looksLikeInches(literal) ? takeBare(literal, unit) : done(kind);
  }

  function refuseResult(place: Span, quantity: Kind["quantity"]): Reading<never> {
    const message = `the formula gives ${A_KIND[quantity]}, and ${A_KIND[field.quantity]} is wanted`;
    if (quantity === "number")
      return refuse(place, message, `Multiply it by a unit, such as 1 ${wanted === "angle" ? "deg" : "mm"}.`);
    if (wanted !== "number") return refuse(place, message, "Use other dimensions.");
    return refuse(
      place,
      message,
      quantity === "length" ? "Divide it by a length, such as 1 in." : "Divide it by an angle, such as 1 deg.",
    );
  }
}

function product(place: Span, a: Kind, b: Kind): Reading<Kind> {
  if (a.quantity === "number" || b.quantity === "number") {
    return done({ quantity: a.quantity === "number" ? b.quantity : a.quantity, bare: a.bare && b.bare });
  }
  const isArea = a.quantity === "length" && b.quantity === "length";
  const message = isArea
    ? "a length times a length is an area"
    : `${A_KIND[a.quantity]} times ${A_KIND[b.quantity]} is no length`;
  return refuse(place, message, "Leave out one of the units.");
}

function quotient(place: Span, a: Kind, b: Kind): Reading<Kind> {
  if (b.quantity === "number") return done({ quantity: a.quantity, bare: a.bare && b.bare });
  if (a.quantity === b.quantity) return done({ quantity: "number", bare: false });
  const mend = a.bare
    ? "Write the unit behind the first number, and a fraction without blanks, as in 3/8 in."
    : "Leave out the unit behind the slash.";
  return refuse(place, `${A_KIND[a.quantity]} cannot be divided by ${A_KIND[b.quantity]}`, mend);
}

/** A single number, with or without a sign before it. */
const literalOf = (node: Formula): Literal | undefined =>
  node.type === "literal" ? node.literal : node.type === "negative" ? literalOf(node.of) : undefined;

/** 1 11/16 and 3/8, which are written of inches; 4/2 calculates. */
const looksLikeInches = ({ form, value }: Literal): boolean => form === "mixed" || (form === "fraction" && value < 1);

const nothingKnown: Resolve = (name) => ({
  ok: false,
  error: { message: `there is no dimension named ${name} here`, mend: "Write numbers alone." },
});
