import { arcOfRadius, arcOfRise } from "../arc.ts";
import { line, type Segment } from "../path.ts";
import { tangentAt } from "../segment.ts";
import { SAME_POINT } from "../tolerance.ts";
import { angleBetween, angleOf, distance, sub, turned, vec, type Vec } from "../vec.ts";
import { endBends } from "./handles.ts";
import { isSmooth, placeOfPoint, type OutlinePoint } from "./point.ts";

/** A side between two points, before corners are cut: straight and arc sides are known, curves have their directions. */
export interface Side {
  readonly from: Vec;
  readonly to: Vec;
  readonly length: number;
  /** Undefined for a curve. */
  readonly fixed: Segment | undefined;
  /** Directions of travel where it starts and ends, as turns from the chord, radians. */
  readonly leaving: number;
  readonly arriving: number;
  /** An arc whose radius is under half its chord, or that finds nothing to be tangent to: drawn straight. */
  readonly refused: boolean;
}

type Mutable = { -readonly [K in keyof Side]: Side[K] };

const SWEEPS = 30;
const ROUNDS = 3;
const SETTLING = 24;
/** Radians in one round of settling. */
const LARGEST_STEP = 0.02;
/** Half the turn of a side is taken for no more than this where chords are turned into lengths of arcs: beyond, they grow without end. */
const MOST_HALF_TURN = 2.6;

/**
 * The sides of a closed run of points (at least two, no neighbours at one place), the side i from point i.
 *
 * Where nothing fixes the direction at a smooth point, it is chosen so that the curvatures of both curves agree there. With the turns A
 * and B of a curve's ends from its chord, counter-clockwise, and l the length of the circular arc that turns by B - A over the chord,
 * curvature at the start is -(4 A + 2 B) / l and at the end (2 A + 4 B) / l: exact for circles, first order otherwise. Equal curvatures
 * at every point make a system of linear equations with a dominant diagonal, solved by sweeps; l is brought up to date three times, and
 * the directions are then turned on by what the bends of the cubics themselves still differ. A curve's free end at a corner bends like a circle there, A = -B. Neighbours that are straight or arcs give their own direction.
 */
export function sidesOf(points: readonly OutlinePoint[]): Side[] {
  const n = points.length;
  const sides = points.map((point, i): Mutable => {
    const from = placeOfPoint(point);
    const to = placeOfPoint(points[(i + 1) % n]!);
    return { from, to, length: distance(from, to), fixed: undefined, leaving: 0, arriving: 0, refused: false };
  });
  fixStraightAndArcs(points, sides);

  // Turn from the chord that ends at point i to the one that begins there.
  const turns = sides.map((side, i) => {
    const before = sides[(i + n - 1) % n]!;
    return angleBetween(sub(before.to, before.from), sub(side.to, side.from));
  });
  const given = points.map((point, i) => givenDirections(point, sides[(i + n - 1) % n]!, sides[i]!));
  sides.forEach((side, i) => {
    if (side.fixed) return;
    const leaving = given[i]!.leaving;
    const arriving = given[(i + 1) % n]!.arriving;
    const chord = angleOf(sub(side.to, side.from));
    if (leaving !== undefined) side.leaving = wrapped(leaving - chord);
    if (arriving !== undefined) side.arriving = wrapped(arriving - chord);
  });
  const isFreeStart = sides.map((side, i) => !side.fixed && given[i]!.leaving === undefined);
  const isFreeEnd = sides.map((side, i) => !side.fixed && given[(i + 1) % n]!.arriving === undefined);
  if (!isFreeStart.some(Boolean) && !isFreeEnd.some(Boolean)) return sides;

  for (let round = 0; round < ROUNDS; round++) {
    const weights = sides.map((side) => 1 / arcLength(side));
    for (let sweep = 0; sweep < SWEEPS; sweep++) {
      for (let i = 0; i < n; i++) {
        const after = sides[i]!;
        const before = sides[(i + n - 1) % n]!;
        const freeStart = isFreeStart[i]!;
        const freeEnd = isFreeEnd[(i + n - 1) % n]!;
        if (isSmooth(points[i]!) && freeStart && freeEnd) {
          const a = weights[(i + n - 1) % n]!;
          const b = weights[i]!;
          before.arriving = (2 * b * turns[i]! - b * after.arriving - a * before.leaving) / (2 * (a + b));
          after.leaving = before.arriving - turns[i]!;
        } else {
          if (freeStart) after.leaving = -after.arriving;
          if (freeEnd) before.arriving = -before.leaving;
        }
      }
    }
  }
  settle(sides, (i) => isSmooth(points[i]!) && isFreeStart[i]! && isFreeEnd[(i + n - 1) % n]!);
  return sides;
}

/** Turns the free directions on by what the bends on both sides of their points still differ. */
function settle(sides: Mutable[], isFree: (i: number) => boolean): void {
  const n = sides.length;
  for (let round = 0; round < SETTLING; round++) {
    const bends = sides.map((side) => (side.fixed ? undefined : endBends(side)));
    for (let i = 0; i < n; i++) {
      if (!isFree(i)) continue;
      const before = sides[(i + n - 1) % n]!;
      const after = sides[i]!;
      const differ = bends[(i + n - 1) % n]![1] - bends[i]![0];
      const step = (-0.6 * differ) / (4 / arcLength(before) + 4 / arcLength(after));
      const bounded = LARGEST_STEP * Math.tanh(step / LARGEST_STEP);
      before.arriving += bounded;
      after.leaving += bounded;
    }
  }
}

/** Length of the arc over the side's chord that turns as much as the side. */
function arcLength({ length, leaving, arriving }: Side): number {
  const half = Math.min(MOST_HALF_TURN, Math.abs(arriving - leaving) / 2);
  return half < 1e-6 ? length : (length * half) / Math.sin(half);
}

/** Directions at a point that do not follow from the curves' fairness. */
function givenDirections(
  point: OutlinePoint,
  before: Side,
  after: Side,
): { readonly arriving: number | undefined; readonly leaving: number | undefined } {
  if (!isSmooth(point)) return { arriving: point.arriving, leaving: point.direction };
  const ownWay = before.fixed
    ? tangentAt({ from: before.from, segment: before.fixed }, 1)
    : after.fixed && tangentAt({ from: after.from, segment: after.fixed }, 0);
  const direction = ownWay ? angleOf(ownWay) : point.direction;
  return { arriving: direction, leaving: direction };
}

function fixStraightAndArcs(points: readonly OutlinePoint[], sides: Mutable[]): void {
  const n = sides.length;
  const tangentArcs: number[] = [];
  for (const [i, side] of sides.entries()) {
    const { side: kind, radius, rise } = points[i]!;
    if (kind === "straight") side.fixed = line(side.to);
    if (kind !== "arc") continue;
    if (radius !== undefined) {
      side.fixed = arcOfRadius(side.from, side.to, Math.abs(radius), radius > 0);
      refuse(side);
    } else if (rise !== undefined) side.fixed = bowed(side, rise);
    else tangentArcs.push(i);
  }
  // Each may be tangent to the one found before it; a ring of nothing but tangent arcs hangs on nothing.
  for (let left = tangentArcs, before = -1; left.length > 0 && left.length !== before;) {
    before = left.length;
    left = left.filter((i) => !fixTangentArc(points, sides, i, n));
    if (left.length === 0) return;
    if (left.length === before) for (const i of left) refuse(sides[i]!);
  }
}

/** An arc that bows out less than can be drawn is a straight side. */
const bowed = (side: Side, rise: number): Segment =>
  Math.abs(rise) < SAME_POINT ? line(side.to) : arcOfRise(side.from, side.to, rise);

function fixTangentArc(points: readonly OutlinePoint[], sides: Mutable[], i: number, n: number): boolean {
  const side = sides[i]!;
  const chord = sub(side.to, side.from);
  const next = (i + 1) % n;
  const start = knownDirection(points[i]!, sides[(i + n - 1) % n]!, 1);
  const end = knownDirection(points[next]!, sides[next]!, 0);
  if (!start && !end) return false;
  // An arc turns as much to the one side of its chord at the start as to the other at the end.
  const turn = start ? angleBetween(chord, start) : -angleBetween(chord, end!);
  const rise = (-side.length / 2) * Math.tan(turn / 2);
  if (Math.abs(rise) < 1e3 * side.length) side.fixed = bowed(side, rise);
  refuse(side);
  return true;
}

/** The direction in which a smooth point must be passed, if it is said or a neighbour that is no curve gives it. */
function knownDirection(point: OutlinePoint, neighbour: Side, at: 0 | 1): Vec | undefined {
  if (!isSmooth(point)) {
    const own = at === 1 ? point.direction : point.arriving;
    return own === undefined ? undefined : turned(vec(1, 0), own);
  }
  if (neighbour.fixed) return tangentAt({ from: neighbour.from, segment: neighbour.fixed }, at);
  return point.direction === undefined ? undefined : turned(vec(1, 0), point.direction);
}

/** Draws the side straight where no arc was found for it. */
function refuse(side: Mutable): void {
  if (side.fixed) return;
  side.fixed = line(side.to);
  side.refused = true;
}

const wrapped = (angle: number): number => Math.atan2(Math.sin(angle), Math.cos(angle));
