/** How a pocket and its piece fit, measured on their edges as they are. Lengths in mm, areas in mm2. */
import { difference } from "../geometry/clipper.ts";
import { regionArea, ringsOf, type Region, type Ring } from "../geometry/region.ts";
import { ringIndex } from "../geometry/ring-index.ts";
import { distance, lerp, type Vec } from "../geometry/vec.ts";

export interface PairFit {
  /** Least and greatest distance between the two edges, from either to the other; where they overlap the least is 0. */
  readonly minGap: number;
  readonly maxGap: number;
  /** Area of the piece that lies outside of the pocket. */
  readonly overlap: number;
}

/** Distance between the points at which an edge is measured. */
const STEP = 0.02;

/**
 * Measures the gap round a piece in its pocket. `reach` bounds what is looked for: a place further from the other edge counts as `reach`.
 * Undefined where either is empty.
 */
export function pairFit(pocket: Region, piece: Region, reach: number): PairFit | undefined {
  if (pocket.length === 0 || piece.length === 0) return undefined;
  const outside = ringsOf(pocket);
  const inside = ringsOf(piece);
  let minGap = reach;
  let maxGap = 0;
  for (const [from, to] of [
    [inside, outside],
    [outside, inside],
  ] as const) {
    const index = ringIndex(to, reach);
    for (const ring of from)
      for (const p of samples(ring, STEP)) {
        const away = index.distanceWithin(p, reach) ?? reach;
        minGap = Math.min(minGap, away);
        maxGap = Math.max(maxGap, away);
      }
  }
  const overlap = regionArea(difference(piece, pocket));
  return { minGap: overlap > 1e-4 ? 0 : minGap, maxGap, overlap };
}

/** A thin wall of wood between two parts of a pocket. */
export interface Wall {
  readonly thickness: number;
  readonly between: readonly [Vec, Vec];
}

/**
 * The thinnest wall between any two parts of a region, or undefined if none is thinner than `reach`.
 */
export function thinnestWall(region: Region, reach: number): Wall | undefined {
  let best: Wall | undefined;
  for (const [i, part] of region.entries()) {
    const others = ringsOf(region.slice(i + 1));
    if (others.length === 0) break;
    const index = ringIndex(others, reach);
    for (const ring of ringsOf([part]))
      for (const p of samples(ring, STEP)) {
        const within = best?.thickness ?? reach;
        const thickness = index.distanceWithin(p, within);
        if (thickness === undefined || thickness >= within) continue;
        best = { thickness, between: [p, nearestOf(others, p)] };
      }
  }
  return best;
}

function nearestOf(rings: readonly Ring[], p: Vec): Vec {
  let best = p;
  let least = Infinity;
  for (const ring of rings)
    for (const q of samples(ring, STEP)) {
      const away = distance(p, q);
      if (away < least) {
        least = away;
        best = q;
      }
    }
  return best;
}

/** The ring's corners, and points between them so that no two neighbours are further apart than `step`. */
function* samples(ring: Ring, step: number): Generator<Vec> {
  for (const [i, a] of ring.entries()) {
    const b = ring[(i + 1) % ring.length]!;
    const pieces = Math.max(1, Math.ceil(distance(a, b) / step));
    for (let k = 0; k < pieces; k++) yield lerp(a, b, k / pieces);
  }
}
