import type { Finding, Severity } from "../parts/contract.ts";
import type { Derived } from "../parts/derived.ts";

/** A finding with the part it stands on. */
export interface PlacedFinding extends Finding {
  readonly partId: string;
  readonly partLabel: string;
}

const GRAVITY: Readonly<Record<Severity, number>> = { stop: 0, look: 1, fine: 2 };

/** The outcome of every check of every part, the gravest first, else in the order of the parts. */
export function findingsOf(derived: Derived): readonly PlacedFinding[] {
  return [derived.instrument, ...derived.parts]
    .flatMap((part) => part.findings().map((finding) => ({ ...finding, partId: part.id, partLabel: part.label })))
    .toSorted((a, b) => GRAVITY[a.severity] - GRAVITY[b.severity]);
}

/** How many findings there are of each severity. */
export function countBySeverity(findings: readonly Finding[]): Readonly<Record<Severity, number>> {
  const counts: Record<Severity, number> = { stop: 0, look: 0, fine: 0 };
  for (const { severity } of findings) counts[severity] += 1;
  return counts;
}

/** A sentence with its numbers put in: `format` writes a number of the finding's quantity (mm, radians). */
export function sentenceOf(
  finding: Finding,
  format: (value: number, quantity: NonNullable<Finding["quantity"]>) => string,
): string {
  return finding.says.replace(/\{(measured|needed)\}/g, (_, key: "measured" | "needed") => {
    const value = finding[key];
    return value === undefined ? "?" : format(value, finding.quantity ?? "length");
  });
}
