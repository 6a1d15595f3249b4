import type { Finding, Severity } from "../parts/contract.ts";
import type { Derived, DesignNumbers } from "../parts/derived.ts";
import { templateFindings } from "../templates/findings.ts";
import { bridgeCentreFindings } from "./bridge-centre.ts";
import { inlaysApartFindings } from "./inlays-apart.ts";
import { offcutFindings } from "./offcut.ts";
import type { PlacedFinding } from "./placed-finding.ts";
import { seasonFindings } from "./seasons.ts";
import { partName } from "../parts/part-name.ts";

export type { PlacedFinding } from "./placed-finding.ts";

const GRAVITY: Readonly<Record<Severity, number>> = { stop: 0, look: 1, fine: 2 };

/** The outcome of every check of every part and across them, each once, the gravest first, else in the order of the parts. */
export const findingsOf = (design: DesignNumbers, derived: Derived): readonly PlacedFinding[] => sortedOf(design, derived).once;

/** Those that stand on one part, also what stands on another and concerns it: what its badge counts and its list shows. */
export const findingsOn = (design: DesignNumbers, derived: Derived, partId: string): readonly PlacedFinding[] =>
  sortedOf(design, derived).all.filter((finding) => finding.partId === partId);

interface Sorted {
  readonly design: DesignNumbers;
  readonly all: readonly PlacedFinding[];
  readonly once: readonly PlacedFinding[];
}

/** Several places of the screen ask for the same list. */
const kept = new WeakMap<Derived, Sorted>();

function sortedOf(design: DesignNumbers, derived: Derived): Sorted {
  const last = kept.get(derived);
  if (last?.design === design) return last;
  const parts = [derived.instrument, ...derived.parts];
  const rank = new Map(parts.map(({ id }, i) => [id, i]));
  const all: readonly PlacedFinding[] = [
    ...parts.flatMap((part) => part.findings().map((finding) => ({ ...finding, partId: part.id, partLabel: partName(part) }))),
    ...bridgeCentreFindings(design, derived),
    ...inlaysApartFindings(design, derived),
    ...templateFindings(design, derived),
    ...seasonFindings(design, derived),
    ...offcutFindings(design, derived),
  ].toSorted((a, b) => GRAVITY[a.severity] - GRAVITY[b.severity] || (rank.get(a.partId) ?? 0) - (rank.get(b.partId) ?? 0));
  const sorted = { design, all, once: all.filter(({ again }) => !again) };
  kept.set(derived, sorted);
  return sorted;
}

/** The limit that a sentence leaves unsaid: "At least 3 mm of wood". Nothing is said of nought. */
export function limitOf(
  finding: Finding,
  format: (value: number, quantity: NonNullable<Finding["quantity"]>) => string,
): string | undefined {
  const { needed, quantity = "length", says } = finding;
  if (needed === undefined || needed === 0 || says.includes("{needed}")) return undefined;
  const [from, to] = [needed, finding.upTo].map((value) => value !== undefined && format(value, quantity));
  const said = finding.bound === "between" ? `Between ${from} and ${to}` : `${BOUND_WORD[finding.bound]} ${from}`;
  return said + (MATERIAL.exec(says)?.[1] ?? "");
}

const BOUND_WORD = { least: "At least", most: "At most", same: "Needs" } as const;

/** What was measured of: "{measured} of the bridge plate is left". */
const MATERIAL = /\{measured\}( of [a-z ]+?)(?= (?:is|rests|outside|under|between)\b)/;

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
