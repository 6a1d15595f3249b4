/** Makes a text independent of the design's unit, for when that changes or the text moves to another design. */
import { isFormula, parseFormula, type Formula } from "./formula.ts";
import { readPlain } from "./plain.ts";
import { quantitiesIn } from "./quantities.ts";
import type { FieldReading } from "./quantity.ts";
import { done, type Reading } from "./result.ts";

/**
 * The text with the design's unit written behind every number that leans on it: `1 11/16` becomes `1 11/16 in`, and
 * `= nutWidth - 2 * 0.095` becomes `= nutWidth - 2 * 0.095 in`. Its value stays, whatever `bareUnit` it is read with after. Text in
 * which nothing leans comes back as it is; text that cannot be read is refused as `readQuantity` refuses it. Of the dimensions that a
 * formula names only the quantities matter, not the values.
 */
export function withUnits(text: string, field: FieldReading): Reading<string> {
  return isFormula(text) ? formulaWithUnits(text, field) : plainWithUnits(text, field);
}

function plainWithUnits(text: string, field: FieldReading): Reading<string> {
  const read = readPlain(text, field);
  if (!read.ok) return read;
  if (field.quantity !== "length") return done(text);
  // A measure that has its unit does not read with a second one, so what reads has none.
  const spelled = `${text.trim()} ${field.bareUnit}`;
  return done(readPlain(spelled, field).ok ? spelled : text);
}

function formulaWithUnits(text: string, field: FieldReading): Reading<string> {
  const formula = parseFormula(text);
  if (!formula.ok) return formula;
  const quantities = quantitiesIn(formula.value, field);
  if (!quantities.ok) return quantities;

  const leaning = [...quantities.value.units].filter(([, unit]) => unit.measures === "length").map(([part]) => part);
  const insertions = leaning.flatMap((part) => insertionsIn(part, field.bareUnit)).toSorted((a, b) => b.at - a.at);
  return done(insertions.reduce((spelled, { at, words }) => spelled.slice(0, at) + words + spelled.slice(at), text));
}

interface Insertion {
  readonly at: number;
  readonly words: string;
}

/** Where a part that is a bare number takes its unit: at one factor of a product, and at every term of a sum. */
function insertionsIn(part: Formula, unit: string): readonly Insertion[] {
  switch (part.type) {
    case "literal":
      return [{ at: part.literal.at + part.literal.length, words: ` ${unit}` }];
    case "negative":
      return insertionsIn(part.of, unit);
    case "pair":
      if (part.sign === "*") return insertionsIn(part.right, unit);
      if (part.sign === "/") return insertionsIn(part.left, unit);
      return [...insertionsIn(part.left, unit), ...insertionsIn(part.right, unit)];
    case "call":
      if (part.name === "sqrt") return [{ at: part.at + part.length, words: ` * 1 ${unit}` }];
      return part.of.flatMap((argument) => insertionsIn(argument, unit));
    case "name":
      throw new Error("a name never stands for a bare number");
  }
}
