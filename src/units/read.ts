/** The one door for what is typed into a field, on screen, in a file or on the command line. */
import { evaluateFormula, resultFor, type Around, type Resolve } from "./evaluate.ts";
import { isFormula, namesIn, parseFormula, type Formula } from "./formula.ts";
import { readPlain } from "./plain.ts";
import { accept, type Wanted } from "./quantity.ts";
import { done, type Reading } from "./result.ts";

export type { NamedQuantity } from "./quantity.ts";

/** A field, and where its formulas find the dimensions that they name. Without `resolve` a formula may not name any. */
export interface FieldReading extends Wanted {
  readonly resolve?: Resolve;
}

/** A read field: its value in mm, radians, or as a plain number. */
export type ReadQuantity =
  | { readonly value: number; readonly source: "plain" }
  | { readonly value: number; readonly source: "formula"; readonly names: readonly string[] };

/**
 * Reads the text of a field: one measure in any spelling that makers use, or a formula that begins with `=`. The value is finite, and
 * of a size that can be meant; a sign is allowed, and whether the value suits the field is for the field to say.
 */
export function readQuantity(text: string, field: FieldReading): Reading<ReadQuantity> {
  if (!isFormula(text)) {
    const plain = readPlain(text, field);
    return plain.ok ? done({ value: plain.value, source: "plain" }) : plain;
  }
  const formula = parseFormula(text);
  if (!formula.ok) return formula;
  const value = calculate(formula.value, field);
  return value.ok ? done({ value: value.value, source: "formula", names: namesIn(formula.value) }) : value;
}

/** The value of a parsed formula in a field. `leans` is told of each part that took the design's unit. */
export function calculate(formula: Formula, field: FieldReading, leans: (part: Formula) => void = () => {}): Reading<number> {
  const around: Around = { bareUnit: field.bareUnit, resolve: field.resolve ?? nothingKnown, leans };
  const evaluated = evaluateFormula(formula, around);
  if (!evaluated.ok) return evaluated;
  const result = resultFor(evaluated.value, formula, field.quantity, around);
  return result.ok ? accept(result.value, field.quantity, formula) : result;
}

const nothingKnown: Resolve = (name) => ({
  ok: false,
  error: { message: `there is no dimension named ${name} here`, mend: "Write numbers alone." },
});
