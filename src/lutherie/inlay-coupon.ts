/**
 * A fit coupon: one small pocket and pieces for it at rising gaps, to try cutters and glue in scrap before the instrument. The pocket is an L, so that
 * it has corners of both kinds, and every piece is that pocket made smaller by its gap all round. Along templates it is one L with its templates.
 * Lengths in mm.
 */
import { offsetArcs } from "../geometry/arc-offset.ts";
import { joinBounds, type Bounds } from "../geometry/bounds.ts";
import { pathBounds } from "../geometry/measure.ts";
import type { Outline } from "../geometry/outline.ts";
import { polygon, type Path } from "../geometry/path.ts";
import { regionOf } from "../geometry/outline.ts";
import { transformOutline, translation } from "../geometry/transform.ts";
import { vec, type Vec } from "../geometry/vec.ts";
import { inlayPair } from "./inlay-pair.ts";
import { guidedPair, type GuidedInlay, type GuidedPair } from "./inlay-template.ts";

export interface CouponPiece {
  /** Counted from 1, in the order of gaps. */
  readonly number: number;
  readonly gap: number;
  readonly outline: readonly Outline[];
  /** Where the middle of its number stands, below it. */
  readonly label: Vec;
}

export interface FitCoupon {
  readonly pocket: readonly Outline[];
  readonly pieces: readonly CouponPiece[];
  /** The least box round pocket, pieces and labels; its lower left corner is the origin. */
  readonly bounds: Bounds;
}

/** Gaps to try, mm: from none to more than glue can fill unseen (common practice, from memory). */
export const COUPON_GAPS: readonly number[] = [0, 0.02, 0.04, 0.06, 0.08, 0.1, 0.12];

/** Side of the three squares of the L, at least; a larger cutter makes it larger. */
const LEAST_SQUARE = 4;
/** Squares are this many times the larger radius. */
const SQUARES_TO_RADIUS = 4;
/** Between pieces there is this, and room for the cutter to pass. */
const APART = 3;
/** Height kept free for a piece's number. */
const LABEL = 4;

/**
 * The coupon for a cutter of the pocket and one of the pieces (radii; 0 for a knife), `columns` pieces in a row. Throws RangeError for a gap below 0 or
 * above the radius of a round cutter.
 */
export function fitCoupon(pocketRadius: number, pieceRadius: number, gaps: readonly number[], columns = 4): FitCoupon {
  if (!gaps.every((gap) => gap >= 0 && (pieceRadius === 0 || gap <= pieceRadius)))
    throw new RangeError("fitCoupon: a gap is 0 or more and at most the radius of the pieces' cutter");
  const s = Math.max(LEAST_SQUARE, SQUARES_TO_RADIUS * Math.max(pocketRadius, pieceRadius));
  // With no gap the piece is the pocket; the smaller ones can be cut wherever it can.
  const { pocket } = inlayPair(regionOf([ell(s)]), {
    pocketRadius,
    pieceRadius,
    gap: 0,
    share: 0,
    pieces: "apart",
    mend: "cut",
  }).curves;
  const between = APART + 2 * Math.max(pocketRadius, pieceRadius);
  const row = 2 * s + LABEL + between;
  const rows = Math.ceil(gaps.length / columns);
  const place = (outlines: readonly Outline[], by: Vec): Outline[] =>
    outlines.map((outline) => transformOutline(translation(by), outline));
  const pieces = gaps.map((gap, i): CouponPiece => {
    const corner = vec((i % columns) * (3 * s + between), (rows - 1 - Math.floor(i / columns)) * row + LABEL);
    return {
      number: i + 1,
      gap,
      outline: place(offsetArcs(pocket, -gap), corner),
      label: vec(corner.x + (3 * s) / 2, corner.y - LABEL / 2),
    };
  });
  const placed = place(pocket, vec(0, rows * row + LABEL));
  const box = joinBounds([placed, ...pieces.map(({ outline }) => outline)].flat().map(({ outer }) => pathBounds(outer)));
  return { pocket: placed, pieces, bounds: { ...box, minX: 0, minY: 0 } };
}

const ell = (s: number): Path => polygon([vec(0, 0), vec(3 * s, 0), vec(3 * s, s), vec(s, s), vec(s, 2 * s), vec(0, 2 * s)]);

/** The squares of an L that bushes can follow are this many times the larger bush. */
const SQUARES_TO_BUSH = 2;

/**
 * A coupon for a router with guide bushes: pocket, piece and templates of an L large enough for them. Bushes and bits make the gap, so there is one piece.
 * Undefined where they cannot cut it.
 */
export function guidedCoupon(inlay: GuidedInlay): GuidedPair | undefined {
  const found = guidedPair(regionOf([ell(SQUARES_TO_BUSH * Math.max(inlay.pocket.guide, inlay.piece.guide))]), inlay);
  return found.ok ? found : undefined;
}
