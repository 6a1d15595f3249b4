import type { Finding, Severity } from "../parts/contract.ts";

/** How many findings there are of each severity. */
export function countBySeverity(findings: readonly Finding[]): Readonly<Record<Severity, number>> {
  const counts: Record<Severity, number> = { stop: 0, look: 0, fine: 0 };
  for (const { severity } of findings) counts[severity] += 1;
  return counts;
}
