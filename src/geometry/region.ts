import { boundsOfPoints, joinBounds, type Bounds } from "./bounds.ts";
import { distance, vec, type Vec } from "./vec.ts";

/** A closed ring of straight sides, its first point not repeated; mm. */
export type Ring = readonly Vec[];

/** One connected piece: an outer ring, counter-clockwise, and the holes in it, clockwise. */
export interface Polygon {
  readonly outer: Ring;
  readonly holes: readonly Ring[];
}

/**
 * Polygons that share no area. What `uniteRings` and the other functions of clipper.ts give is of this kind; rings that may overlap,
 * cross themselves or run the wrong way become a region only through `uniteRings`.
 */
export type Region = readonly Polygon[];

/** Signed area, mm2: positive counter-clockwise. Exact for the ring; sums about its first point, so that distance costs no digits. */
export function ringArea(ring: Ring): number {
  const o = ring[0];
  if (!o) return 0;
  let twice = 0;
  for (let i = 2; i < ring.length; i++) {
    const a = ring[i - 1]!;
    const b = ring[i]!;
    twice += (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
  }
  return twice / 2;
}

/** Length all round, mm. */
export function ringLength(ring: Ring): number {
  let sum = 0;
  for (let i = 0; i < ring.length; i++) sum += distance(ring[i]!, ring[(i + 1) % ring.length]!);
  return sum;
}

/** The centre of gravity of the area inside; the ring must not cross itself and must hold some area. */
export function ringCentroid(ring: Ring): Vec {
  const o = ring[0]!;
  let twice = 0;
  let x = 0;
  let y = 0;
  for (let i = 2; i < ring.length; i++) {
    const a = vec(ring[i - 1]!.x - o.x, ring[i - 1]!.y - o.y);
    const b = vec(ring[i]!.x - o.x, ring[i]!.y - o.y);
    const c = a.x * b.y - a.y * b.x;
    twice += c;
    x += c * (a.x + b.x);
    y += c * (a.y + b.y);
  }
  return vec(o.x + x / (3 * twice), o.y + y / (3 * twice));
}

/** How often the ring runs round p, counter-clockwise positive. Points on the ring may count either way. */
export function ringWinding(ring: Ring, p: Vec): number {
  let winding = 0;
  let a = ring.at(-1);
  if (!a) return 0;
  for (const b of ring) {
    if (a.y <= p.y !== b.y <= p.y) {
      const left = (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
      if (b.y > a.y ? left > 0 : left < 0) winding += b.y > a.y ? 1 : -1;
    }
    a = b;
  }
  return winding;
}

/** All rings of a region, outers and holes. */
export const ringsOf = (region: Region): Ring[] => region.flatMap(({ outer, holes }) => [outer, ...holes]);

/** Area, mm2, holes taken off. */
export const regionArea = (region: Region): number => ringsOf(region).reduce((sum, ring) => sum + ringArea(ring), 0);

/** Length of all edges, holes' included, mm. */
export const regionPerimeter = (region: Region): number => ringsOf(region).reduce((sum, ring) => sum + ringLength(ring), 0);

/** The least upright box round the region. Throws where it is empty. */
export const regionBounds = (region: Region): Bounds => joinBounds(region.map(({ outer }) => boundsOfPoints(outer)));

/** True where p lies in the region; points on the edge may count either way. */
export const isInRegion = (region: Region, p: Vec): boolean =>
  ringsOf(region).reduce((sum, ring) => sum + ringWinding(ring, p), 0) !== 0;

/** Number of separate pieces and of holes in them. */
export const countsOf = (region: Region): { readonly parts: number; readonly holes: number } => ({
  parts: region.length,
  holes: region.reduce((sum, polygon) => sum + polygon.holes.length, 0),
});
