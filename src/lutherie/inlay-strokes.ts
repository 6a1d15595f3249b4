/**
 * How thin the strokes of a shape are and how narrow its counters, and so which cutters keep them. A pocket cutter of radius rp in a pair with
 * the gap g, of which the pocket takes the share s, keeps strokes of 2 (rp - s g) and more; a cutter of the piece of radius rq keeps counters
 * and slits of 2 (rq - (1 - s) g) and more. Both turn with the size of the shape. Lengths in mm.
 */
import { offsetArcs } from "../geometry/arc-offset.ts";
import { arcOutlinesOf } from "../geometry/arc-ring.ts";
import { acrossOf, narrowest, type Narrow, type Side } from "../geometry/narrowest.ts";
import type { Outline } from "../geometry/outline.ts";
import type { Region } from "../geometry/region.ts";
import type { PairCutting } from "./inlay-pair.ts";
import { WIDEST_BIT, WIDEST_BUSH } from "./template-offset.ts";

export interface StrokeLimits {
  /** The thinnest stroke, serifs and other even ends among them; points and corners, which lose their tip to any cutter, do not count. */
  readonly stroke: Narrow;
  /** The narrowest counter, slit or, where the piece is to stay joined, room between pieces; undefined where there is none. */
  readonly counter: Narrow | undefined;
  /** A disc of this diameter can be pushed through every piece from end to end, so that none falls apart; a larger one cannot. */
  readonly whole: number;
  /** The same of every counter and slit and, where pieces stay joined, of the room between them; undefined without counters. */
  readonly open: number | undefined;
}

/** To this the two limits that are searched for are found, mm. */
const FOUND = 1e-3;
/** No cutter, nor the widest corner that bush and bit leave along a template, is wider, mm; counters and slits that let it through count as open. */
const WIDEST = WIDEST_BUSH + WIDEST_BIT;
/** The search goes up by steps from small to at most this share: what falls off and vanishes within one is a bulge no wider than its neck and a step. */
const STEPS = [0.01, 0.02, 0.04, 0.08, 0.15];

/** Limits by shape: no cutter changes them. */
const known = { apart: new WeakMap<Region, StrokeLimits>(), joined: new WeakMap<Region, StrokeLimits>() };

/** The limits of a shape; undefined where it is empty. */
export function strokeLimits(shape: Region, pieces: PairCutting["pieces"]): StrokeLimits | undefined {
  const limits = known[pieces].get(shape) ?? limitsOfShape(shape, pieces);
  if (limits) known[pieces].set(shape, limits);
  return limits;
}

function limitsOfShape(shape: Region, pieces: PairCutting["pieces"]): StrokeLimits | undefined {
  if (shape.length === 0) return undefined;
  const outlines = arcOutlinesOf(shape);
  const across = acrossOf(outlines);
  const inside = limitsOf(
    outlines.map((outline) => [outline]),
    "inside",
    across,
  );
  if (!inside) throw new Error("strokeLimits: a shape without a stroke");
  const outside = limitsOf(pieces === "apart" ? outlines.map((outline) => [outline]) : [outlines], "outside", across);
  return { stroke: inside.narrow, counter: outside?.narrow, whole: inside.limit, open: outside?.limit };
}

/** The narrowest place of all groups, and the least of their limits; undefined where no group has a narrow place. */
function limitsOf(
  groups: readonly (readonly Outline[])[],
  side: Side,
  across: number,
): { readonly narrow: Narrow; readonly limit: number } | undefined {
  const found = groups
    .flatMap((outlines) => {
      const narrow = narrowest(outlines, side);
      return narrow ? [{ outlines, narrow }] : [];
    })
    .toSorted((a, b) => a.narrow.width - b.narrow.width);
  const [first] = found;
  if (!first) return undefined;
  let limit = side === "inside" ? across : Infinity;
  for (const { outlines, narrow } of found) {
    const most = Math.min(limit, Math.max(side === "inside" ? across : WIDEST, narrow.width));
    if (narrow.width >= most) break;
    const own = limitOf(outlines, side === "inside" ? -1 : 1, narrow.width, most);
    if (own < most) limit = own;
  }
  return { narrow: first.narrow, limit };
}

/**
 * The least diameter, below `most`, of a disc whose centres in the outlines (-1) or around them (1) no longer hang together as these do; up to
 * `least` they do. Looked for from below, since what has fallen apart counts as whole again when its smaller part has vanished.
 */
function limitOf(outlines: readonly Outline[], way: 1 | -1, least: number, most: number): number {
  const counts = countsOf(outlines);
  let low = least;
  let moved = offsetArcs(outlines, (way * least) / 2);
  const holds = (diameter: number): boolean => {
    const further = offsetArcs(moved, (way * (diameter - low)) / 2);
    if (countsOf(further) !== counts) return false;
    [low, moved] = [diameter, further];
    return true;
  };
  let high = most;
  for (let step = 0; ; step++) {
    const next = low * (1 + STEPS[Math.min(step, STEPS.length - 1)]!);
    if (next >= most) return most;
    if (holds(next)) continue;
    high = next;
    break;
  }
  while (high - low > FOUND) {
    const middle = (low + high) / 2;
    if (!holds(middle)) high = middle;
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
