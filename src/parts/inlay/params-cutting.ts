/** How pocket and inlay piece are cut, and how the piece lies on its material. */
import { pieceGuideFor, WIDEST_BIT, WIDEST_BUSH } from "../../lutherie/template-offset.ts";
import type { ParamTable } from "../contract.ts";
import { PRACTICE } from "../finding.ts";
import { hostOf } from "./host.ts";
import {
  pieceRadius,
  pocketRadius,
  type CuttingNumbers,
  type InlayParams,
  type PieceNumbers,
  type PieceTurn,
} from "./numbers.ts";

const CUT = "How it is cut";
const FIT = "Fit";
const BUSH = "Guide bush";
const PASSES = "Clearing the pocket";
const PIECE = "Inlay piece";
const DEGREE = Math.PI / 180;
const GAP = 0.05;

type Cutting = Pick<CuttingNumbers, "method">;
const turning = ({ method }: Cutting): boolean => method !== "knife";
const machine = ({ method }: Cutting): boolean => method === "machine";
const bush = ({ method }: Cutting): boolean => method === "bush";

export const cuttingParams: Pick<ParamTable<InlayParams>, keyof CuttingNumbers> = {
  method: {
    type: "choice",
    label: "Cut with",
    help: "A machine that follows the outlines, a router with a guide bush along a template, or knife and chisel.",
    group: CUT,
    fallback: "machine",
    options: [
      { value: "machine", label: "A machine" },
      { value: "bush", label: "Guide bush and template" },
      { value: "knife", label: "Knife and chisel" },
    ],
  },
  pocketBit: {
    type: "length",
    label: "Bit for the pocket",
    help: "Its diameter as it is sold. 0.5 mm and 0.020 in are not the same.",
    group: CUT,
    follows: { words: "0.5 mm, or 3 mm in a guide bush", value: (p) => (p.method === "bush" ? 3 : 0.5) },
    min: 0.1,
    max: WIDEST_BIT,
    step: 0.1,
    usual: { from: 0.3, to: 3.2, basis: PRACTICE },
    when: turning,
  },
  pocketCuts: {
    type: "optional-length",
    label: "It really cuts",
    help: "The width of a groove cut in scrap and measured: a worn or wobbling bit cuts wider, or narrower, than its name.",
    group: CUT,
    absent: "as it is sold",
    min: 0.1,
    max: WIDEST_BIT,
    when: turning,
  },
  pieceBit: {
    type: "length",
    label: "Bit for the inlay piece",
    help: "Its diameter as it is sold.",
    group: CUT,
    follows: { words: "the bit for the pocket", value: (p) => p.pocketBit },
    min: 0.1,
    max: WIDEST_BIT,
    step: 0.1,
    usual: { from: 0.3, to: 3.2, basis: PRACTICE },
    when: turning,
  },
  pieceCuts: {
    type: "optional-length",
    label: "It really cuts",
    help: "The width of a groove that this bit cuts, measured in scrap.",
    group: CUT,
    absent: "as it is sold",
    min: 0.1,
    max: WIDEST_BIT,
    when: turning,
  },
  depth: {
    type: "length",
    label: "Depth of the pocket",
    help: "From the surface of what it is let into.",
    group: CUT,
    follows: {
      words: "1.5 mm, or half of what it is let into",
      value: (p, from) => Math.max(0.1, Math.min(1.5, (hostOf(p, from)?.thickness ?? 3) / 2)),
    },
    min: 0.1,
    max: 50,
    step: 0.1,
    usual: { from: 0.6, to: 3, basis: PRACTICE },
  },
  fitted: {
    type: "optional-length",
    label: "Gap that fitted in the coupon",
    help: "Cut the fit coupon in scrap with your bits and glue, and type the gap of the piece that went in with a push.",
    group: FIT,
    absent: "not tried yet",
    min: 0,
    max: 1,
  },
  gap: {
    type: "length",
    label: "Glue gap",
    help: "Room between inlay piece and pocket, all round.",
    group: FIT,
    follows: { words: "the gap that fitted in the coupon, else 0.05 mm", value: (p) => p.fitted ?? GAP },
    min: 0,
    max: 1,
    step: 0.01,
    usual: { from: 0.02, to: 0.1, basis: PRACTICE },
  },
  share: {
    type: "number",
    label: "Share of the pocket",
    help: "How much of the gap widens the pocket; the rest makes the piece smaller. 0: the pocket is not larger than the letters. 1: hairlines of the piece stay as thick as drawn.",
    group: FIT,
    fallback: 0.5,
    min: 0,
    max: 1,
    step: 0.1,
  },
  apart: {
    type: "flag",
    label: "Each piece cut by itself",
    help: "Pieces near each other are cut one by one. Otherwise they stay where they are on their material, and the bit must pass between them.",
    group: FIT,
    fallback: true,
  },
  templates: {
    type: "choice",
    label: "Templates",
    help: "One inside template that guides both cuts with two bushes, one outside template for an opening cut right through, or one for each cut.",
    group: BUSH,
    fallback: "one-inside",
    options: [
      { value: "one-inside", label: "One inside template for both" },
      { value: "one-outside", label: "One outside template for both, cut right through" },
      { value: "inside-and-outside", label: "Inside for the pocket, outside for the piece" },
      { value: "two-inside", label: "Two inside templates" },
    ],
    when: bush,
  },
  pocketBush: {
    type: "length",
    label: "Bush for the pocket",
    help: "Its outside diameter.",
    group: BUSH,
    follows: {
      words: "the usual bush for these templates",
      value: (p) => (p.templates === "one-outside" ? 2 * p.pocketBit : 4 * p.pocketBit),
    },
    min: 1,
    max: WIDEST_BUSH,
    step: 0.1,
    when: bush,
  },
  pieceBush: {
    type: "length",
    label: "Bush for the inlay piece",
    help: "Its outside diameter. One template gives both halves only if it suits the other bush and both bits.",
    group: BUSH,
    follows: {
      words: "the other bush, both bits and the gap",
      value: (p) => {
        const one = p.templates === "one-inside" || p.templates === "one-outside";
        if (!one || p.method !== "bush" || p.pocketBush <= p.pocketBit) return p.pocketBush;
        const [first, second] = [2 * pocketRadius(p), 2 * pieceRadius(p)];
        const kind = p.templates === "one-inside" ? "inside" : "outside";
        const found =
          p.pocketBush > first ? pieceGuideFor({ by: "bush", guide: p.pocketBush, bit: first }, second, p.gap, kind) : undefined;
        return Math.min(WIDEST_BUSH, Math.max(1, found ?? p.pocketBush));
      },
    },
    min: 1,
    max: WIDEST_BUSH,
    step: 0.1,
    when: bush,
  },
  clearing: {
    type: "flag",
    label: "Passes that clear the pocket",
    help: "A template with the middle lines of the bit's passes, from the edge inwards.",
    group: PASSES,
    fallback: true,
    when: machine,
  },
  step: {
    type: "length",
    label: "From pass to pass",
    help: "Not more than the radius of the bit, or corners between passes stay standing.",
    group: PASSES,
    follows: { words: "four tenths of the bit", value: (p) => 0.4 * (p.clearingBit ?? p.pocketCuts ?? p.pocketBit) },
    min: 0.02,
    max: 30,
    step: 0.02,
    when: (p) => machine(p) && p.clearing,
  },
  clearingBit: {
    type: "optional-length",
    label: "Larger bit for the middle",
    help: "Clears what it can reach first; the bit for the pocket then cuts the rest.",
    group: PASSES,
    absent: "one bit for all",
    min: 0.2,
    max: WIDEST_BIT,
    when: (p) => machine(p) && p.clearing,
  },
};

const turnTable: ParamTable<PieceTurn> = {
  piece: {
    type: "count",
    label: "Piece",
    help: "By its number on the templates.",
    group: PIECE,
    fallback: 1,
    min: 1,
    max: 999,
  },
  turn: {
    type: "angle",
    label: "Grain turned",
    help: "How far the grain of this piece is turned against the others, counter-clockwise as seen in place.",
    group: PIECE,
    fallback: 0,
    min: -Math.PI,
    max: Math.PI,
    step: 5 * DEGREE,
  },
};

export const pieceParams: Pick<ParamTable<InlayParams>, keyof PieceNumbers> = {
  material: {
    type: "text",
    label: "Material",
    help: "Shell, bone, wood: said on the templates and in the cutting list.",
    group: PIECE,
    fallback: "",
    maxLength: 60,
  },
  pieceThickness: {
    type: "length",
    label: "Thickness of the material",
    help: "Before it is levelled.",
    group: PIECE,
    follows: { words: "the depth and 0.3 mm to level", value: (p) => Math.min(60, p.depth + 0.3) },
    min: 0.1,
    max: 60,
    step: 0.1,
    usual: { from: 1, to: 3, basis: PRACTICE },
  },
  grain: {
    type: "angle",
    label: "Grain",
    help: "Direction of the grain in the finished inlay, counter-clockwise from the line of letters.",
    group: PIECE,
    fallback: 0,
    min: -Math.PI,
    max: Math.PI,
    step: 5 * DEGREE,
  },
  turns: {
    type: "records",
    label: "Pieces with turned grain",
    help: "Pieces whose grain runs otherwise on purpose, so that they catch the light apart.",
    group: PIECE,
    fallback: [],
    item: "piece",
    maxItems: 200,
    of: turnTable,
  },
  cutFrom: {
    type: "choice",
    label: "Cut from",
    help: "The face that will be seen, or the back; then the pieces are laid out mirrored.",
    group: PIECE,
    fallback: "front",
    options: [
      { value: "front", label: "Face" },
      { value: "back", label: "Back" },
    ],
  },
  laid: {
    type: "choice",
    label: "Laid out",
    help: "Side by side with their grain one way, or as they lie in the instrument. Pieces cut along templates stay in place.",
    group: PIECE,
    fallback: "rows",
    options: [
      { value: "rows", label: "Side by side" },
      { value: "in-place", label: "In place" },
    ],
    when: (p) => p.method !== "bush",
  },
  spacing: {
    type: "length",
    label: "Between pieces",
    help: "Material left between pieces laid out for cutting, at least the width of the bit and a little to hold them.",
    group: PIECE,
    follows: {
      words: "the bit for the inlay piece and 2 mm",
      value: (p) => (p.method === "knife" ? 3 : p.pieceBit + 2),
    },
    min: 0.5,
    max: 100,
    step: 0.5,
    when: (p) => p.method !== "bush" && p.laid === "rows",
  },
};
