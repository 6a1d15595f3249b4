/**
 * Pocket and piece cut with a router that follows templates by a guide bush: one inside template for both, one outside template for both, or one
 * template each. template-offset.ts has the geometry of a single cut; here the outline is found that both cuts can follow.
 *
 * With bush C on bit D the near side of the cut lies (C - D)/2 from the template and the far side (C + D)/2. Through an inside template a
 * pocket has outward corners of at least D/2 and inward ones of at least the near side, since the template is the pocket moved out by that;
 * a piece has inward corners of at least the far side. Round an outside template a piece has outward corners of at least the near side and inward
 * ones of at least D/2; an opening has outward ones of at least the far side. Lengths in mm.
 */
import { offsetArcs } from "../geometry/arc-offset.ts";
import type { Outline } from "../geometry/outline.ts";
import type { Region } from "../geometry/region.ts";
import { inlayPair, type InlayPair, type PairCutting } from "./inlay-pair.ts";
import { cutBand, gapFromOneTemplate, pieceGuideFor, type GuidedCutter } from "./template-offset.ts";

/** `one-inside`, `one-outside`: one template for both; the others: an inside template for the pocket and one of its own for the piece. */
export type TemplateWay = "one-inside" | "one-outside" | "inside-and-outside" | "two-inside";

export interface GuidedInlay {
  readonly way: TemplateWay;
  readonly pocket: GuidedCutter;
  readonly piece: GuidedCutter;
  /** The gap wanted; with one template for both it is what the bushes and bits make it. */
  readonly gap: number;
  /** As of PairCutting: what the pocket takes of the gap. */
  readonly share: number;
  readonly mend: PairCutting["mend"];
  /** Whether the pocket goes right through. */
  readonly through: boolean;
}

export interface InlayTemplate {
  readonly cuts: "both" | "pocket" | "piece";
  readonly kind: "inside" | "outside";
  readonly edge: readonly Outline[];
  /** The bush cannot turn in a corner of the template that is tighter than this. */
  readonly leastCorner: number;
}

export interface GuidedPair {
  readonly ok: true;
  /** The gap that comes of it, and by how much it misses what was wanted. */
  readonly gap: number;
  readonly off: number;
  /** Radii of the tightest corners that every cut of the way can follow. */
  readonly corners: LeastCorners;
  readonly pair: InlayPair;
  readonly templates: readonly InlayTemplate[];
}

/** Outward ones of the letters are rounded to the one at the least, inward ones to the other. */
export interface LeastCorners {
  readonly outward: number;
  readonly inward: number;
}

/** Why these bushes and bits cannot make the pair. */
export type GuidedRefusal =
  /** One template would leave the piece larger than the pocket by `by` all round; `bush` for the piece (with its bit) gives the gap wanted. */
  | { readonly ok: false; readonly why: "jams"; readonly by: number; readonly bush: number | undefined }
  /** One outside template covers the wood that a blind pocket has to lose. */
  | { readonly ok: false; readonly why: "blind" }
  /** The bit does not pass through its bush. */
  | { readonly ok: false; readonly why: "bush"; readonly cuts: "pocket" | "piece"; readonly bush: number; readonly bit: number }
  /** Nothing of the shape is as wide as the corners that the cuts need: outward ones of `outward`, inward ones of `inward`. */
  | { readonly ok: false; readonly why: "vanishes"; readonly outward: number; readonly inward: number }
  /** The gap would be so wide that it eats the smallest corner, of `corner`. */
  | {
      readonly ok: false;
      readonly why: "loose";
      readonly gap: number;
      readonly corner: number;
      readonly bush: number | undefined;
    };

/** Pocket, piece and templates for a shape (normalised region), or why there are none. */
export function guidedPair(shape: Region, inlay: GuidedInlay): GuidedPair | GuidedRefusal {
  const { way, pocket, piece, share, mend, through } = inlay;
  for (const [cuts, { by, guide, bit }] of [
    ["pocket", pocket],
    ["piece", piece],
  ] as const)
    if (by === "bush" && !(guide > bit)) return { ok: false, why: "bush", cuts, bush: guide, bit };
  if (way === "one-outside" && !through) return { ok: false, why: "blind" };
  const template = way === "one-inside" ? "inside" : way === "one-outside" ? "outside" : undefined;
  const gap = template ? gapFromOneTemplate(pocket, piece, template) : inlay.gap;
  const bush = template && pieceGuideFor(pocket, piece.bit, inlay.gap, template);
  if (gap < 0) return { ok: false, why: "jams", by: -gap, bush };

  const corners = leastCorners(inlay, gap);
  const { outward, inward } = corners;
  if (share * gap > outward || (1 - share) * gap > inward)
    return { ok: false, why: "loose", gap, corner: Math.min(outward, inward), bush };
  const pair = inlayPair(shape, { pocketRadius: outward, pieceRadius: inward, gap, share, pieces: "joined", mend });
  if (pair.pocket.length === 0 || pair.piece.length === 0) return { ok: false, why: "vanishes", outward, inward };
  return { ok: true, gap, off: gap - inlay.gap, corners, pair, templates: templatesOf(inlay, pair) };
}

/** Radii of the discs by which the pocket is to be open and the piece closed, so that every cut of the way can follow its outline. */
function leastCorners({ way, pocket, piece }: GuidedInlay, gap: number): LeastCorners {
  const first = cutBand(pocket);
  const second = cutBand(piece);
  // What holds for the one outline holds for the other with the gap added: both are the same outline moved.
  const pocketOutward = way === "one-outside" ? first.far : pocket.bit / 2;
  const pocketInward = way === "one-outside" ? 0 : Math.max(0, first.near) + gap;
  const isIsland = way === "one-outside" || way === "inside-and-outside";
  const pieceOutward = isIsland ? Math.max(0, second.near) + gap : 0;
  const pieceInward = isIsland ? piece.bit / 2 : second.far;
  return { outward: Math.max(pocketOutward, pieceOutward), inward: Math.max(pocketInward, pieceInward) };
}

function templatesOf({ way, pocket, piece }: GuidedInlay, { curves }: InlayPair): InlayTemplate[] {
  const first = cutBand(pocket);
  const second = cutBand(piece);
  const give = (
    cuts: InlayTemplate["cuts"],
    kind: InlayTemplate["kind"],
    edge: readonly Outline[],
    by: number,
  ): InlayTemplate => ({
    cuts,
    kind,
    edge,
    leastCorner: by,
  });
  const window = offsetArcs(curves.pocket, first.near);
  const island = offsetArcs(curves.piece, -second.near);
  switch (way) {
    case "one-inside":
      return [give("both", "inside", window, Math.max(first.centre, second.centre))];
    case "one-outside":
      return [give("both", "outside", island, Math.max(first.centre, second.centre))];
    case "inside-and-outside":
      return [give("pocket", "inside", window, first.centre), give("piece", "outside", island, second.centre)];
    case "two-inside":
      return [
        give("pocket", "inside", window, first.centre),
        give("piece", "inside", offsetArcs(curves.piece, second.far), second.centre),
      ];
  }
}

/** What a router really cuts along a template whose edge is drawn in lines and arcs: the pocket or the piece, corners that the bush cannot reach rounded. */
export function cutAlong(
  { kind, edge }: Pick<InlayTemplate, "kind" | "edge">,
  { guide, bit }: GuidedCutter,
  cuts: "pocket" | "piece",
): Outline[] {
  const centres = offsetArcs(edge, kind === "inside" ? -guide / 2 : guide / 2);
  return offsetArcs(centres, cuts === "pocket" ? bit / 2 : -bit / 2);
}
