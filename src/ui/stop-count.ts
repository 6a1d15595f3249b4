import { countBySeverity, findingsOf } from "../checks/findings.ts";
import type { Design } from "../document/design.ts";
import type { Derived } from "../parts/derived.ts";

/** How many things stop the work: findings, and numbers that do not settle. */
export const stopCount = (design: Design, derived: Derived): number =>
  countBySeverity(findingsOf(design, derived)).stop + derived.problems.length;

export const stopsSaid = (count: number): string => (count === 1 ? "1 thing does not fit" : `${count} things do not fit`);
