import type { OutlinePoint } from "../../geometry/drawn/point.ts";
import type { MeasuresByKind, Sources } from "../contract.ts";

export type HeadShape = "straight" | "waisted" | "crowned" | "one-sided";

/** A tuner moved from its place, counted by its string. */
export interface Nudge {
  readonly string: number;
  readonly along: number;
  readonly across: number;
}

/** The settled numbers of a headstock. Lengths mm, angles radians. */
export interface HeadstockParams {
  readonly start: HeadShape;
  readonly length: number;
  readonly widthAtNut: number;
  readonly widthAtFirst: number;
  readonly widthAtTop: number;
  readonly mirrored: boolean;
  readonly outline: readonly OutlinePoint[];
  readonly thickness: number;
  readonly tilt: number;
  readonly blankThickness: number;
  readonly faceBelowBoard: number;
  readonly plateOverhang: number;
  readonly rows: "two" | "one" | "slotted";
  readonly trebleTuners: number;
  readonly first: number;
  readonly pitch: number;
  readonly fromEdge: number;
  readonly nudges: readonly Nudge[];
  readonly hole: number;
  readonly ferrule: number;
  readonly post: number;
  readonly stringHeight: number;
  readonly wound: "inside" | "outside";
  readonly footprintLength: number;
  readonly footprintWidth: number;
  readonly slotWidth: number;
  readonly rodPocket: boolean;
  readonly pocketWidth: number;
  readonly pocketLength: number;
  readonly pocketDepth: number;
  readonly coverMargin: number;
}

export const GEOMETRY = "geometry";

export function instrumentOf(from: Sources): MeasuresByKind["instrument"] {
  const measures = from.get("instrument");
  if (!measures) throw new Error("a headstock was derived without its instrument");
  return measures;
}

/** x of the nut's back, where the head begins. */
export const backX = (from: Sources): number => from.get("nut")?.backX ?? from.get("neck")?.headX ?? -5.5;

/** Whether the tilted head is glued on, as far as the neck says. */
export const isScarfed = (from: Sources): boolean => {
  const neck = from.get("neck");
  return neck === undefined || neck.blankThickness !== undefined;
};

/** How far x rises with y along the nut's back: 0 for a nut square to the centre line. */
export function nutSlope(from: Sources): number {
  return instrumentOf(from).side * Math.tan(from.get("nut")?.slantRad ?? 0) + 0;
}

/** Width of the neck where the head begins: the board's sides run on past the nut. */
export function widthBehindNut(from: Sources): number {
  const board = from.get("fingerboard");
  const instrument = instrumentOf(from);
  const atNut = from.get("nut")?.width ?? board?.boundWidthAtNut ?? instrument.nutWidth;
  const taper = board && instrument.joinX > 0 ? (board.widthAtJoin - board.widthAtNut) / instrument.joinX : 0;
  return Math.max(5, atNut + taper * backX(from));
}

/**
 * How far from the nut's back, along the face, the neck's bend and volute reach behind. The back's place x is carried to the face square to
 * it: (headX - x) / cos t + h tan t from where the face leaves the glue plane. Undefined without a neck whose head is tilted.
 */
export function bendBehind(from: Sources): number | undefined {
  const neck = from.get("neck");
  if (!neck || neck.tiltRad <= 0) return undefined;
  const { headX, headFlatX, tiltRad, headWood } = neck;
  return Math.max(0, (headX - headFlatX) / Math.cos(tiltRad) + headWood * Math.tan(tiltRad));
}
