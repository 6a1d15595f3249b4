import { countsOf, isInRegion, ringWinding, ringsOf, type Region, type Ring } from "./region.ts";
import { ringIndex, type RingIndex } from "./ring-index.ts";
import { CORNER_TURN, SWALLOWED } from "./tolerance.ts";
import { add, angleBetween, distance, leftOf, lerp, scale, sub, unit, type Vec } from "./vec.ts";

/** A stretch of edge that an offset cannot follow. */
export interface SwallowedRun {
  /**
   * `tight`: the edge bends within it at a radius under the distance; `narrow`: another edge stands in the way; `corner`: nothing but
   * the share that a sharp corner takes of its own straight sides, so that the moved edge is as sharp and all there.
   */
  readonly kind: "tight" | "narrow" | "corner";
  /** Points of the edge from end to end; a ring swallowed all round ends where it starts. */
  readonly points: readonly Vec[];
  /** mm */
  readonly length: number;
}

/** What moving an edge lost. */
export interface Swallowed {
  readonly runs: readonly SwallowedRun[];
  readonly partsBefore: number;
  readonly partsAfter: number;
  readonly holesBefore: number;
  readonly holesAfter: number;
  /** Parts of which nothing is left, and parts that fell into two or more (moves inwards). */
  readonly vanishedParts: number;
  readonly splitParts: number;
  /** Holes closed up (moves outwards). */
  readonly closedHoles: number;
}

/**
 * What is lost when the edge of `before` moves by `delta` mm (not 0) to give `after`. An edge point p is swallowed where the distance from
 * p + |delta| n, n being the normal on the side moved to, to the edge is under |delta|. Ends of runs are settled to 0.001 mm.
 */
export function swallowed(before: Region, delta: number, after: Region): Swallowed {
  const d = Math.abs(delta);
  if (!(d > 0)) throw new RangeError("swallowed: the edge must move");
  const rings = ringsOf(before);
  const index = ringIndex(rings, d);
  const was = countsOf(before);
  const is = countsOf(after);
  const heirs = before.map((part) => after.filter(({ outer }) => isInRegion([part], outer[0]!)).length);
  return {
    runs: rings.flatMap((ring) => runsOf(ring, delta, index)),
    partsBefore: was.parts,
    partsAfter: is.parts,
    holesBefore: was.holes,
    holesAfter: is.holes,
    vanishedParts: delta < 0 ? heirs.filter((count) => count === 0).length : 0,
    splitParts: delta < 0 ? heirs.filter((count) => count > 1).length : 0,
    closedHoles: delta > 0 ? before.flatMap(({ holes }) => holes).filter((hole) => !isKept(hole, after)).length : 0,
  };
}

/** True if some hole of `after` lies in `hole`. */
const isKept = (hole: Ring, after: Region): boolean =>
  after.some(({ holes }) => holes.some((left) => ringWinding(hole, left[0]!) !== 0));

function runsOf(ring: Ring, delta: number, index: RingIndex): SwallowedRun[] {
  const d = Math.abs(delta);
  const n = ring.length;
  const isLost = (i: number, t: number): boolean => {
    const a = ring[i]!;
    const b = ring[(i + 1) % n]!;
    if (distance(a, b) === 0) return false;
    // Outer rings keep the material on their left, holes too.
    const normal = scale(leftOf(unit(sub(b, a))), delta < 0 ? d : -d);
    return index.distanceWithin(add(lerp(a, b, t), normal), d - SWALLOWED) !== undefined;
  };
  const places = samplesOf(ring, d / 16);
  const lost = places.map(({ i, t }) => isLost(i, t));
  if (lost.every(Boolean)) return [describe(ring, [...ring, ring[0]!], delta)];
  const runs: SwallowedRun[] = [];
  for (const [k, first] of places.entries()) {
    const previous = (k + places.length - 1) % places.length;
    if (!lost[k] || lost[previous]) continue;
    let end = k;
    while (lost[(end + 1) % places.length]) end = (end + 1) % places.length;
    const from = edgeOfRun(ring, places[previous]!, first, isLost);
    const to = edgeOfRun(ring, places[(end + 1) % places.length]!, places[end]!, isLost);
    runs.push(describe(ring, between(ring, from, to), delta));
  }
  return runs;
}

/** A place on a ring: on the side from point i, at t of it. */
interface Place {
  readonly i: number;
  readonly t: number;
}

/** Places about `step` apart or closer, on every side at least one, none on a corner, where there is no normal. */
const samplesOf = (ring: Ring, step: number): Place[] =>
  ring.flatMap((a, i) => {
    const count = Math.max(1, Math.ceil(distance(a, ring[(i + 1) % ring.length]!) / step));
    return Array.from({ length: count }, (_, k) => ({ i, t: (k + 0.5) / count }));
  });

/** Where a run ends, between a place that is kept and its lost neighbour. */
function edgeOfRun(ring: Ring, kept: Place, lost: Place, isLost: (i: number, t: number) => boolean): Place {
  const n = ring.length;
  // On different sides the corner between them is tried first.
  let [outside, inside] = [kept, lost];
  if (kept.i !== lost.i) {
    const ahead = (kept.i + 1) % n === lost.i;
    const near = { i: lost.i, t: ahead ? 0 : 1 };
    if (isLost(near.i, near.t)) {
      inside = { i: kept.i, t: ahead ? 1 : 0 };
      if (!isLost(inside.i, inside.t)) return inside;
    } else outside = near;
  }
  const length = distance(ring[inside.i]!, ring[(inside.i + 1) % n]!);
  while (Math.abs(inside.t - outside.t) * length > 1e-3) {
    const middle = { i: inside.i, t: (inside.t + outside.t) / 2 };
    if (isLost(middle.i, middle.t)) inside = middle;
    else outside = middle;
  }
  return inside;
}

/** The ring's points from one place forward to another. */
function between(ring: Ring, from: Place, to: Place): Vec[] {
  const n = ring.length;
  const at = ({ i, t }: Place): Vec => lerp(ring[i]!, ring[(i + 1) % n]!, t);
  const points = [at(from)];
  const sides = (to.i - from.i + n) % n || (to.t < from.t ? n : 0);
  for (let k = 1; k <= sides; k++) points.push(ring[(from.i + k) % n]!);
  points.push(at(to));
  return points.filter((p, i) => i === 0 || distance(p, points[i - 1]!) > 0);
}

function describe(ring: Ring, points: readonly Vec[], delta: number): SwallowedRun {
  const d = Math.abs(delta);
  // Turns towards the side moved to, with the length up to them.
  const turns: { at: number; turn: number }[] = [];
  let length = 0;
  for (let i = 1; i < points.length; i++) {
    length += distance(points[i - 1]!, points[i]!);
    const next = points[i + 1];
    if (!next) break;
    const turn = angleBetween(sub(points[i]!, points[i - 1]!), sub(next, points[i]!));
    turns.push({ at: length, turn: delta < 0 ? turn : -turn });
  }
  const corners = turns.filter(({ turn }) => Math.abs(turn) > CORNER_TURN);
  const [corner] = corners;
  let kind: SwallowedRun["kind"] = "narrow";
  if (bendsUnder(turns, d)) kind = "tight";
  else if (corner && corners.length === 1 && corner.turn > 0 && points.length < ring.length + 1) {
    const share = d * Math.tan(corner.turn / 2) + 0.05 * d;
    if (corner.at <= share && length - corner.at <= share) kind = "corner";
  }
  return { kind, points, length };
}

/** True if some stretch half of d long turns by more than a half, as a radius under d does; corners left out. */
function bendsUnder(turns: readonly { readonly at: number; readonly turn: number }[], d: number): boolean {
  const smooth = turns.filter(({ turn }) => Math.abs(turn) <= CORNER_TURN);
  let sum = 0;
  let from = 0;
  for (const { at, turn } of smooth) {
    sum += turn;
    for (; at - smooth[from]!.at >= d / 2; from++) sum -= smooth[from]!.turn;
    if (sum > 0.5) return true;
  }
  return false;
}
