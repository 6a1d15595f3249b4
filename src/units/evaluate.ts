/** The value of a formula. */
import type { Formula } from "./formula.ts";
import { quantitiesIn, type Quantities } from "./quantities.ts";
import { accept, type FieldReading } from "./quantity.ts";
import { done, refuse, type Reading } from "./result.ts";
import { inside } from "./unit.ts";

/** Steps beyond this are never meant, and products of them could leave the range of a double. */
const MOST = 1e12;

/** The value of a formula in its field: mm, radians, or a number. `resolve` is asked for each name where it stands. */
export function evaluateFormula(formula: Formula, field: FieldReading): Reading<number> {
  const quantities = quantitiesIn(formula, field);
  if (!quantities.ok) return quantities;
  const value = valueOf(formula, quantities.value);
  return value.ok ? accept(value.value, field.quantity, formula) : value;
}

function valueOf(node: Formula, quantities: Quantities): Reading<number> {
  const plain = step(node, quantities);
  if (!plain.ok) return plain;
  const unit = quantities.units.get(node);
  const value = unit ? inside(plain.value, unit) : plain.value;
  return Math.abs(value) <= MOST
    ? done(value)
    : refuse(node, "the number here is too large", "Check what is multiplied or divided here.");
}

function step(node: Formula, quantities: Quantities): Reading<number> {
  switch (node.type) {
    case "literal":
      return done(node.literal.value);
    case "name":
      return done(quantities.dimensions.get(node.name)!);
    case "negative": {
      const of = valueOf(node.of, quantities);
      return of.ok ? done(-of.value) : of;
    }
    case "pair": {
      const left = valueOf(node.left, quantities);
      if (!left.ok) return left;
      const right = valueOf(node.right, quantities);
      if (!right.ok) return right;
      const [a, b] = [left.value, right.value];
      if (node.sign === "+") return done(a + b);
      if (node.sign === "-") return done(a - b);
      if (node.sign === "*") return done(a * b);
      return b === 0 ? refuse(node.right, "this divides by 0", "Divide by another number.") : done(a / b);
    }
    case "call": {
      const of: number[] = [];
      for (const argument of node.of) {
        const value = valueOf(argument, quantities);
        if (!value.ok) return value;
        of.push(value.value);
      }
      if (node.name !== "sqrt") return done(Math[node.name](...(of as [number])));
      return of[0]! < 0
        ? refuse(node, "a number below 0 has no square root", "Use abs inside it, or turn the difference round.")
        : done(Math.sqrt(of[0]!));
    }
  }
}
