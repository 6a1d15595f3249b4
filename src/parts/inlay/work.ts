/** The heavy part of an inlay: its shape, pocket and piece, what is lost, and the ways of the bit. Pure; lengths in mm about the letters' middle. */
import { outlinesArea, type Outline } from "../../geometry/outline.ts";
import { narrowest, type Narrow } from "../../geometry/narrowest.ts";
import type { Region } from "../../geometry/region.ts";
import type { Trouble } from "../../lettering/trouble.ts";
import { clearPocket, type Cleared, type Clearing } from "../../lutherie/inlay-clearing.ts";
import { COUPON_GAPS, fitCoupon, guidedCoupon, type FitCoupon } from "../../lutherie/inlay-coupon.ts";
import { pairFit, thinnestWall, type PairFit } from "../../lutherie/inlay-fit.ts";
import { inlayPair, inlayPairSteps, type InlayPair, type PairCutting } from "../../lutherie/inlay-pair.ts";
import { inlayReport, type InlayReport } from "../../lutherie/inlay-report.ts";
import { strokeLimits, whatKeeps, type KeepingBoth, type StrokeLimits } from "../../lutherie/inlay-strokes.ts";
import {
  guidedPair,
  type GuidedPair,
  type GuidedRefusal,
  type InlayTemplate,
  type LeastCorners,
} from "../../lutherie/inlay-template.ts";
import type { Work } from "../contract.ts";
import { leastBy } from "../finding.ts";
import type { InlayCrossing } from "./crossings.ts";
import type { InlayQuestion } from "./question.ts";
import { drawShape, type DrawnShape } from "./shape.ts";

/** What is known of pocket and piece once they are. */
export interface InlayCut {
  readonly common: readonly Outline[];
  readonly pocket: readonly Outline[];
  readonly pieces: readonly Outline[];
  readonly pocketArea: number;
  readonly pieceArea: number;
  readonly followed: boolean;
  /** The gap that they are made for: with one template for both, what its bushes make it. */
  readonly gap: number;
  readonly templates: readonly InlayTemplate[];
}

export interface InlayAnswer {
  /** Why there is no shape, or no pair. */
  readonly trouble?: Trouble;
  readonly refused?: GuidedRefusal;
  /** Cut along templates: what bushes and bits together round corners to. */
  readonly corners?: LeastCorners;
  readonly outlines: readonly Outline[];
  readonly area: number;
  readonly capHeight?: number;
  readonly crossings: readonly InlayCrossing[];
  readonly cut?: InlayCut;
  readonly fit?: PairFit;
  readonly report?: InlayReport;
  readonly limits?: StrokeLimits;
  readonly keeps?: KeepingBoth;
  /** The thinnest wall of wood. */
  readonly wall?: Narrow;
  /** Cut along templates: the thinnest place of what stays of them. */
  readonly templateNeck?: Narrow;
  readonly cleared?: Cleared;
  /** The passes are so near to each other, or the pocket so large, that they are not worked out. */
  readonly wayTooLong?: true;
  readonly coupon?: FitCoupon;
  /** The coupon along templates. */
  readonly guidedCoupon?: Pick<GuidedPair, "gap" | "templates">;
}

/** How far off a gap is looked for, mm. */
const REACH = 1;

const NOTHING: InlayAnswer = { outlines: [], area: 0, crossings: [] };

export const inlayWork: Work<InlayQuestion, InlayAnswer> = {
  name: "inlay",
  steps: (question) => {
    const shape = once(() => drawShape(question.letters, question.figures));
    const pairing = inParts(() => pairOf(valueOf(shape()).region, question));
    const pair = (): Paired | undefined => (shape().ok ? pairing.whole() : undefined);
    const drawn = (): InlayAnswer => {
      const found = shape();
      if (!found.ok) return { ...NOTHING, trouble: found.error };
      const { outlines, crossings, capHeight } = found.value;
      return { outlines, area: outlinesArea(outlines), crossings, ...(capHeight === undefined ? {} : { capHeight }) };
    };
    const cut = once((): InlayAnswer => {
      const found = pair();
      if (!found) return drawn();
      if (found.ok)
        return {
          ...drawn(),
          ...(found.corners ? { corners: found.corners } : {}),
          cut: cutOf(found.pair, found.gap, found.templates),
        };
      return { ...drawn(), ...("refused" in found ? { refused: found.refused } : { trouble: found.trouble }) };
    });
    const more = (before: () => InlayAnswer, look: (found: Cut, region: Region) => Partial<InlayAnswer>) =>
      once((): InlayAnswer => {
        const found = pair();
        return found?.ok ? { ...before(), ...look(found, valueOf(shape()).region) } : before();
      });
    const reported = more(cut, (found, region) => ({ report: inlayReport(region, found.pair) }));
    const fitted = more(reported, (found) => ({ ...fitOf(found.pair), ...thinTemplate(found.templates) }));
    const advised = more(fitted, (found, region) => adviceOn(region, found.cutting));
    const coarse = (): InlayAnswer => {
      const found = shape();
      if (!found.ok || question.guided || gapTrouble(question.cutting)) return cut();
      const { gap } = question.cutting;
      return { ...drawn(), cut: cutOf(inlayPair(found.value.region, question.cutting, "coarse"), gap, []) };
    };
    const all = (): InlayAnswer => {
      const answer = advised();
      const pocket = answer.cut?.pocket;
      return {
        ...answer,
        ...(pocket && question.clearing ? clearing(pocket, question.clearing) : {}),
        ...(question.coupon ? couponOf(question) : {}),
      };
    };
    const cutOn = (): InlayAnswer | undefined => (!shape().ok || pairing.next() ? cut() : undefined);
    return [coarse, cutOn, reported, fitted, ...(question.clearing || question.coupon ? [advised] : []), all];
  },
};

interface Cut {
  readonly ok: true;
  readonly pair: InlayPair;
  readonly gap: number;
  readonly templates: GuidedPair["templates"];
  readonly corners?: LeastCorners;
  /** As if both were cut by round cutters alone. */
  readonly cutting: PairCutting;
}

type Paired = Cut | { readonly ok: false; readonly refused: GuidedRefusal } | { readonly ok: false; readonly trouble: Trouble };

/** Pieces that are far from each other one after the other. */
function* pairOf(region: Region, { cutting, guided }: InlayQuestion): Generator<number, Paired> {
  if (guided) {
    const found = guidedPair(region, guided);
    if (!found.ok) return { ok: false, refused: found };
    const { corners, gap } = found;
    const as = { ...cutting, pocketRadius: corners.outward, pieceRadius: corners.inward, gap, pieces: "joined" } as const;
    return { ...found, cutting: as };
  }
  const trouble = gapTrouble(cutting);
  if (trouble) return { ok: false, trouble };
  return { ok: true, pair: yield* inlayPairSteps(region, cutting, "fine"), gap: cutting.gap, templates: [], cutting };
}

function gapTrouble({ pocketRadius, pieceRadius, gap, share }: PairCutting): Trouble | undefined {
  const fits = (pocketRadius === 0 || share * gap <= pocketRadius) && (pieceRadius === 0 || (1 - share) * gap <= pieceRadius);
  return fits
    ? undefined
    : {
        kind: "size",
        message: "The glue gap is wider than the bit is round",
        mend: "Make the gap smaller, or take a larger bit.",
      };
}

function cutOf({ curves, followed }: InlayPair, gap: number, templates: readonly InlayTemplate[]): InlayCut {
  const { common, pocket, piece } = curves;
  return {
    common,
    pocket,
    pieces: piece,
    pocketArea: outlinesArea(pocket),
    pieceArea: outlinesArea(piece),
    followed,
    gap,
    templates,
  };
}

/** How the piece fits, and what wood stays between the pockets. */
function fitOf({ curves: { pocket, piece } }: InlayPair): Partial<InlayAnswer> {
  const fit = pairFit(pocket, piece, REACH);
  const wall = thinnestWall(pocket);
  return { ...(wall ? { wall } : {}), ...(fit ? { fit } : {}) };
}

/** Of an outside template what stays are its islands, of an inside one what is round and between its windows. */
function thinTemplate(templates: readonly InlayTemplate[]): Pick<InlayAnswer, "templateNeck"> {
  const necks = templates.flatMap(({ kind, edge }) => narrowest(edge, kind === "outside" ? "inside" : "outside") ?? []);
  const least = leastBy(necks, ({ width }) => width);
  return least ? { templateNeck: least } : {};
}

/** What would keep strokes and counters. */
function adviceOn(region: Region, cutting: PairCutting): Partial<InlayAnswer> {
  const limits = strokeLimits(region, cutting.pieces);
  return limits ? { limits, keeps: whatKeeps(limits, cutting) } : {};
}

function couponOf({ cutting, guided }: InlayQuestion): Pick<InlayAnswer, "coupon" | "guidedCoupon"> {
  if (guided) {
    const found = guidedCoupon(guided);
    return found ? { guidedCoupon: { gap: found.gap, templates: found.templates } } : {};
  }
  const { pocketRadius, pieceRadius } = cutting;
  const most = pieceRadius === 0 ? Infinity : pieceRadius;
  return {
    coupon: fitCoupon(
      pocketRadius,
      pieceRadius,
      COUPON_GAPS.filter((gap) => gap <= most),
    ),
  };
}

/** The longest way of a bit that is worked out, mm: at 10 mm a second nearly three hours of cutting. */
const LONGEST_WAY = 100_000;

function clearing(pocket: readonly Outline[], asked: Clearing): Pick<InlayAnswer, "cleared" | "wayTooLong"> {
  const step = Math.min(asked.cutter.step, asked.first?.step ?? Infinity);
  return outlinesArea(pocket) / step > LONGEST_WAY ? { wayTooLong: true } : { cleared: clearPocket(pocket, asked) };
}

function valueOf(shape: ReturnType<typeof drawShape>): DrawnShape {
  if (!shape.ok) throw new Error("an inlay without a shape is cut");
  return shape.value;
}

/** Something made part by part: `next` makes the next part and gives the whole once it is done, `whole` makes all that is left. */
function inParts<T>(make: () => Generator<unknown, T>): { readonly next: () => T | undefined; readonly whole: () => T } {
  const making = once(make);
  let done: { readonly value: T } | undefined;
  const next = (): T | undefined => {
    if (!done) {
      const part = making().next();
      if (part.done) done = { value: part.value };
    }
    return done?.value;
  };
  const whole = (): T => {
    for (;;) {
      next();
      if (done) return done.value;
    }
  };
  return { next, whole };
}

function once<T>(work: () => T): () => T {
  let done: { readonly value: T } | undefined;
  return () => (done ??= { value: work() }).value;
}
