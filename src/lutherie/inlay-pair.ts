/**
 * A pocket and the piece that fills it, from one outline and two round cutters.
 *
 * A cutter of radius rp clears the opening of the pocket by a disc of rp; a cutter of radius rq that goes round the outside of a piece
 * leaves its closing by a disc of rq. Both cut from the same outline, a sharp piece jams in a rounded pocket by r (1/sin(theta/2) - 1).
 * So one outline M between them is sought that both can follow: with a glue gap g of which the pocket takes the share s, a = rp - s g and
 * b = rq - (1 - s) g, M is to be open by a disc of a and closed by a disc of b. Then the pocket M + s g and the piece M - (1 - s) g can
 * be cut as drawn, and the gap between them is g everywhere. Opening and closing are those of mathematical morphology (Serra, Image
 * Analysis and Mathematical Morphology, 1982; named from memory). Each is idempotent, so that repeating them does not help where they
 * disagree; such a place is cut away, or filled, wide enough for the cutter, and the three filters run once more.
 *
 * Lengths in mm.
 */
import { closeArcsApart, openArcs } from "../geometry/arc-morphology.ts";
import { offsetArcs } from "../geometry/arc-offset.ts";
import { withoutArcs } from "../geometry/arc-overlay.ts";
import { placesBetween } from "../geometry/arc-places.ts";
import { arcOutlinesOf, regionOfArcs } from "../geometry/arc-ring.ts";
import { boundsMeet } from "../geometry/bounds.ts";
import { difference, union } from "../geometry/clipper.ts";
import { dilate } from "../geometry/morphology.ts";
import type { Outline } from "../geometry/outline.ts";
import { regionBounds, type Polygon, type Region } from "../geometry/region.ts";
import { inradius, slitAt } from "./inlay-mend.ts";

export interface PairCutting {
  /** Radius that the pocket's cutter really cuts; 0 for a knife or a chisel, which leaves corners sharp. */
  readonly pocketRadius: number;
  /** The same for the cutter of the piece. */
  readonly pieceRadius: number;
  /** Room for glue between piece and pocket, all round; 0 or more. Under round cutters at most the smaller radius. */
  readonly gap: number;
  /** Share of the gap that widens the pocket; the rest makes the piece smaller. 0 to 1. */
  readonly share: number;
  /** `apart`: pieces that do not touch are cut one by one; `joined`: they stay one piece, so the cutter must pass between them or the slit fills. */
  readonly pieces: "apart" | "joined";
  /** What happens where neither cutter gives way: the wood is cut away or the slit filled. */
  readonly mend: "cut" | "fill";
}

export interface InlayPair {
  /** The outline that both cutters follow. */
  readonly common: Region;
  readonly pocket: Region;
  readonly piece: Region;
  /** The same three as lines and true arcs, which is how they are worked out. */
  readonly curves: {
    readonly common: readonly Outline[];
    readonly pocket: readonly Outline[];
    readonly piece: readonly Outline[];
  };
  /** False where a place is left that one of the cutters cannot follow, or was not looked for. */
  readonly followed: boolean;
}

/** Rounds of mending after which a place that still disagrees is told. One was enough on 63 characters of four faces. */
const MOST_MENDS = 3;
/** What one cutter leaves of what the other wants is a place to mend if it is wider than this, mm: a sixtieth of a usual gap. */
const WIDTH = 0.0008;
/** A shorter place, mm, is a chip in a cusp between two roundings, for which nothing is cut away. */
const LENGTH = 0.05;
/** Chords in the search for what to mend, mm. */
const FINE = 0.0002;

/** Arcs of a coarse pair keep within this of the shape, mm. */
const COARSE = 0.01;

/**
 * `coarse` is good for showing while a number is dragged: within 0.03 mm, but for strokes about as thin as the cutter and for places where
 * opening and closing disagree, which it leaves unmended.
 */
export type Detail = "fine" | "coarse";

/**
 * The pair for a shape (normalised region, mm). Empty where the shape has no stroke as wide as the cutter.
 * Throws RangeError for a gap wider than a round cutter's radius, or a number out of its range.
 */
export function inlayPair(shape: Region, cutting: PairCutting, detail: Detail = "fine"): InlayPair {
  const steps = inlayPairSteps(shape, cutting, detail);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/**
 * The same worked out step by step, all pieces so near to each other that they may have to do with each other in a few steps together: whoever
 * drives it can show how far it has come (the share of the pieces done, 0 to 1) and give up between steps.
 */
export function* inlayPairSteps(shape: Region, cutting: PairCutting, detail: Detail): Generator<number, InlayPair> {
  const { pocketRadius, pieceRadius, gap, share } = checked(cutting);
  const curves = { common: [] as Outline[], pocket: [] as Outline[], piece: [] as Outline[] };
  let followed = true;
  let done = 0;
  // Closing fills nothing further than its radius from an edge, and mending cuts as far as the cutter goes round.
  for (const group of near(shape, 4 * Math.max(pocketRadius, pieceRadius) + 2 * gap)) {
    const steps = commonOf(group, cutting, detail);
    let step = steps.next();
    for (; !step.done; step = steps.next()) yield done / shape.length;
    const found = step.value;
    curves.common.push(...found.common);
    curves.pocket.push(...found.pocket);
    curves.piece.push(...offsetArcs(found.common, -(1 - share) * gap));
    followed &&= found.followed;
    done += group.length;
    yield done / shape.length;
  }
  return {
    common: regionOfArcs(curves.common),
    pocket: regionOfArcs(curves.pocket),
    piece: regionOfArcs(curves.piece),
    curves,
    followed,
  };
}

/** The pieces sorted by whose boxes come within `reach` mm of each other, directly or through others. */
function near(shape: Region, reach: number): Region[] {
  let groups: Polygon[][] = [];
  for (const piece of shape) {
    const box = regionBounds([piece]);
    const met = groups.filter((group) => group.some((other) => boundsMeet(regionBounds([other]), box, reach)));
    groups = [...groups.filter((group) => !met.includes(group)), [...met.flat(), piece]];
  }
  return groups;
}

/** The outline that both cutters follow, of pieces near to each other, and their pocket. */
function* commonOf(
  shape: Region,
  { pocketRadius, pieceRadius, gap, share, pieces, mend }: PairCutting,
  detail: Detail,
): Generator<void, Pick<Filtered, "common" | "pocket"> & { readonly followed: boolean }> {
  const a = pocketRadius === 0 ? 0 : pocketRadius - share * gap;
  const b = pieceRadius === 0 ? 0 : pieceRadius - (1 - share) * gap;
  // Pieces whose pockets would run together leave no wood between them to part them.
  const apart = pieces === "apart";
  function* filtered(outlines: readonly Outline[]): Generator<void, Filtered> {
    const cores = offsetArcs(outlines, -a);
    yield;
    const rooms = apart ? offsetArcs(cores, a + share * gap) : [];
    const { closed, united } = closeArcsApart(cores, a, b, rooms);
    yield;
    const common = openArcs(closed, a);
    yield;
    const pocket = offsetArcs(common, share * gap);
    return { common, pocket, closed: united || (apart && pocket.length < rooms.length) ? undefined : closed };
  }
  const lookAt = (left: Filtered): { readonly closed: readonly Outline[]; readonly places: Region[] } => {
    // Closed again it does not reach beyond what it was opened from.
    if (left.closed && toMend(left.closed, left.common).length === 0) return { closed: left.closed, places: [] };
    const { closed } = closeArcsApart(left.common, 0, b, apart ? left.pocket : []);
    return { closed, places: toMend(closed, left.common) };
  };
  if (detail === "coarse") return { ...(yield* filtered(arcOutlinesOf(shape, COARSE))), followed: false };

  let before = arcOutlinesOf(shape);
  yield;
  let found = yield* filtered(before);
  yield;
  let { closed, places } = lookAt(found);
  for (let round = 0; places.length > 0 && round < MOST_MENDS; round++) {
    const { common } = found;
    const was = regionOfArcs(before, FINE);
    const wanted = regionOfArcs(closed, FINE);
    before =
      mend === "cut"
        ? without(common, union(...places.map((place) => slitAt(place, was, wanted, b))))
        : arcOutlinesOf(
            union(regionOfArcs(common), ...places.map((place) => dilate(place, Math.max(0, a - inradius(place, a))))),
          );
    yield;
    found = yield* filtered(before);
    yield;
    ({ closed, places } = lookAt(found));
  }
  return { ...found, followed: places.length === 0 };
}

/** What the three filters leave. */
interface Filtered {
  readonly common: readonly Outline[];
  readonly pocket: readonly Outline[];
  /** Closed, before it was opened again; undefined where pieces have run together in that. */
  readonly closed: readonly Outline[] | undefined;
}

const toMend = (closed: readonly Outline[], common: readonly Outline[]): Region[] =>
  placesBetween(closed, common, WIDTH).filter((place) => {
    const { minX, minY, maxX, maxY } = regionBounds(place);
    return Math.hypot(maxX - minX, maxY - minY) > LENGTH;
  });

/** All edges that the slits do not meet stay the very arcs that they are. */
const without = (outlines: readonly Outline[], slits: Region): Outline[] =>
  withoutArcs(outlines, arcOutlinesOf(slits)) ?? arcOutlinesOf(difference(regionOfArcs(outlines), slits));

function checked(cutting: PairCutting): PairCutting {
  const { pocketRadius, pieceRadius, gap, share } = cutting;
  if (!(pocketRadius >= 0) || !(pieceRadius >= 0)) throw new RangeError("inlayPair: a radius is 0 or more");
  if (!(gap >= 0)) throw new RangeError("inlayPair: the gap is 0 or more");
  if (!(share >= 0 && share <= 1)) throw new RangeError("inlayPair: the share lies between 0 and 1");
  if ((pocketRadius > 0 && share * gap > pocketRadius) || (pieceRadius > 0 && (1 - share) * gap > pieceRadius))
    throw new RangeError("inlayPair: the gap is wider than the cutter's radius");
  return cutting;
}
