/** The settled numbers of a fingerboard, lengths in mm and angles in radians. */
import type { MeasuresByKind, Sources } from "../contract.ts";

export interface BindingLayer {
  readonly name: string;
  readonly thickness: number;
}

export interface OutlineNumbers {
  readonly widthAtNut: number;
  readonly widthAtJoin: number;
  readonly widthAt12: number;
  readonly widthAtEnd: number;
  readonly marginAtJoin: number;
  readonly length: number;
  readonly overhang: number;
  readonly zeroFretSetback: number;
  readonly end: "square" | "angled" | "curved";
  readonly endAngle: number;
  readonly endRadius: number;
}

export interface SectionNumbers {
  readonly thickness: number;
  readonly radius: number | undefined;
  readonly radiusAtEnd: number | undefined;
}

export interface BindingNumbers {
  /** From the outside in. */
  readonly binding: readonly BindingLayer[];
  readonly bindingThickness: number;
  readonly bindEnd: boolean;
  readonly bindingHeight: number;
}

export interface FretNumbers {
  readonly slots: "through" | "stopped";
  readonly slotStop: number;
  readonly slotWidth: number;
  readonly slotClearance: number;
  readonly crownHeight: number;
  readonly crownWidth: number;
  readonly crownOverhang: number;
  readonly tangDepth: number;
  readonly tangClearance: number;
}

export interface MarkerNumbers {
  readonly markerFrets: readonly number[];
  readonly doubleFrets: readonly number[];
  readonly markerShape: "dot" | "bar" | "diamond";
  readonly markerSize: number;
  readonly markerLength: number;
  readonly markerPlace: "between" | "centre";
  readonly sideFrets: readonly number[];
  readonly sideDoubles: readonly number[];
  readonly sideDiameter: number;
  readonly sideDepth: number;
}

export interface FingerboardParams extends OutlineNumbers, SectionNumbers, BindingNumbers, FretNumbers, MarkerNumbers {}

/** The shared numbers; every design has them. */
export function instrumentOf(from: Sources): MeasuresByKind["instrument"] {
  const measures = from.get("instrument");
  if (!measures) throw new Error("a fingerboard was derived without its instrument");
  return measures;
}

/** Layers of the binding from the outside in: the listed ones, or one of the whole thickness where only that is given. */
export function layersOf(p: Pick<BindingNumbers, "binding" | "bindingThickness">): readonly BindingLayer[] {
  if (p.binding.length > 0) return p.binding;
  return p.bindingThickness > 0 ? [{ name: "binding", thickness: p.bindingThickness }] : [];
}

/** x of the board's end at the nut, on the centre line: behind the zero fret where there is one. */
export const startX = (p: Pick<OutlineNumbers, "zeroFretSetback">, instrument: MeasuresByKind["instrument"]): number =>
  instrument.zeroFret ? -p.zeroFretSetback : 0;

/** x of the board's other end on the centre line. */
export const endX = (p: Pick<OutlineNumbers, "zeroFretSetback" | "length">, instrument: MeasuresByKind["instrument"]): number =>
  startX(p, instrument) + p.length;
