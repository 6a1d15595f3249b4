/**
 * From the edge that is to be cut to the edge of the template that guides the cut, and what cannot be guided.
 *
 * A guide bush of outside diameter C carries a bit of diameter D; a bearing of diameter C runs on the bit's shank. From
 * the template's edge towards the open side the near side of the cut lies (C - D)/2 away, the middle of the bush C/2, the
 * far side (C + D)/2. An inside template is a window with the guide inside it; an outside template is an island that the
 * guide runs round.
 *
 *   recess through an inside template    template = recess moved out by the near side
 *   piece through an inside template     template = piece moved out by the far side
 *   piece round an outside template      template = piece moved in by the near side
 *   recess round an outside template     template = recess moved in by the far side: it covers the wood within, so through cuts only
 *
 * One inside template gives both halves of an inlay with a gap g when C2 + D2 = C1 - D1 + 2g (1 cuts the recess, 2 the
 * piece), one outside template when C2 - D2 = C1 + D1 - 2g. Source: plain geometry of a disc rolling along an edge.
 */

/** The widest bit and the widest bush that can be asked for, mm; corners cut with both are of this width together at the most. */
export const WIDEST_BIT = 30;
export const WIDEST_BUSH = 80;

/** A guide bush or a bearing of outside diameter `guide` with the bit it carries, mm. */
export interface GuidedCutter {
  readonly by: "bush" | "bearing";
  readonly guide: number;
  readonly bit: number;
}

/** What is cut: a recess (the wood within the edge goes; blind, or right through) or a piece (the wood within stays). */
export type CutShape = "blind-recess" | "opening" | "piece";
export type TemplateKind = "inside" | "outside";

/** Where the cut runs, measured from the template's edge towards the open side, mm; a bit wider than its bearing starts below 0. */
export interface CutBand {
  readonly near: number;
  readonly centre: number;
  readonly far: number;
}

/** How to make the template from the edge to be cut, and the corners that the cut edge may have. */
export interface TemplateOffset {
  readonly ok: true;
  /** How far the cut edge is moved to be the template's edge, mm; above 0 outwards, away from what it encloses. */
  readonly offset: number;
  /** Least radius of the cut edge's outward (convex) corners, mm; 0 where a sharp one can be cut. */
  readonly leastOutwardRadius: number;
  /** Least radius of its inward (concave) corners, mm. */
  readonly leastInwardRadius: number;
  /** Least radius of the template's own corners that the guide must run into, mm. */
  readonly leastTemplateRadius: number;
}

/** Why there is no such template. */
export interface TemplateRefusal {
  readonly ok: false;
  readonly reason: string;
}

/** Near side, middle and far side of the cut; a bush must be wider than its bit, and both diameters above 0. */
export function cutBand({ by, guide, bit }: GuidedCutter): CutBand {
  if (!(guide > 0 && bit > 0 && guide < Infinity && bit < Infinity))
    throw new RangeError("cutBand: the diameters must be above 0");
  if (by === "bush" && !(guide > bit)) throw new RangeError("cutBand: the bit must pass through the bush");
  return { near: (guide - bit) / 2, centre: guide / 2, far: (guide + bit) / 2 };
}

/** The template for a cut, or why there is none. The domain is that of cutBand. */
export function templateOffset(cutter: GuidedCutter, cut: CutShape, template: TemplateKind): TemplateOffset | TemplateRefusal {
  const { near, centre, far } = cutBand(cutter);
  const reach = cutter.bit / 2;
  const give = (offset: number, leastOutwardRadius: number, leastInwardRadius: number): TemplateOffset => ({
    ok: true,
    offset,
    leastOutwardRadius: Math.max(leastOutwardRadius, 0),
    leastInwardRadius: Math.max(leastInwardRadius, 0),
    leastTemplateRadius: centre,
  });
  if (template === "inside") {
    return cut === "piece" ? give(far, 0, far) : give(near, reach, near);
  }
  if (cut === "piece") return give(-near, near, reach);
  if (cut === "opening") return give(-far, far, 0);
  return { ok: false, reason: "an outside template covers the wood that a blind recess must clear; use an inside template" };
}

/** The gap (mm, below 0 it jams) that one template leaves between the recess cut by the first and the piece by the second. */
export function gapFromOneTemplate(recess: GuidedCutter, piece: GuidedCutter, template: TemplateKind): number {
  const first = cutBand(recess);
  const second = cutBand(piece);
  return template === "inside" ? second.far - first.near : first.far - second.near;
}

/** The guide diameter (mm) that cuts the piece with this bit and gap from the recess's template; undefined where no bush passes the bit. */
export function pieceGuideFor(recess: GuidedCutter, pieceBit: number, gap: number, template: TemplateKind): number | undefined {
  const { near, far } = cutBand(recess);
  if (!(pieceBit > 0) || !Number.isFinite(gap)) throw new RangeError("pieceGuideFor: needs a bit and a gap");
  const guide = template === "inside" ? 2 * (near + gap) - pieceBit : 2 * (far - gap) + pieceBit;
  return guide > pieceBit ? guide : undefined;
}

/** Width (mm) of the ledge that a bearing smaller than its bit cuts along an edge: half the difference. */
export function ledgeWidth(bearing: number, bit: number): number {
  if (!(bearing > 0 && bit > bearing && bit < Infinity))
    throw new RangeError("ledgeWidth: the bearing must be smaller than the bit");
  return (bit - bearing) / 2;
}

/** The bearing (mm) that cuts a ledge of `width` with this bit; undefined where it would have no size left. */
export function bearingForLedge(width: number, bit: number): number | undefined {
  if (!(width > 0 && bit > 0 && bit < Infinity)) throw new RangeError("bearingForLedge: width and bit must be above 0");
  const bearing = bit - 2 * width;
  return bearing > 0 ? bearing : undefined;
}
