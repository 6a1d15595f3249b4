import type { OutlinePoint } from "../../geometry/drawn/point.ts";
import type { BodySizes } from "../../lutherie/body-outline.ts";
import type { Cutaway } from "../../lutherie/body-cutaway.ts";
import type { MeasuresByKind, Sources } from "../contract.ts";
import { same } from "../same.ts";

/** A strip let into the edge of the body, from the outside in. */
export interface EdgeLayer {
  readonly name: string;
  /** Square to the edge. */
  readonly thickness: number;
  /** Down the side. */
  readonly height: number;
}

export type CutawayKind = "none" | Cutaway["kind"];

/** The settled numbers of a body. Lengths mm, angles radians; stations are counted from the neck end. */
export interface BodyParams extends BodySizes {
  readonly build: "hollow" | "solid";
  readonly outlineBy: "measures" | "points";
  /** On the treble side, and on the bass side with numbers of its own; the neck's half width serves both. */
  readonly cutaway: CutawayKind;
  readonly bassCutaway: CutawayKind;
  readonly hornAt: number;
  readonly hornOut: number;
  readonly cutDepth: number;
  readonly neckOut: number;
  readonly cutFullness: number;
  readonly tipFall: number;
  readonly tipAngle: number;
  readonly bassHornAt: number;
  readonly bassHornOut: number;
  readonly bassCutDepth: number;
  readonly bassCutFullness: number;
  readonly bassTipFall: number;
  readonly bassTipAngle: number;
  readonly mirrored: boolean;
  readonly outline: readonly OutlinePoint[];
  readonly topThickness: number;
  readonly backThickness: number;
  readonly sideThickness: number;
  readonly depth: number;
  readonly topRadius: number | undefined;
  readonly binding: readonly EdgeLayer[];
  readonly backBinding: readonly EdgeLayer[];
  readonly mouldMargin: number;
  readonly fairness: boolean;
}

export type Instrument = MeasuresByKind["instrument"];

/** The shared numbers; every design has them. */
export function instrumentOf(from: Sources): Instrument {
  const measures = from.get("instrument");
  if (!measures) throw new Error("a body was derived without its instrument");
  return measures;
}

/** Length of the strings along the centre line, before compensation. */
export const centreScale = ({ scale, bassScale }: Instrument): number => (scale + bassScale) / 2;

/** The cutaways that the numbers ask for. */
export const cutawaysOf = (p: BodyParams): { readonly treble?: Cutaway; readonly bass?: Cutaway } => ({
  ...(p.cutaway === "none"
    ? {}
    : {
        treble: {
          kind: p.cutaway,
          hornAt: p.hornAt,
          hornOut: p.hornOut,
          depth: p.cutDepth,
          neckOut: p.neckOut,
          fullness: p.cutFullness,
          tipFall: p.tipFall,
          tipAngle: p.tipAngle,
        },
      }),
  ...(p.bassCutaway === "none"
    ? {}
    : {
        bass: {
          kind: p.bassCutaway,
          hornAt: p.bassHornAt,
          hornOut: p.bassHornOut,
          depth: p.bassCutDepth,
          neckOut: p.neckOut,
          fullness: p.bassCutFullness,
          tipFall: p.bassTipFall,
          tipAngle: p.bassTipAngle,
        },
      }),
});

/** Both halves are alike: neither is cut away, or both in the same way. */
export const halvesAlike = (p: BodyParams): boolean => {
  const { treble, bass } = cutawaysOf(p);
  return same(treble, bass);
};

/** Shorter than this, mm, a straight part is none. */
const NO_FLAT = 1e-6;
const flatOf = (width: number): number => (width < NO_FLAT ? 0 : width);

/** The measures of the outline alone, as the room of body outlines wants them. */
export const sizesOf = (p: BodyParams): BodySizes => ({
  length: p.length,
  upperBout: p.upperBout,
  waist: p.waist,
  lowerBout: p.lowerBout,
  upperBoutAt: p.upperBoutAt,
  waistAt: p.waistAt,
  lowerBoutAt: p.lowerBoutAt,
  neckFlat: flatOf(p.neckFlat),
  tailFlat: flatOf(p.tailFlat),
  shoulderFullness: p.shoulderFullness,
  upperFullness: p.upperFullness,
  waistFullness: p.waistFullness,
  lowerFullness: p.lowerFullness,
  tailFullness: p.tailFullness,
});
