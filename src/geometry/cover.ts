import { boundsOfPoints } from "./bounds.ts";
import { clearance, type Clearance } from "./clearance.ts";
import { difference, intersection } from "./clipper.ts";
import { nearestOnPath } from "./nearest.ts";
import { pathsOf, regionOf, type Outline } from "./outline.ts";
import { polygon, type Path } from "./path.ts";
import { isInRegion, regionArea, ringsOf, type Polygon, type Region } from "./region.ts";
import { add, distance, lerp, polar, scale, vec, type Vec } from "./vec.ts";
import { isInside } from "./winding.ts";

/** A piece that is not covered: its farthest point from what covers, the nearest point there, how far that is, and its size. */
export interface Bare {
  readonly at: Vec;
  readonly to: Vec;
  readonly out: number;
  /** mm2 */
  readonly area: number;
  readonly outline: Path;
}

export interface Cover {
  /** Above 0: the least distance from what is covered to the edge of what covers it. Below 0: how far out the farthest bare piece stands. */
  readonly margin: number;
  /** On what is covered, and the nearest point on the edge of what covers it. */
  readonly at: Vec;
  readonly to: Vec;
  /** The farthest out first. */
  readonly bare: readonly Bare[];
}

/** Pieces thinner than this, mm, are noise of flattening: two curves of one shape, each within 0.001 mm. */
const NOISE = 0.004;

/** Whether the pieces of `over` cover all of `under`, by how much, and where not. Undefined where either holds no piece. */
export function cover(over: readonly Outline[], under: readonly Outline[]): Cover | undefined {
  if (over.length === 0 || under.length === 0) return undefined;
  const [edges, own] = [over.flatMap(pathsOf), under.flatMap(pathsOf)];
  const { a, b, distance: gap } = between(own, edges);
  // Edges that keep clear of each other lie all inside or all outside.
  const isIn = gap > 0 && own.every(({ start }) => isInside(edges, start)) && !edges.some(({ start }) => isInside(own, start));
  if (isIn) return { margin: gap, at: a, to: b, bare: [] };
  const bare = piecesFrom(difference(regionOf(own), regionOf(edges)), edges);
  const [worst] = bare;
  if (worst) return { margin: -worst.out, at: worst.at, to: worst.to, bare };
  return { margin: gap, at: a, to: b, bare: [] };
}

/**
 * How far two outlines, their holes counted, stand apart: the least distance of their edges, the first point on `one`. Below 0 where they
 * lie on each other: how far `one` then reaches into `other`.
 */
export function apart(one: Outline, other: Outline): Clearance {
  const [own, edges] = [pathsOf(one), pathsOf(other)];
  const found = between(own, edges);
  const isApart = found.distance > 0 && !isInside(edges, one.outer.start) && !isInside(own, other.outer.start);
  if (isApart) return found;
  const [worst] = piecesFrom(intersection(regionOf(own), regionOf(edges)), edges);
  return worst ? { a: worst.at, b: worst.to, distance: -worst.out } : found;
}

/**
 * How far `inner` keeps inside `outer`: the least distance of their edges, the first point on `inner`. Below 0 where it does not lie in it:
 * how far it then stands out, or half lies in a hole.
 */
export function roomInside(inner: Outline, outer: Outline): Clearance {
  const found = cover([outer], [inner])!;
  return { a: found.at, b: found.to, distance: found.margin };
}

/** The closest two of several edges. */
const between = (some: readonly Path[], others: readonly Path[]): Clearance =>
  some
    .flatMap((path) => others.map((other) => clearance(path, other)))
    .reduce((best, found) => (found.distance < best.distance ? found : best));

/** Each piece of a region with its point farthest from the edges, the farthest first. */
function piecesFrom(region: Region, edges: readonly Path[]): Bare[] {
  return region
    .map((part): Bare => {
      const at = farthestIn(part, edges);
      const near = nearestOn(edges, at);
      return { at, to: near.point, out: near.distance, area: regionArea([part]), outline: polygon(part.outer) };
    })
    .filter(({ out }) => out >= NOISE)
    .toSorted((a, b) => b.out - a.out);
}

/** Sides of a piece are looked at this far apart, mm, and its inside at so many places across. */
const SIDE_STEP = 0.5;
const ACROSS = 16;
const SETTLED = 5e-4;

/**
 * The point of a piece farthest from the edges, settled to 0.001 mm about the best of its corners, of places along its sides and of a grid
 * over its inside: what spans from one edge to another is farthest off between them, what fills a hole in its middle.
 */
function farthestIn(part: Polygon, edges: readonly Path[]): Vec {
  const { minX, minY, maxX, maxY } = boundsOfPoints(part.outer);
  const rings = ringsOf([part]);
  const onSides = rings.flatMap((ring) =>
    ring.flatMap((a, i) => {
      const b = ring[(i + 1) % ring.length]!;
      const count = Math.min(200, Math.max(1, Math.ceil(distance(a, b) / SIDE_STEP)));
      return Array.from({ length: count }, (_, k) => lerp(a, b, k / count));
    }),
  );
  const step = Math.max(maxX - minX, maxY - minY) / ACROSS;
  const inside = Array.from({ length: ACROSS * ACROSS }, (_, k) =>
    vec(minX + ((maxX - minX) * ((k % ACROSS) + 0.5)) / ACROSS, minY + ((maxY - minY) * (Math.floor(k / ACROSS) + 0.5)) / ACROSS),
  ).filter((p) => isInRegion([part], p));
  const away = (p: Vec): number => nearestOn(edges, p).distance;
  let best = part.outer[0]!;
  let most = -1;
  const take = (p: Vec): boolean => {
    const here = away(p);
    if (here <= most) return false;
    [best, most] = [p, here];
    return true;
  };
  for (const p of [...onSides, ...inside]) take(p);
  for (let reach = step; reach > SETTLED;) {
    const from = best;
    const better = DIRECTIONS.map((way) => add(from, scale(way, reach))).filter((p) => isInRegion([part], p) && take(p));
    if (better.length === 0) reach /= 2;
  }
  return best;
}

const DIRECTIONS = Array.from({ length: 8 }, (_, k) => polar(vec(0, 0), 1, (k * Math.PI) / 4));

function nearestOn(edges: readonly Path[], p: Vec): { readonly point: Vec; readonly distance: number } {
  return edges.map((edge) => nearestOnPath(edge, p)).reduce((best, found) => (found.distance < best.distance ? found : best));
}
