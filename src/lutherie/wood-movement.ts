/**
 * How wood grows and shrinks across its grain as its moisture changes.
 *
 *   between 6 and 14 %:  dD = D C (M_F - M_I)                       C radial or tangential, of the size at 10 %
 *   elsewhere, 0-30 %:   dD = D (M_F - M_I) / (30·100/S - 30 + M_I)  S the shrinkage from green to ovendry, percent
 *
 * Source: USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), chapter 13, Eq. 13-2 with Table 13-5, and
 * Eq. 13-3 (the second from memory, its limits read). For the second rule S is the one that C itself stands for,
 * S = 3000 C / (1 + 20 C), so that both rules agree at 10 % and a wood's two table rows are never mixed.
 * Along the grain wood is taken as still: 0.1-0.2 % from green to ovendry, 0.02-0.04 mm in 650 mm for 1 % of moisture.
 */
import type { WoodSpecies } from "./wood-species.ts";

/** How a board was sawn, which decides what lies across its width: the radius, the ring, or the half of each. */
export type Cut = "quartersawn" | "riftsawn" | "flatsawn";
export type MovementRule = "straight-line" | "wide-range";

/** Moisture in percent before and after. */
export interface MoistureChange {
  readonly fromPct: number;
  readonly toPct: number;
}

/** Something of one wood: how it was sawn and where its grain runs, radians from the x axis. */
export interface WoodPiece {
  readonly species: WoodSpecies;
  readonly cut: Cut;
  readonly grain: number;
}

/** Lengths along the x and the y axis, mm. */
export interface Extent {
  readonly x: number;
  readonly y: number;
}

const STRAIGHT_FROM_PCT = 6;
const STRAIGHT_TO_PCT = 14;
const FIBRE_SATURATION_PCT = 30;

/** The coefficient across the width of a board sawn like this; riftsawn (rings at 45 degrees) is the mean of the two. */
export function coefficientAcross({ movement }: WoodSpecies, cut: Cut): number {
  if (cut === "quartersawn") return movement.radial;
  return cut === "flatsawn" ? movement.tangential : (movement.radial + movement.tangential) / 2;
}

/** Which rule a change of moisture falls under; RangeError outside 0 to 30 %. */
export function movementRule({ fromPct, toPct }: MoistureChange): MovementRule {
  const lower = Math.min(fromPct, toPct);
  const upper = Math.max(fromPct, toPct);
  if (!(lower >= 0 && upper <= FIBRE_SATURATION_PCT))
    throw new RangeError("movementRule: the moisture must be between 0 and 30 %");
  return lower >= STRAIGHT_FROM_PCT && upper <= STRAIGHT_TO_PCT ? "straight-line" : "wide-range";
}

/** Change of a size by the straight line, mm; the coefficient is a fraction for 1 % of moisture. Right from 6 to 14 %. */
export const straightLineMovement = (size: number, coefficient: number, { fromPct, toPct }: MoistureChange): number =>
  size * coefficient * (toPct - fromPct);

/** Change of a size by the wide-range rule, mm; the shrinkage (percent, green to ovendry) between 0 and 100. */
export function wideRangeMovement(size: number, shrinkagePct: number, change: MoistureChange): number {
  if (!(shrinkagePct > 0 && shrinkagePct < 100))
    throw new RangeError("wideRangeMovement: the shrinkage must be between 0 and 100 %");
  movementRule(change);
  const { fromPct, toPct } = change;
  return (size * (toPct - fromPct)) / ((FIBRE_SATURATION_PCT * 100) / shrinkagePct - FIBRE_SATURATION_PCT + fromPct);
}

/** The shrinkage (percent) that a coefficient at 10 % moisture stands for; the coefficient from 0 to 0.01, 0 not included. */
export function impliedShrinkagePct(coefficient: number): number {
  if (!(coefficient > 0 && coefficient <= 0.01))
    throw new RangeError("impliedShrinkagePct: the coefficient must be between 0 and 0.01");
  return (FIBRE_SATURATION_PCT * 100 * coefficient) / (1 + (FIBRE_SATURATION_PCT - 10) * coefficient);
}

/** Change across the grain as a fraction of the size before, by whichever rule holds; moisture from 0 to 30 %. */
export function strainAcross(species: WoodSpecies, cut: Cut, change: MoistureChange): number {
  const coefficient = coefficientAcross(species, cut);
  return movementRule(change) === "straight-line"
    ? straightLineMovement(1, coefficient, change)
    : wideRangeMovement(1, impliedShrinkagePct(coefficient), change);
}

/** What one piece does along each axis, mm, and by which rule. */
export interface PieceMovement extends Extent {
  readonly rule: MovementRule;
}

/** Growth (shrinking below 0) of a piece of this extent along x and y; extents finite and not below 0. */
export function pieceMovement(piece: WoodPiece, extent: Extent, change: MoistureChange): PieceMovement {
  requireExtent(extent);
  const { xx, yy } = strain(piece, change);
  return { x: xx * extent.x, y: yy * extent.y, rule: movementRule(change) };
}

/** What the first of two glued pieces wants to do against the second. */
export interface PairMovement extends PieceMovement {
  /** The farthest that one corner of the glued area would slide, the opposite corner held, mm: also right for slanting grain. */
  readonly corner: number;
}

/** Growth of the first piece less that of the second over the glued rectangle, along x and y, were they free. */
export function pairMovement(first: WoodPiece, second: WoodPiece, glued: Extent, change: MoistureChange): PairMovement {
  requireExtent(glued);
  const a = strain(first, change);
  const b = strain(second, change);
  const x = (a.xx - b.xx) * glued.x;
  const y = (a.yy - b.yy) * glued.y;
  const slantX = (a.xy - b.xy) * glued.y;
  const slantY = (a.xy - b.xy) * glued.x;
  // The slip is linear in the vector between two points, so its length is greatest on one of the two diagonals.
  const corner = Math.max(Math.hypot(x + slantX, y + slantY), Math.hypot(x - slantX, y - slantY));
  return { x, y, corner, rule: movementRule(change) };
}

/** The plane strain of a piece that moves across its grain only. */
function strain({ species, cut, grain }: WoodPiece, change: MoistureChange): { xx: number; yy: number; xy: number } {
  if (!Number.isFinite(grain)) throw new RangeError("strain: the grain needs a direction");
  const across = strainAcross(species, cut, change);
  const c = Math.cos(grain);
  const s = Math.sin(grain);
  return { xx: across * s * s, yy: across * c * c, xy: -across * s * c };
}

function requireExtent({ x, y }: Extent): void {
  if (!(x >= 0 && y >= 0 && x < Infinity && y < Infinity))
    throw new RangeError("wood movement: an extent must be finite and not below 0");
}
