import type { Vec } from "../../geometry/vec.ts";
import type { Check, Finding, Severity } from "../contract.ts";
import type { NeckMeasures } from "./measure.ts";
import type { NeckModel } from "./model.ts";
import { fretX, type NeckParams } from "./numbers.ts";

export type NeckCheck = Check<NeckParams, NeckMeasures>;
export type NeckSubject = Parameters<NeckCheck["run"]>[0];

export const GEOMETRY = "geometry";
/** Numbers that agree within this, mm, are the same. */
export const SAME = 0.001;

/** A finding about a length of which at least `needed` must be there; below `stopBelow` it is a stop. */
export function atLeast(given: {
  readonly id: string;
  readonly measured: number;
  readonly needed: number;
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
    quantity: "length",
    basis,
    mend: severity === "fine" ? "" : given.mend,
    ...(given.at ? { at: given.at } : {}),
    ...(given.shape === undefined ? {} : { shape: given.shape }),
  };
}

export const fine = (id: string, says: string, basis = GEOMETRY, shape?: string): Finding => ({
  id,
  severity: "fine",
  says,
  basis,
  mend: "",
  ...(shape === undefined ? {} : { shape }),
});

/** A place along the neck in words: "at fret 3", "between frets 3 and 4". Within 1 mm of a fret it is at it. */
export function whereIs(model: NeckModel, x: number): string {
  const NEAR = 1;
  if (x < model.headX - NEAR) return "in the head, behind the nut";
  if (Math.abs(x - model.nutX) <= NEAR) return "at the nut";
  if (x < model.nutX) return "under the nut";
  const { instrument, joinX } = model;
  let before = 0;
  for (let fret = 1; fret <= instrument.joinFret; fret++) {
    const at = fretX(instrument, fret);
    if (Math.abs(x - at) <= NEAR) return fret === instrument.joinFret ? `at the join, fret ${fret}` : `at fret ${fret}`;
    if (at < x) before = fret;
  }
  if (x > joinX) return "beyond the join";
  return before === 0 ? "between the nut and fret 1" : `between frets ${before} and ${before + 1}`;
}
