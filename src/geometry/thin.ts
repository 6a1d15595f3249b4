import type { Polygon, Region, Ring } from "./region.ts";
import { FLATTEN, THIN } from "./tolerance.ts";
import { distance, distanceToSegment } from "./vec.ts";

/**
 * The ring without points that lie within `tolerance` mm of the side that replaces them (Douglas and Peucker's method), so that no point
 * of the old ring is further than that from the new one. Sides that are straight in themselves, not chords of a curve, keep both ends.
 * The points kept are points of the ring, in order. Rings of four points or fewer come back as they are, and so does a ring of which
 * nothing but a sliver would be left.
 */
export function thinRing(ring: Ring, tolerance = THIN): Ring {
  if (ring.length <= 4) return ring;
  const n = ring.length;
  const far = farthest(ring, farthest(ring, 0));
  const keep = new Uint8Array(n);
  keep[far] = 1;
  keep[farthest(ring, far)] = 1;
  for (const [i, straight] of straightSides(ring, 4 * FLATTEN).entries()) {
    if (straight) keep[i] = keep[(i + 1) % n] = 1;
  }
  const anchors = [...keep.keys()].filter((i) => keep[i] === 1);
  for (const [k, from] of anchors.entries()) {
    const to = k + 1 < anchors.length ? anchors[k + 1]! : anchors[0]! + n;
    thinBetween(ring, from, to, tolerance, keep);
  }
  const kept = ring.filter((_, i) => keep[i] === 1);
  return kept.length > 2 ? kept : ring;
}

/** Every ring of the region thinned. */
export const thinRegion = (region: Region, tolerance = THIN): Region =>
  region.map(({ outer, holes }): Polygon => ({
    outer: thinRing(outer, tolerance),
    holes: holes.map((hole) => thinRing(hole, tolerance)),
  }));

/** Marks what must stay between two kept points; indices run on past the ring's end. */
function thinBetween(ring: Ring, from: number, to: number, tolerance: number, keep: Uint8Array): void {
  const n = ring.length;
  const stack = [from, to];
  while (stack.length > 0) {
    const end = stack.pop()!;
    const start = stack.pop()!;
    const a = ring[start % n]!;
    const b = ring[end % n]!;
    let worst = tolerance;
    let at = -1;
    for (let i = start + 1; i < end; i++) {
      const away = distanceToSegment(ring[i % n]!, a, b);
      if (away > worst) {
        worst = away;
        at = i;
      }
    }
    if (at < 0) continue;
    keep[at % n] = 1;
    stack.push(start, at, at, end);
  }
}

function farthest(ring: Ring, from: number): number {
  let best = from;
  let most = -1;
  for (const [i, p] of ring.entries()) {
    const away = distance(p, ring[from]!);
    if (away > most) {
      most = away;
      best = i;
    }
  }
  return best;
}

/**
 * For each side (from point i to the next) whether it is straight in itself. A chord of length L on a curve, turning at its ends by a,
 * bows about L a / 8 off the curve; chords laid within `bow` mm cannot exceed that, so a side that does at both ends is no chord. Turns are
 * taken to a point at least L / 10 further on, past the noise of short sides.
 */
export function straightSides(ring: Ring, bow: number): boolean[] {
  const n = ring.length;
  const straight = Array.from({ length: n }, () => false);
  for (let i = 0; i < n; i++) {
    const length = distance(ring[i]!, ring[(i + 1) % n]!);
    // Below this no turn short of a right angle could say so.
    if (length < 8 * bow) continue;
    const least = (8 * bow) / length;
    straight[i] = turnsBy(ring, i, 1, length, least) && turnsBy(ring, i, -1, length, least);
  }
  return straight;
}

/** True if the ring turns by more than `least` (at most 1 radian) after side i, or before it. */
function turnsBy(ring: Ring, i: number, step: 1 | -1, length: number, least: number): boolean {
  const n = ring.length;
  const a = ring[i]!;
  const b = ring[(i + 1) % n]!;
  const corner = step > 0 ? b : a;
  for (let k = 1; k < n; k++) {
    const p = ring[((((step > 0 ? i + 1 : i) + step * k) % n) + n) % n]!;
    const [vx, vy] = step > 0 ? [p.x - corner.x, p.y - corner.y] : [corner.x - p.x, corner.y - p.y];
    const square = vx * vx + vy * vy;
    if (square * 100 < length * length) continue;
    const cosine = (b.x - a.x) * vx + (b.y - a.y) * vy;
    return cosine <= 0 || Math.abs((b.x - a.x) * vy - (b.y - a.y) * vx) > Math.sin(least) * length * Math.sqrt(square);
  }
  return false;
}
