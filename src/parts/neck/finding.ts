import type { Check } from "../contract.ts";
import type { NeckMeasures } from "./measure.ts";
import type { NeckModel } from "./model.ts";
import { fretX, type NeckParams } from "./numbers.ts";

export type NeckCheck = Check<NeckParams, NeckMeasures>;
export type NeckSubject = Parameters<NeckCheck["run"]>[0];

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

export const atFret = (fret: number): string => (fret === 0 ? "at the nut" : `at fret ${fret}`);
