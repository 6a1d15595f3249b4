import type { OutlinePoint } from "../../geometry/drawn/point.ts";
import type { MeasuresByKind, Sources } from "../contract.ts";

/** The settled numbers of a bridge. Lengths mm, angles radians. */
export interface BridgeParams {
  readonly type: "pinned" | "tied" | "floating";
  readonly saddleBy: "strings" | "hand";
  readonly core: "steel" | "nylon" | "fluorocarbon";
  readonly wrap: "phosphor-bronze" | "brass" | "silvered-copper" | "nickel";
  readonly actionTreble: number;
  readonly actionBass: number;
  readonly setbackTreble: number;
  readonly setbackBass: number;
  readonly saddleThickness: number;
  readonly saddleBeyond: number;
  readonly slotDepth: number;
  readonly pinHole: number;
  readonly pinLine: "follow" | "straight";
  readonly pinBehindTreble: number;
  readonly pinBehindBass: number;
  readonly pinSpread: number;
  readonly front: number;
  readonly back: number;
  readonly span: number;
  readonly wing: number;
  readonly mirrored: boolean;
  readonly outline: readonly OutlinePoint[];
  readonly thickness: number;
  readonly topRadius: number | undefined;
  readonly footSpan: number;
  readonly footWidth: number;
  readonly footOpening: number;
  readonly footOpeningHeight: number;
  readonly old: "none" | "rectangle" | "points";
  readonly oldSpan: number;
  readonly oldAlong: number;
  readonly oldFrom12: number;
  readonly oldOutline: readonly OutlinePoint[];
}

export const GEOMETRY = "geometry";

export function instrumentOf(from: Sources): MeasuresByKind["instrument"] {
  const measures = from.get("instrument");
  if (!measures) throw new Error("a bridge was derived without its instrument");
  return measures;
}
