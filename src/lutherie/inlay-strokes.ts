/**
 * How thin the strokes of a shape are and how narrow its counters, and so which cutters keep them. A pocket cutter of radius rp in a pair with
 * the gap g, of which the pocket takes the share s, keeps strokes of 2 (rp - s g) and more; a cutter of the piece of radius rq keeps counters
 * and slits of 2 (rq - (1 - s) g) and more. Both turn with the size of the shape. Lengths in mm.
 */
import { offsetArcs } from "../geometry/arc-offset.ts";
import { arcOutlinesOf } from "../geometry/arc-ring.ts";
import { joinBounds } from "../geometry/bounds.ts";
import { pathBounds } from "../geometry/measure.ts";
import { narrowest, type Narrow } from "../geometry/narrowest.ts";
import type { Outline } from "../geometry/outline.ts";
import type { Region } from "../geometry/region.ts";
import type { PairCutting } from "./inlay-pair.ts";

export interface StrokeLimits {
  /** The thinnest stroke, serifs and other even ends among them; points and corners, which lose their tip to any cutter, do not count. */
  readonly stroke: Narrow;
  /** The narrowest counter, slit or, where the piece is to stay joined, room between pieces; undefined where there is none. */
  readonly counter: Narrow | undefined;
  /** A disc of this diameter can be pushed through every piece from end to end, so that none falls apart; a larger one cannot. */
  readonly whole: number;
  /** A disc of this diameter can be pushed through every counter and slit and, where pieces stay joined, between them; undefined without counters. */
  readonly open: number | undefined;
}

/** To this the two limits that are searched for are found. */
const FOUND = 1e-3;

/** The limits of a shape; undefined where it is empty. */
export function strokeLimits(shape: Region, pieces: PairCutting["pieces"]): StrokeLimits | undefined {
  if (shape.length === 0) return undefined;
  const outlines = arcOutlinesOf(shape);
  const box = joinBounds(outlines.map(({ outer }) => pathBounds(outer)));
  const across = Math.hypot(box.maxX - box.minX, box.maxY - box.minY);
  const stroke = narrowest(outlines, "inside", across);
  if (!stroke) throw new Error("strokeLimits: a shape without a stroke");
  const groups = pieces === "apart" ? outlines.map((outline) => [outline]) : [outlines];
  let counter: Narrow | undefined;
  for (const group of groups) counter = narrowest(group, "outside", counter?.width ?? across) ?? counter;
  return {
    stroke,
    counter,
    whole: Math.min(...outlines.map((outline) => limitOf([outline], -1, stroke.width, across))),
    open: counter && Math.min(...groups.map((group) => limitOf(group, 1, counter.width, across))),
  };
}

/** The greatest diameter up to `most` of a disc whose centres in the shape (-1) or around it (1) hang together as the shape does; up to `least` they do. */
function limitOf(outlines: readonly Outline[], way: 1 | -1, least: number, most: number): number {
  const counts = countsOf(outlines);
  let [low, high] = [least, most];
  while (high - low > FOUND) {
    const middle = (low + high) / 2;
    if (countsOf(offsetArcs(outlines, (way * middle) / 2)) === counts) low = middle;
    else high = middle;
  }
  return low;
}

const countsOf = (outlines: readonly Outline[]): string =>
  `${outlines.length} ${outlines.reduce((sum, { holes }) => sum + holes.length, 0)}`;

/** What would keep all strokes and counters, or at least every piece whole. */
export interface Keeping {
  /** Greatest diameter of the pocket's cutter that does, and of the piece's; infinite where nothing limits it. */
  readonly pocketCutter: number;
  readonly pieceCutter: number;
  /** Least size of the shape at which the given cutters do, as a factor on its size now; at most 1 where they do already. */
  readonly scale: number;
}

export interface KeepingBoth {
  readonly strokes: Keeping;
  readonly whole: Keeping;
}

/** What the limits of a shape mean for cutters. A radius of 0 is a knife, which keeps everything. */
export function whatKeeps({ stroke, counter, whole, open }: StrokeLimits, cutting: PairCutting): KeepingBoth {
  const { pocketRadius, pieceRadius, gap, share } = cutting;
  const byPocket = 2 * share * gap;
  const byPiece = 2 * (1 - share) * gap;
  const keeping = (strokes: number, counters: number | undefined): Keeping => ({
    pocketCutter: strokes + byPocket,
    pieceCutter: counters === undefined ? Infinity : counters + byPiece,
    scale: Math.max(
      0,
      pocketRadius === 0 ? 0 : (2 * pocketRadius - byPocket) / strokes,
      pieceRadius === 0 || counters === undefined ? 0 : (2 * pieceRadius - byPiece) / counters,
    ),
  });
  return { strokes: keeping(stroke.width, counter?.width), whole: keeping(whole, open) };
}
