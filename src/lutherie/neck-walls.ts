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
  const [bass, treble] = sidesOf(section);
  const [own, other] = from.x < section.lean ? [bass, treble] : [treble, bass];
  const inside = isInside(own, from);
  let to = nearestOnSide(own, from);
  if (!isFarther(other, own, from, inside, distance(from, to))) {
    const across = nearestOnSide(other, from);
    if (distance(from, across) < distance(from, to)) to = across;
  }
  return { distance: inside ? distance(from, to) : -distance(from, to), from, to };
}

/**
 * Whether the other side is no nearer than `away`, that of the point's own side, without looking for its nearest place: it lies all beyond the
 * deepest line; and of one that is as full or fuller the mirror image, to which the way is no longer, lies round the own side.
 */
function isFarther(other: SectionSide, own: SectionSide, { x }: Vec, inside: boolean, away: number): boolean {
  const alike = other.a === own.a && other.p === own.p;
  const fuller = other.a >= own.a && other.p >= own.p;
  return alike || (inside && (fuller || Math.abs(x - own.lean) >= away));
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

/** Whether the curve of the point's own side goes round it. */
const isInside = ({ a, d, p, lean }: SectionSide, { x, y }: Vec): boolean => (Math.abs(x - lean) / a) ** p + (-y / d) ** p <= 1;

/** Places at which it is looked whether the curve comes nearer; closer together towards the ends, where a flat flank has its bend. */
const STEPS = 20;
const END = Math.PI / 2;
/** Beside the ends themselves, where the curve may run square to the way to a point without being nearest. */
const ASIDE = 1e-6;
const LOOKS = Array.from({ length: STEPS + 1 }, (_, i) => {
  const angle = Math.min(END - ASIDE, Math.max(ASIDE, (END / 2) * (1 - Math.cos((Math.PI * i) / STEPS))));
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return { angle, c, s };
});

/** Cosine and sine of the angles of LOOKS to a power. */
interface Powers {
  readonly power: number;
  readonly of: readonly { readonly c: number; readonly s: number }[];
}

/** Those that were asked for last: the corners of a channel want the same, and so do all sections of a neck of one shape. */
let last: Powers = { power: NaN, of: [] };

function powersOf(power: number): Powers {
  if (last.power !== power) last = { power, of: LOOKS.map(({ c, s }) => ({ c: c ** power, s: s ** power })) };
  return last;
}
/** How far a foot may lie beside the true one along the curve, mm. */
const CLOSE = 1e-7;

/** The nearest point of a quarter curve: an end, or a place between at which the curve turns from nearing to leaving. */
function nearestOnSide(side: SectionSide, point: Vec): Vec {
  const { sign, a, d, p, lean } = side;
  const [start, end] = [vec(lean + sign * a, 0), vec(lean, -d)];
  let best = distance(end, point) < distance(start, point) ? end : start;
  const { of: powers } = powersOf(p - 1);
  let before = 0;
  for (let i = 0; i <= STEPS; i++) {
    const { angle, c, s } = LOOKS[i]!;
    const here = leavingAt(side, point, c, s, powers[i]!.c, powers[i]!.s);
    if (before < 0 && here >= 0) {
      const root = rootBetween((at) => leavingAtAngle(side, point, at), LOOKS[i - 1]!.angle, angle, before, here, CLOSE);
      const foot = sidePoint(side, Math.atan2(d * Math.sin(root), a * Math.cos(root)));
      if (distance(foot, point) < distance(best, point)) best = foot;
    }
    before = here;
  }
  return best;
}

/**
 * How far the curve has come beyond the foot of a point on its way to the back, in the direction whose cosine and sine are `c` and `s` on the
 * same curve of a depth and a half width of 1; `powerC` and `powerS` are theirs to p - 1, which is the direction square to that curve.
 * Measured along the curve's own direction; below 0 while it comes nearer.
 */
function leavingAt(
  { sign, a, d, p, lean }: SectionSide,
  point: Vec,
  c: number,
  s: number,
  powerC: number,
  powerS: number,
): number {
  const r = Math.exp(Math.log(powerC * c + powerS * s) / -p);
  const [across, down] = [powerS / d, powerC / a];
  const off = (lean + sign * a * r * c - point.x) * -sign * across - (-d * r * s - point.y) * down;
  return off / Math.sqrt(across * across + down * down);
}

function leavingAtAngle(side: SectionSide, point: Vec, angle: number): number {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return leavingAt(side, point, c, s, c ** (side.p - 1), s ** (side.p - 1));
}
