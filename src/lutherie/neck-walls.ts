/**
 * The wood between a point inside a neck section (a corner of a channel) and the section's curve.
 *
 * A section is convex, so the distance to its curve (below 0 outside) is a concave function of the point: over a channel's
 * whole outline it is least at one of the corners, never between them. Source: convexity of the distance to a convex set
 * (Boyd and Vandenberghe, Convex Optimization, section 3.2.5, from memory).
 */
import { rootBetween } from "../geometry/root.ts";
import { distance, vec, type Vec } from "../geometry/vec.ts";
import { sidePoint, sidesOf, type NeckSection, type SectionSide } from "./neck-section.ts";

/** The least distance from a point to the curve, mm, below 0 where the point lies outside the wood, and both its ends. */
export interface Wall {
  readonly distance: number;
  readonly from: Vec;
  readonly to: Vec;
}

/** A channel cut square down from the glue plane: its middle (above 0 towards the treble side), its width and its depth, mm. */
export interface Channel {
  readonly middle: number;
  readonly width: number;
  readonly depth: number;
}

/** The wood left below a channel (from its two far corners) and beside its mouth (from its two upper corners). */
export interface ChannelWalls {
  readonly behind: Wall;
  readonly beside: Wall;
}

/** The wall between a point (on the glue plane or below it, y <= 0) and the section's curve. */
export function wallAt(section: NeckSection, from: Vec): Wall {
  if (!(from.y <= 0) || !Number.isFinite(from.x) || !Number.isFinite(from.y))
    throw new RangeError("wallAt: the point must lie below the glue plane");
  const sides = sidesOf(section);
  // Where both sides are alike the nearer one is that of the point.
  const near = isEven(section) ? [sides[from.x < 0 ? 0 : 1]] : sides;
  const to = near.map((side) => nearestOnSide(side, from)).reduce((a, b) => (distance(b, from) < distance(a, from) ? b : a));
  return { distance: isInside(sides, from) ? distance(from, to) : -distance(from, to), from, to };
}

/** Whether bass and treble side are alike. */
export const isEven = ({ lean, bassExponent, trebleExponent }: NeckSection): boolean =>
  lean === 0 && bassExponent === trebleExponent;

/** The walls of a channel; width and depth above 0. */
export function channelWalls(section: NeckSection, { middle, width, depth }: Channel): ChannelWalls {
  if (!(width > 0 && depth > 0)) throw new RangeError("channelWalls: a channel has a width and a depth");
  return { behind: wallOfCorners(section, middle, width, -depth), beside: wallOfCorners(section, middle, width, 0) };
}

/** The lesser wall of the two corners of a channel at the height y (0 or below). */
export function wallOfCorners(section: NeckSection, middle: number, width: number, y: number): Wall {
  // Where both sides are alike the outer corner is the nearer one.
  if (isEven(section)) return wallAt(section, vec(middle < 0 ? middle - width / 2 : middle + width / 2, y));
  const a = wallAt(section, vec(middle - width / 2, y));
  const b = wallAt(section, vec(middle + width / 2, y));
  return a.distance <= b.distance ? a : b;
}

function isInside(sides: readonly SectionSide[], { x, y }: Vec): boolean {
  const lean = sides[0]!.lean;
  const side = sides.find(({ sign }) => sign === (x < lean ? -1 : 1))!;
  return (Math.abs(x - lean) / side.a) ** side.p + (-y / side.d) ** side.p <= 1;
}

/** Places at which it is looked whether the curve comes nearer; closer together towards the ends, where a flat flank has its bend. */
const STEPS = 20;
const END = Math.PI / 2;
/** Beside the ends themselves, where the curve may run square to the way to a point without being nearest. */
const ASIDE = 1e-6;
const ANGLES = Array.from({ length: STEPS + 1 }, (_, i) => {
  const angle = (END / 2) * (1 - Math.cos((Math.PI * i) / STEPS));
  return Math.min(END - ASIDE, Math.max(ASIDE, angle));
});
/** How far a foot may lie beside the true one along the curve, mm. */
const CLOSE = 1e-7;

/** A place on the quarter curve of a depth and a half width of 1, and the direction square to it there, which is not of length 1. */
interface UnitPlace {
  readonly x: number;
  readonly y: number;
  readonly squareX: number;
  readonly squareY: number;
}

/** The place in the direction of an angle from the middle: of the superellipse x^p + y^p = 1. */
function unitPlace(power: number, angle: number): UnitPlace {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const [squareX, squareY] = [c ** (power - 1), s ** (power - 1)];
  const r = (squareX * c + squareY * s) ** (-1 / power);
  return { x: r * c, y: r * s, squareX, squareY };
}

/** The places at ANGLES hang on the power alone: kept for the sections of one neck, which have one or few. */
const kept = new Map<number, readonly UnitPlace[]>();
const MOST_KEPT = 16;

function placesOf(power: number): readonly UnitPlace[] {
  const known = kept.get(power);
  if (known) return known;
  const places = ANGLES.map((angle) => unitPlace(power, angle));
  if (kept.size >= MOST_KEPT) kept.clear();
  kept.set(power, places);
  return places;
}

/** The nearest point of a quarter curve: an end, or a place between at which the curve turns from nearing to leaving. */
function nearestOnSide(side: SectionSide, p: Vec): Vec {
  const [start, end] = [sidePoint(side, 0), sidePoint(side, END)];
  let best = distance(end, p) < distance(start, p) ? end : start;
  const leaving = (angle: number): number => leavingAt(side, p, unitPlace(side.p, angle));
  let before = 0;
  for (const [i, place] of placesOf(side.p).entries()) {
    const here = leavingAt(side, p, place);
    if (before < 0 && here >= 0) {
      const root = rootBetween(leaving, ANGLES[i - 1]!, ANGLES[i]!, before, here, CLOSE);
      const foot = sidePoint(side, Math.atan2(side.d * Math.sin(root), side.a * Math.cos(root)));
      if (distance(foot, p) < distance(best, p)) best = foot;
    }
    before = here;
  }
  return best;
}

/**
 * How far beyond the foot of p the curve has come on its way to the back: the way from p to its point, measured along its direction there;
 * below 0 while it comes nearer.
 */
function leavingAt({ sign, a, d, lean }: SectionSide, p: Vec, { x, y, squareX, squareY }: UnitPlace): number {
  const [across, down] = [squareY / d, squareX / a];
  const off = (lean + sign * a * x - p.x) * -sign * across - (-d * y - p.y) * down;
  return off / Math.sqrt(across * across + down * down);
}
