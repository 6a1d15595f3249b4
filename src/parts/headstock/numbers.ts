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

/** Width of the neck where the head begins: the board's sides run on past the nut. */
export function widthBehindNut(from: Sources): number {
  const board = from.get("fingerboard");
  const instrument = instrumentOf(from);
  const atNut = from.get("nut")?.width ?? board?.boundWidthAtNut ?? instrument.nutWidth;
  const taper = board && instrument.joinX > 0 ? (board.widthAtJoin - board.widthAtNut) / instrument.joinX : 0;
  return Math.max(5, atNut + taper * backX(from));
}
