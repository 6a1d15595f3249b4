/** What follows from what was read off an instrument: the scale, the compensation as it is, the board's radius, depths, heights. */
import { measuredScale, radiusFromSagitta, slotThatIsOut, type MeasuredScale } from "../lutherie/measured-scale.ts";
import { keyOfFret, READINGS, type Taken, type Target } from "./readings.ts";

/** A number of a design that the readings give, mm or a count. */
export interface Found extends Target {
  readonly value: number;
  /** "twice nut to fret 12" */
  readonly from: string;
}

/** More than a tape and an eye are out by, mm. */
export const OUT_MM = 0.25;

const MOST_FRETS = 36;

/** The scale that the distances to all measured frets give; undefined where none was measured. */
export function scaleFound(taken: Taken): (MeasuredScale & { readonly out: number | undefined }) | undefined {
  const readings = Array.from({ length: MOST_FRETS }, (_, i) => i + 1).flatMap((fret) => {
    const distance = taken[keyOfFret(fret)];
    return distance !== undefined && distance > 0 ? [{ fret, distance }] : [];
  });
  if (readings.length === 0) return undefined;
  const found = measuredScale(readings);
  return { ...found, out: slotThatIsOut(found, OUT_MM)?.fret };
}

/** How much longer the strings are than the scale, mm: the compensation as it is. */
export function compensationFound(taken: Taken): { readonly treble?: number; readonly bass?: number } {
  const scale = scaleFound(taken)?.scale;
  if (scale === undefined) return {};
  const { nutToSaddleTreble: treble, nutToSaddleBass: bass } = taken;
  return { ...(treble === undefined ? {} : { treble: treble - scale }), ...(bass === undefined ? {} : { bass: bass - scale }) };
}

/** Every number of a design that the readings give, a reading as it stands before one that follows from others. */
export function numbersFound(taken: Taken): readonly Found[] {
  const direct = READINGS.flatMap(({ key, target, label }): Found[] =>
    target && taken[key] !== undefined ? [{ ...target, value: taken[key], from: label.toLowerCase() }] : [],
  );
  const follow: Found[] = [];
  const add = (kind: string, key: string, value: number, from: string): void => {
    const has = [...direct, ...follow].some((one) => one.kind === kind && one.key === key);
    if (!has && Number.isFinite(value) && value > 0) follow.push({ kind, key, value, from });
  };
  const scale = scaleFound(taken);
  if (scale)
    add(
      "instrument",
      "scale",
      scale.scale,
      scale.frets.length > 1 ? `least squares of ${scale.frets.length} frets` : `nut to fret ${scale.frets[0]!.fret}`,
    );
  const { edgeChord, edgeRise, fretHeight, actionTreble, actionBass, stringsOverTop, bridgeThickness } = taken;
  if (edgeChord !== undefined && edgeRise !== undefined && edgeChord > 0 && edgeRise > 0)
    add("fingerboard", "radius", radiusFromSagitta(edgeRise, edgeChord), "the gap under a straightedge");
  if (fretHeight !== undefined) {
    for (const which of ["first", "second"] as const) {
      const over = taken[`${which}DepthOverFret`];
      if (over !== undefined) add("neck", `${which}Depth`, over - fretHeight, "depth over the fret less the fret");
    }
  }
  if (actionTreble !== undefined && actionBass !== undefined)
    add("neck", "moreAtBass", actionBass - actionTreble, "the two actions");
  if (stringsOverTop !== undefined && bridgeThickness !== undefined)
    add("neck", "saddleHeight", stringsOverTop - bridgeThickness, "strings over the top less the bridge");
  return [...direct, ...follow];
}
