/** What is asked of the heavy work for an inlay: everything that its shape and its cutting depend on, and nothing of where it lies. */
import type { Face } from "../../lettering/face.ts";
import { fewLetters, type FewLetters } from "../../lettering/few-letters.ts";
import type { LetterSpec } from "../../lettering/letter-spec.ts";
import type { PairCutting } from "../../lutherie/inlay-pair.ts";
import type { Clearing } from "../../lutherie/inlay-clearing.ts";
import type { GuidedInlay } from "../../lutherie/inlay-template.ts";
import { pieceRadius, pocketRadius, type FigureNumbers, type InlayParams, type LetterNumbers } from "./numbers.ts";

/** Letters that pass over and under each other. */
export interface WeaveQuestion {
  readonly gap: number;
  readonly begins: "earlier" | "later";
  readonly turned: readonly number[];
}

export interface LettersQuestion {
  readonly spec: LetterSpec;
  readonly face: FewLetters;
  readonly weave?: WeaveQuestion;
}

export interface InlayQuestion {
  readonly letters?: LettersQuestion;
  readonly figures: FigureNumbers;
  readonly cutting: PairCutting;
  /** Cut along templates; then the bushes decide what can be cut. */
  readonly guided?: GuidedInlay;
  readonly clearing?: Clearing;
  readonly coupon: boolean;
}

const specOf = (p: LetterNumbers): LetterSpec => ({
  text: p.text,
  size: { by: p.sizeBy, value: p.size },
  tracking: p.tracking,
  kerning: p.kerning,
  slant: p.slant,
  arrangement:
    p.arrangement === "arc"
      ? { kind: "arc", radius: p.arcRadius, side: p.arcSide }
      : p.arrangement === "stacked"
        ? { kind: "stacked", gap: p.stackGap }
        : p.arrangement === "row"
          ? { kind: "row" }
          : { kind: "overlapped", overlap: p.overlap },
  nudges: p.changes.map(({ letter, along, up, turn, scale }) => ({ letter: letter - 1, dx: along, dy: up, turn, scale })),
});

export const cuttingOf = (p: InlayParams): PairCutting => ({
  pocketRadius: pocketRadius(p),
  pieceRadius: pieceRadius(p),
  gap: p.gap,
  share: p.share,
  pieces: p.apart ? "apart" : "joined",
  mend: "cut",
});

const guidedOf = (p: InlayParams): GuidedInlay => ({
  way: p.templates,
  pocket: { by: "bush", guide: p.pocketBush, bit: 2 * pocketRadius(p) },
  piece: { by: "bush", guide: p.pieceBush, bit: 2 * pieceRadius(p) },
  gap: p.gap,
  share: p.share,
  mend: "cut",
  through: p.templates === "one-outside",
});

/** What a first, larger bit leaves at the walls, mm. */
const ALLOWANCE = 0.1;

/** A step above the bit's own width clears nothing between two ways, so that it is the most that is taken; a first bit must be the larger one. */
function clearingOf(p: InlayParams): Clearing {
  const radius = pocketRadius(p);
  const first = p.clearingBit !== undefined && p.clearingBit / 2 > radius ? p.clearingBit / 2 : undefined;
  return {
    cutter: { radius, step: Math.min(p.step, 2 * radius) },
    first: first === undefined ? undefined : { radius: first, step: Math.min(p.step, 2 * first), allowance: ALLOWANCE },
    travel: "with",
  };
}

/** `face` is needed where there is text. */
export function questionOf(p: InlayParams, face: Face | undefined): InlayQuestion {
  const { ornaments, beside, outline, art, artWidth, artX, artY, artTurn } = p;
  const weave = { gap: p.weaveGap, begins: p.weaveBegins, turned: p.weaveTurned.map((number) => number - 1) };
  return {
    ...(face
      ? {
          letters: {
            spec: specOf(p),
            face: fewLetters(face, p.text),
            ...(p.arrangement === "interlaced" ? { weave } : {}),
          },
        }
      : {}),
    figures: {
      ornaments,
      beside,
      outline: beside === "drawn" ? outline : [],
      art: beside === "imported" ? art : "",
      artWidth,
      artX,
      artY,
      artTurn,
    },
    cutting: cuttingOf(p),
    ...(p.method === "bush" ? { guided: guidedOf(p) } : {}),
    ...(p.method === "machine" && p.clearing ? { clearing: clearingOf(p) } : {}),
    coupon: p.method !== "knife",
  };
}
