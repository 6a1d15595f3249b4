/** Findings as checks give them, made in one way by every part. */
import type { Vec } from "../geometry/vec.ts";
import type { Finding, Outcome, Severity } from "./contract.ts";

export const PRACTICE = "common practice, no source";
export const GEOMETRY = "geometry";

/** Numbers that agree within this, mm, are the same. */
export const SAME = 0.001;

/** A finding about a length of which at least `needed` must be there. `stop` says from what on it is more than a matter to look at. */
export function atLeast(given: {
  readonly id: string;
  readonly measured: number;
  readonly needed: number;
  /** Below this it is a stop; by default only what is needed itself decides, and all below it is to be looked at. */
  readonly stopBelow?: number;
  readonly fine: string;
  readonly short: string;
  readonly mend: string;
  readonly basis: string;
  readonly at?: Vec | undefined;
  readonly shape?: string | undefined;
}): Finding {
  const { id, measured, needed, basis } = given;
  const severity: Severity =
    measured >= needed - 1e-9 ? "fine" : measured < (given.stopBelow ?? -Infinity) - 1e-9 ? "stop" : "look";
  return {
    id,
    severity,
    says: severity === "fine" ? given.fine : given.short,
    measured,
    needed,
    bound: "least",
    quantity: "length",
    basis,
    mend: severity === "fine" ? "" : given.mend,
    ...(given.at ? { at: given.at } : {}),
    ...(given.shape === undefined ? {} : { shape: given.shape }),
  };
}

/** All is well. */
export const fine = (id: string, says: string, basis = GEOMETRY, shape?: string): Outcome => ({
  id,
  severity: "fine",
  says,
  basis,
  mend: "",
  ...(shape === undefined ? {} : { shape }),
});

/** The entry with the least value; undefined for none. */
export const leastBy = <T>(list: readonly T[], value: (entry: T) => number): T | undefined =>
  list.reduce<T | undefined>((best, entry) => (best === undefined || value(entry) < value(best) ? entry : best), undefined);
