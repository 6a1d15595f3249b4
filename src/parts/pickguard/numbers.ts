/** The settled numbers of a pickguard, lengths in mm and angles in radians. */
import type { OutlinePoint } from "../../geometry/drawn/point.ts";
import { circle, type Path } from "../../geometry/path.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import type { MeasuresByKind, Sources } from "../contract.ts";

export interface GuardShape {
  /** Clear of the rosette, or of the hole where it has none. */
  readonly ringGap: number;
  /** From its edge at the rosette to where it stands out farthest. */
  readonly band: number;
  readonly belly: number;
  /** Of both ends, from the centre line on the tail's side of the hole, round to the treble side. */
  readonly tailAngle: number;
  readonly boardAngle: number;
  readonly end: number;
  readonly corner: number;
}

export interface PickguardParams extends GuardShape {
  readonly outline: readonly OutlinePoint[];
  readonly boardGap: number;
  readonly bridgeGap: number;
  readonly edgeGap: number;
  readonly material: string;
  readonly density: number;
  readonly thickness: number;
  readonly grain: number;
  readonly adhesiveInset: number;
  readonly old: "none" | "points" | "imported";
  readonly oldOutline: readonly OutlinePoint[];
  readonly oldArt: string;
  readonly oldWidth: number | undefined;
  readonly oldX: number;
  readonly oldY: number;
  readonly oldTurn: number;
}

export type Instrument = MeasuresByKind["instrument"];

export function instrumentOf(from: Sources): Instrument {
  const measures = from.get("instrument");
  if (!measures) throw new Error("a pickguard was derived without its instrument");
  return measures;
}

/** What the guard lies about: the middle of the hole and the edge that it keeps from. */
export interface Round {
  readonly middle: Vec;
  readonly edge: Path;
}

/** The soundhole's; without one, a circle where a soundhole usually is. */
export function roundOf(from: Sources): Round {
  const hole = from.get("soundhole");
  if (hole?.rosette) return { middle: vec(hole.middleX, hole.middleY), edge: hole.rosette };
  const { scale, bassScale } = instrumentOf(from);
  const middle = vec(0.39 * (scale + bassScale), 0);
  return { middle, edge: circle(middle, 0.055 * (scale + bassScale)) };
}
