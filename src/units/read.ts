/** The one door for what is typed into a field, on screen, in a file or on the command line. */
import { evaluateFormula } from "./evaluate.ts";
import { isFormula, namesIn, parseFormula } from "./formula.ts";
import { readPlain } from "./plain.ts";
import type { FieldReading } from "./quantity.ts";
import { done, type Reading } from "./result.ts";

export type { NamedQuantity } from "./quantity.ts";

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
  const value = evaluateFormula(formula.value, field);
  return value.ok ? done({ value: value.value, source: "formula", names: namesIn(formula.value) }) : value;
}
