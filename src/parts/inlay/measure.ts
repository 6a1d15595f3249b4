/**
 * What is known of an inlay: its sizes, how it fits, what is lost, what it comes near to. Places are those of its own drawing, about the middle of the
 * letters with their line along x.
 */
import { pathsBounds } from "../../geometry/measure.ts";
import { regionArea } from "../../geometry/region.ts";
import { lerp, type Vec } from "../../geometry/vec.ts";
import type { GuidedRefusal, LeastCorners } from "../../lutherie/inlay-template.ts";
import type { Answered, Sources } from "../contract.ts";
import type { InlayCrossing } from "./crossings.ts";
import { hostIdOf, hostOf } from "./host.ts";
import { allPaths } from "./layout.ts";
import { marginsOf, type Margins } from "./margins.ts";
import { faceIdOf, pieceRadius, pocketRadius, type HostKind, type InlayParams } from "./numbers.ts";
import { placeOn } from "./place.ts";
import { questionOf } from "./question.ts";
import { inlayWork, type InlayAnswer } from "./work.ts";

/** A place where what is cut differs from what was drawn. */
export interface InlaySpot {
  /** `lost`: a bit cannot get in; `added`: the piece's bit leaves material. */
  readonly kind: "lost" | "added";
  readonly at: Vec;
  /** How far it reaches from where the bit turns. */
  readonly depth: number;
  readonly area: number;
  /** Counted from 1. */
  readonly piece: number;
}

/** What happens to pieces and counters, in words, and how often. */
export interface InlayChange {
  readonly kind: "vanished" | "broken" | "joined" | "filled" | "pierced" | "opened";
  /** Counted from 1. */
  readonly piece: number;
  readonly at?: Vec;
}

export interface InlayMeasures {
  /** `reading`: its face is still being read; `waiting`: nothing is worked out yet; the others as of an answer. */
  readonly state: "reading" | "waiting" | "stale" | "coarse" | "final";
  /** Why there are no letters, no shape or no pair. */
  readonly trouble?: { readonly message: string; readonly mend: string };
  readonly refused?: GuidedRefusal;
  /** Cut along templates: the radii that bushes and bits together round corners to. */
  readonly corners?: LeastCorners;
  /** Why it could not be placed as asked. */
  readonly misplaced?: string;
  readonly on: HostKind;
  /** Id of the part that it is let into; absent for the first of that kind. */
  readonly onPart?: string;
  /** Whether the design has what it is to be let into. */
  readonly hasHost: boolean;
  readonly hostThickness?: number;
  readonly depth: number;
  readonly depthLeft?: number;
  /** Of the letters, and how they are turned, in the frame of the part that they lie on. */
  readonly middle: Vec;
  readonly turnRad: number;
  /** Along and across the line of letters. */
  readonly width: number;
  readonly height: number;
  readonly capHeight?: number;
  readonly pieceCount: number;
  /** A point on the edge of the first pocket. */
  readonly pocketAt?: Vec;
  /** Really cut by each bit, 0 for a knife. */
  readonly pocketCutter: number;
  readonly pieceCutter: number;
  readonly designedArea: number;
  readonly pocketArea: number;
  readonly plugArea: number;
  readonly gap: number;
  /** Measured between the outlines as they are written. */
  readonly minGap?: number;
  readonly maxGap?: number;
  readonly overlap?: number;
  readonly followed: boolean;
  readonly lostArea: number;
  readonly addedArea: number;
  /** Within the letters, the wood that the pocket's bit leaves standing. */
  readonly unreachableArea: number;
  /** The thinnest stroke as drawn, and where. */
  readonly narrowest?: number;
  readonly narrowestAt?: Vec;
  readonly narrowestCounter?: number;
  /** The thinnest wall of wood between pockets. */
  readonly thinnestWall?: number;
  readonly wallAt?: Vec;
  /** The thinnest place of what stays of the templates, and where. */
  readonly templateNeck?: number;
  readonly templateNeckAt?: Vec;
  /** The largest cut widths that keep every stroke, or at least every piece whole; not along templates, where bushes decide too. */
  readonly cutterForStrokes?: number;
  readonly cutterForWhole?: number;
  readonly pieceCutterForCounters?: number;
  /** Times the size now at which the present bits keep every stroke, or every piece whole; 1 and less: they do. */
  readonly scaleForStrokes?: number;
  readonly scaleForWhole?: number;
  readonly spots: readonly InlaySpot[];
  readonly changes: readonly InlayChange[];
  readonly crossings: readonly InlayCrossing[];
  /** Passes were asked for, but their way is too long to be worked out. */
  readonly wayTooLong: boolean;
  readonly passes?: { readonly count: number; readonly length: number; readonly missedArea: number };
  readonly margins: Margins;
}

declare module "../contract.ts" {
  interface MeasuresByKind {
    inlay: InlayMeasures;
  }
}

/** What was asked and answered, for everything that is drawn from it. */
export interface Worked {
  readonly answered: Answered<InlayAnswer> | undefined;
  readonly reading: boolean;
  readonly trouble?: InlayMeasures["trouble"];
}

/** The work of an inlay as far as it is known; asks for the face and the work. */
export function workOf(p: InlayParams, from: Sources): Worked {
  if (p.text.trim() === "") return { answered: from.worked(inlayWork, questionOf(p, undefined)), reading: false };
  const id = faceIdOf(p);
  if (id === "")
    return {
      answered: undefined,
      reading: false,
      trouble: {
        message: "No font file is chosen yet",
        mend: "Choose a font file, or one of the faces that come with the program.",
      },
    };
  const face = from.face(id, p.text);
  if (!face) return { answered: undefined, reading: true };
  if (!face.ok) return { answered: undefined, reading: false, trouble: face.error };
  return { answered: from.worked(inlayWork, questionOf(p, face.value)), reading: false };
}

export function measureInlay(p: InlayParams, from: Sources): InlayMeasures {
  const { answered, reading, trouble } = workOf(p, from);
  const answer = answered?.answer;
  const host = hostOf(p, from);
  const hostId = hostIdOf(p);
  const outlines = answer?.outlines ?? [];
  const placing = placeOn(p, host, outlines, from);
  const { place } = placing;
  const box = outlines.length > 0 ? pathsBounds(allPaths(outlines)) : undefined;
  const cut = answer?.cut;
  const why = trouble ?? answer?.trouble;
  return {
    state: answered?.state ?? (reading ? "reading" : trouble ? "final" : "waiting"),
    ...(why ? { trouble: { message: why.message, mend: why.mend } } : {}),
    ...(answer?.refused ? { refused: answer.refused } : {}),
    ...(answer?.corners ? { corners: answer.corners } : {}),
    ...(placing.fault === undefined ? {} : { misplaced: placing.fault }),
    on: p.on,
    ...(hostId === undefined ? {} : { onPart: hostId }),
    hasHost: host !== undefined,
    ...(host ? { hostThickness: host.thickness, depthLeft: host.thickness - p.depth } : {}),
    depth: p.depth,
    middle: placing.middle,
    turnRad: p.turn,
    width: box ? box.maxX - box.minX : 0,
    height: box ? box.maxY - box.minY : 0,
    ...(answer?.capHeight === undefined ? {} : { capHeight: answer.capHeight }),
    pieceCount: cut?.pieces.length ?? 0,
    ...(cut?.pocket[0] ? { pocketAt: cut.pocket[0].outer.start } : {}),
    pocketCutter: 2 * pocketRadius(p),
    pieceCutter: 2 * pieceRadius(p),
    wayTooLong: answer?.wayTooLong ?? false,
    designedArea: answer?.area ?? 0,
    pocketArea: cut?.pocketArea ?? 0,
    plugArea: cut?.pieceArea ?? 0,
    gap: cut?.gap ?? p.gap,
    followed: cut?.followed ?? true,
    ...(answer ? found(answer) : NOTHING_FOUND),
    ...(answer?.cleared
      ? {
          passes: {
            count: answer.cleared.passes.length,
            length: answer.cleared.length,
            missedArea: regionArea(answer.cleared.missed),
          },
        }
      : {}),
    margins: host && cut ? marginsOf(p, host, cut.pocket, place, from) : {},
  };
}

type Found = Pick<
  InlayMeasures,
  | "minGap"
  | "maxGap"
  | "overlap"
  | "lostArea"
  | "addedArea"
  | "unreachableArea"
  | "narrowest"
  | "narrowestAt"
  | "narrowestCounter"
  | "thinnestWall"
  | "wallAt"
  | "templateNeck"
  | "templateNeckAt"
  | "cutterForStrokes"
  | "cutterForWhole"
  | "pieceCutterForCounters"
  | "scaleForStrokes"
  | "scaleForWhole"
  | "spots"
  | "changes"
  | "crossings"
>;

const NOTHING_FOUND: Found = { lostArea: 0, addedArea: 0, unreachableArea: 0, spots: [], changes: [], crossings: [] };

function found(answer: InlayAnswer): Found {
  const { fit, report, limits, keeps, wall, templateNeck, crossings, corners } = answer;
  const middle = (between: readonly [Vec, Vec]): Vec => lerp(...between, 0.5);
  const finite = (key: "pieceCutterForCounters", value: number): Partial<Found> =>
    Number.isFinite(value) ? { [key]: value } : {};
  return {
    ...(fit ? { minGap: fit.minGap, maxGap: fit.maxGap, overlap: fit.overlap } : {}),
    lostArea: report?.lostArea ?? 0,
    addedArea: report?.addedArea ?? 0,
    unreachableArea: report?.unreachedArea ?? 0,
    ...(limits
      ? {
          narrowest: limits.stroke.width,
          narrowestAt: middle(limits.stroke.between),
          ...(limits.counter ? { narrowestCounter: limits.counter.width } : {}),
        }
      : {}),
    ...(wall ? { thinnestWall: wall.width, wallAt: middle(wall.between) } : {}),
    ...(templateNeck ? { templateNeck: templateNeck.width, templateNeckAt: middle(templateNeck.between) } : {}),
    ...(keeps && !corners
      ? {
          cutterForStrokes: keeps.strokes.pocketCutter,
          cutterForWhole: keeps.whole.pocketCutter,
          ...finite("pieceCutterForCounters", keeps.strokes.pieceCutter),
        }
      : {}),
    ...(keeps ? { scaleForStrokes: keeps.strokes.scale, scaleForWhole: keeps.whole.scale } : {}),
    spots: [
      ...(report?.lost ?? []).map((one) => ({ kind: "lost" as const, one })),
      ...(report?.added ?? []).map((one) => ({ kind: "added" as const, one })),
    ].map(({ kind, one }) => ({ kind, at: one.at, depth: one.depth, area: one.area, piece: one.piece + 1 })),
    changes: (report?.changes ?? []).map((change) => ({
      kind: change.kind,
      piece: (change.kind === "joined" ? (change.pieces[0] ?? 0) : change.piece) + 1,
      ...("at" in change ? { at: change.at } : {}),
    })),
    crossings,
  };
}
