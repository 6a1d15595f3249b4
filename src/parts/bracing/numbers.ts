import { vec, type Vec } from "../../geometry/vec.ts";
import type { MeasuresByKind, Sources } from "../contract.ts";

/** A straight brace between two places on a plate: from the join along the centre line, and from the centre line, above 0 to the treble. */
export interface BraceRecord {
  readonly name: string;
  readonly fromAlong: number;
  readonly fromAcross: number;
  readonly toAlong: number;
  readonly toAcross: number;
  readonly width: number;
  readonly height: number;
  /** At its ends, and how far in from each end it rises to its height. */
  readonly endHeight: number;
  readonly scoop: number;
}

/** A thin flat piece glued inside a plate. */
export interface PatchRecord {
  readonly name: string;
  /** Of its middle. */
  readonly along: number;
  readonly across: number;
  readonly length: number;
  readonly width: number;
  readonly thickness: number;
}

/** The settled numbers of the bracing. Lengths mm, angles radians. */
export interface BracingParams {
  readonly pattern: "cross" | "fan" | "ladder" | "none";
  readonly crossAngle: number;
  readonly behindHole: number;
  readonly fans: number;
  readonly top: readonly BraceRecord[];
  readonly bridgePlate: boolean;
  readonly plateFront: number;
  readonly plateBack: number;
  readonly plateSpanFront: number;
  readonly plateSpanBack: number;
  readonly plateThickness: number;
  readonly patches: readonly PatchRecord[];
  readonly back: readonly BraceRecord[];
  readonly seamStrip: number;
}

export type Body = MeasuresByKind["body"];

export function instrumentOf(from: Sources): MeasuresByKind["instrument"] {
  const measures = from.get("instrument");
  if (!measures) throw new Error("a bracing was derived without its instrument");
  return measures;
}

/** A place given from the join and from the centre line, on the instrument. */
export const placeOn = (from: Sources, along: number, across: number): Vec => {
  const { joinX, side } = instrumentOf(from);
  return vec(joinX + along, side * across);
};
