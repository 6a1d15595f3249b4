/** The settled numbers of a neck, lengths in mm and angles in radians, and what it reads of the other parts. */
import { fretOn } from "../../lutherie/fret-positions.ts";
import type { ContourLies } from "../../lutherie/neck-contour.ts";
import { LEAST_EXPONENT, GREATEST_EXPONENT, NECK_SHAPES } from "../../lutherie/neck-section.ts";
import { lineAcross } from "../../lutherie/transverse-line.ts";
import type { MeasuresByKind, Sources } from "../contract.ts";

/** The trade's names of shoulders, as they stand in a file. */
export const SHAPES = {
  v: NECK_SHAPES.V,
  "soft-v": NECK_SHAPES["soft V"],
  c: NECK_SHAPES.C,
  d: NECK_SHAPES.D,
  u: NECK_SHAPES.U,
} as const;
export type ShapeName = keyof typeof SHAPES;

export type Which = "first" | "second";

/** A point taken off a neck with a contour gauge. */
export interface ContourPoint {
  /** From the centre line, above 0 to the treble side. */
  readonly across: number;
  /** Below the underside of the board. */
  readonly down: number;
}

/** How a trace of a contour gauge lies: measured from the neck; anywhere on its paper, or there turned over, bass side for treble. */
export type ContourLay = ContourLies | "over";

/** What is said of the neck at one of the two frets where it is measured. */
type AtFret<W extends Which> = {
  readonly [K in `${W}Fret`]: number;
} & {
  readonly [K in `${W}Depth` | `${W}Fullness` | `${W}TrebleFullness` | `${W}HalfWayWidth` | `${W}Lean`]: number;
} & {
  readonly [K in `${W}Shape`]: ShapeName;
} & {
  readonly [K in `${W}Contour`]: readonly ContourPoint[];
} & {
  readonly [K in `${W}ContourLies`]: ContourLay;
};

export type ShapeNumbers = AtFret<"first"> & AtFret<"second"> & { readonly widthAtNut: number; readonly widthAtJoin: number };

export interface Bar {
  /** From the centre line to the bar's middle, above 0 to the treble side. */
  readonly offset: number;
  readonly endOffset: number;
  readonly width: number;
  readonly depth: number;
  readonly endDepth: number;
  /** From the nut to its beginning, and from its end to the join. */
  readonly start: number;
  readonly stop: number;
}

export interface ChannelNumbers {
  readonly rod: "none" | "head" | "body";
  readonly rodWidth: number;
  readonly rodDepth: number;
  readonly rodStart: number;
  readonly rodLength: number;
  readonly pocketWidth: number;
  readonly pocketLength: number;
  readonly pocketDepth: number;
  readonly bars: readonly Bar[];
}

export interface HeadNumbers {
  readonly headTilt: number;
  readonly headThickness: number;
  readonly headplate: number;
  readonly headLength: number;
  readonly shelf: number;
  readonly bend: number;
  readonly volute: number;
  readonly voluteLength: number;
  readonly scarf: "board" | "head" | "none";
  readonly blankThickness: number;
}

export interface HeelNumbers {
  readonly heelDepth: number;
  readonly heelLength: number;
  readonly heelCapWidth: number;
  readonly heelCapLength: number;
  readonly heelCapFullness: number;
  readonly heelCapThickness: number;
  readonly resetRise: number;
}

export interface JointNumbers {
  readonly joint: "butt" | "tenon" | "dovetail";
  readonly tenonWidth: number;
  readonly tenonLength: number;
  readonly tenonDepth: number;
  readonly flare: number;
  readonly dovetailTaper: number;
  readonly bush: number;
  readonly bit: number;
  readonly bolts: number;
  readonly firstBolt: number;
  readonly boltSpacing: number;
  readonly boltDiameter: number;
  readonly insertDiameter: number;
  readonly insertDepth: number;
  readonly blockThickness: number;
}

export interface HeightNumbers {
  readonly pitch: number;
  readonly saddleHeight: number;
  readonly bridgeThickness: number;
  readonly action: number;
  readonly boardThickness: number;
  readonly moreAtBass: number;
  readonly nutHeight: number;
  readonly setback: number;
  readonly topRadius: number | undefined;
  readonly bodyLength: number;
  readonly flatFor: number;
  readonly topRise: number;
}

export interface CarvingNumbers {
  readonly gaugeFrets: readonly number[];
  readonly carvingSteps: number;
  readonly carvingStep: number;
  readonly facetAngles: readonly number[];
}

export type NeckParams = ShapeNumbers &
  CarvingNumbers &
  ChannelNumbers &
  HeadNumbers &
  HeelNumbers &
  JointNumbers &
  HeightNumbers;

export type Instrument = MeasuresByKind["instrument"];

/** The shared numbers; every design has them. */
export function instrumentOf(from: Sources): Instrument {
  const measures = from.get("instrument");
  if (!measures) throw new Error("a neck was derived without its instrument");
  return measures;
}

/** x on the centre line of a fret, whether the board has it or not. */
export function fretX(instrument: Instrument, fret: number): number {
  const known = instrument.frets[fret];
  return known ? known.fromNut : lineAcross(fretOn(instrument.bass, fret), fretOn(instrument.treble, fret)).x0;
}

/** x on the centre line of the face of the nut that meets the board. */
export const nutFaceX = (from: Sources): number => from.get("fingerboard")?.startX ?? 0;

/** x on the centre line where the head's face begins, behind the nut. */
export const headX = (p: Pick<HeadNumbers, "shelf">, from: Sources): number => nutFaceX(from) - p.shelf;

/** Length of the strings along the centre line, before compensation. */
export const centreScale = ({ scale, bassScale }: Instrument): number => (scale + bassScale) / 2;

/** Thickness of the board: its own, or the neck's number for it where the design has no board. */
export const boardThicknessOf = (p: Pick<HeightNumbers, "boardThickness">, from: Sources): number =>
  from.get("fingerboard")?.thickness ?? p.boardThickness;

/** Width of the neck at x: straight sides through its widths at the nut and at the join. */
export const neckWidth = (
  p: Pick<ShapeNumbers, "widthAtNut" | "widthAtJoin">,
  { joinX }: Pick<Instrument, "joinX">,
  x: number,
): number => p.widthAtNut + ((p.widthAtJoin - p.widthAtNut) * x) / joinX;

export const heldExponent = (exponent: number): number => Math.min(GREATEST_EXPONENT, Math.max(LEAST_EXPONENT, exponent));
