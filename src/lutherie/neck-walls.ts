/**
 * The wood between a point inside a neck section (a corner of a channel) and the section's curve.
 *
 * A section is convex, so the distance to its curve (below 0 outside) is a concave function of the point: over a channel's
 * whole outline it is least at one of the corners, never between them. Source: convexity of the distance to a convex set
 * (Boyd and Vandenberghe, Convex Optimization, section 3.2.5, from memory).
 */
import { distance, vec, type Vec } from "../geometry/vec.ts";
import { leastBetween } from "./least-between.ts";
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

const STEPS = 24;

/** The nearest point of a quarter curve: each valley of a row of samples, refined between its neighbours. */
function nearestOnSide(side: SectionSide, p: Vec): Vec {
  const step = Math.PI / 2 / STEPS;
  const away = (angle: number): number => distance(sidePoint(side, angle), p);
  const row = Array.from({ length: STEPS + 1 }, (_, i) => away(i * step));
  let best = 0;
  let least = Infinity;
  row.forEach((here, i) => {
    const [before, after] = [Math.max(i - 1, 0), Math.min(i + 1, STEPS)];
    if (here > row[before]! || here > row[after]!) return;
    const angle = leastBetween(away, before * step, after * step, 1e-7);
    const found = away(angle);
    if (found < least) [best, least] = [angle, found];
  });
  return sidePoint(side, best);
}
