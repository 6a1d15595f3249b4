/** A length or an angle that belongs to no table: said as typed, its unit written behind it. */
import type { Problem } from "../../parts/derived.ts";
import { readQuantity } from "../../units/read.ts";
import { withUnits } from "../../units/with-units.ts";
import type { Notation, Quantity } from "../notation.ts";
import { TextField } from "./text-field.tsx";

interface MeasureFieldProps {
  readonly label: string;
  readonly value: string;
  readonly quantity: Extract<Quantity, "length" | "angle" | "number">;
  readonly notation: Notation;
  /** Only above 0. */
  readonly positive?: boolean;
  readonly placeholder?: string;
  /** Its value in mm, radians or plain, and the text with its unit. */
  readonly onSay: (value: number, text: string) => void;
}

export function MeasureField({ label, value, quantity, notation, positive = false, placeholder, onSay }: MeasureFieldProps) {
  function commit(text: string): Problem | undefined {
    const wrong = (message: string, mend: string): Problem => ({ path: label, label, message, mend });
    if (text.trim() === "") return undefined;
    const field = { quantity, bareUnit: notation.unit };
    const read = readQuantity(text, field);
    if (!read.ok) return wrong(read.error.message, read.error.mend);
    if (positive && !(read.value.value > 0)) return wrong("it is not above 0", "Type what you have measured.");
    const spelled = withUnits(text, field);
    onSay(read.value.value, spelled.ok ? spelled.value.trim() : text.trim());
    return undefined;
  }
  return (
    <label className="measure-field">
      <span>{label}</span>
      <TextField label={label} value={value} numeric onCommit={commit} {...(placeholder === undefined ? {} : { placeholder })} />
    </label>
  );
}
