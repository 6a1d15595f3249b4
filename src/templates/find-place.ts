/** Finds room on a template for what may stand anywhere on it. */
import type { Drawing } from "../drawing/drawing.ts";
import { flatten } from "../geometry/flatten.ts";
import { isInRegion, regionBounds, ringsOf, type Region } from "../geometry/region.ts";
import { vec, type Vec } from "../geometry/vec.ts";
import { shapesOf } from "./edge.ts";

/** Chords of the lines that are kept off, mm. */
const CHORD = 0.1;
/** Places tried in each direction. */
const TRIES = 40;

/** The straight sides of everything drawn; the centre line may be written over. */
export const sidesOf = (drawing: Drawing): (readonly [Vec, Vec])[] =>
  shapesOf(drawing)
    .filter(({ role }) => role !== "centre")
    .flatMap(({ path, holes = [] }) => [path, ...holes])
    .flatMap((path) => {
      const points = flatten(path, CHORD);
      const ring = path.closed ? [...points, points[0]!] : points;
      return ring.slice(1).map((b, i) => [ring[i]!, b] as const);
    });

/**
 * The lower left corner of a box `width` by `height` within the region that meets the fewest of the sides and lies nearest to the wish
 * (0 to 1 of the room there is, along the region's longer way). Undefined where the region has no room for it.
 */
export function findPlace(
  region: Region,
  sides: readonly (readonly [Vec, Vec])[],
  width: number,
  height: number,
  wish = 0.5,
): Vec | undefined {
  if (region.length === 0) return undefined;
  const { minX, minY, maxX, maxY } = regionBounds(region);
  const [roomX, roomY] = [maxX - minX - width, maxY - minY - height];
  if (roomX < 0 || roomY < 0) return undefined;
  const edges = ringsOf(region).flatMap((ring) => ring.map((b, i) => [ring[(i + ring.length - 1) % ring.length]!, b] as const));
  const [wishX, wishY] = roomX > roomY ? [wish, 0.5] : [0.5, wish];
  const tries = Array.from({ length: (TRIES + 1) ** 2 }, (_, k) => {
    const [u, v] = [(k % (TRIES + 1)) / TRIES, Math.floor(k / (TRIES + 1)) / TRIES];
    return { at: vec(minX + roomX * u, minY + roomY * v), away: Math.hypot((u - wishX) * roomX, (v - wishY) * roomY) };
  }).toSorted((a, b) => a.away - b.away);
  let best: { readonly at: Vec; readonly met: number } | undefined;
  for (const { at } of tries) {
    const meets = ([a, b]: readonly [Vec, Vec]): boolean => meetsBox(a, b, at, width, height);
    if (!isInRegion(region, vec(at.x + width / 2, at.y + height / 2)) || edges.some(meets)) continue;
    const met = sides.filter(meets).length;
    if (met === 0) return at;
    if (!best || met < best.met) best = { at, met };
  }
  return best?.at;
}

/** Whether the straight piece from a to b has a point in the box (Liang and Barsky). */
function meetsBox(a: Vec, b: Vec, at: Vec, width: number, height: number): boolean {
  if (Math.max(a.x, b.x) < at.x || Math.min(a.x, b.x) > at.x + width) return false;
  if (Math.max(a.y, b.y) < at.y || Math.min(a.y, b.y) > at.y + height) return false;
  let [t0, t1] = [0, 1];
  for (const [p, q] of [
    [a.x - b.x, a.x - at.x],
    [b.x - a.x, at.x + width - a.x],
    [a.y - b.y, a.y - at.y],
    [b.y - a.y, at.y + height - a.y],
  ] as const) {
    if (p === 0) {
      if (q < 0) return false;
    } else if (p < 0) t0 = Math.max(t0, q / p);
    else t1 = Math.min(t1, q / p);
    if (t0 > t1) return false;
  }
  return true;
}
