import { clearance, type Clearance } from "./clearance.ts";
import { difference, intersection } from "./clipper.ts";
import { nearestOnPath } from "./nearest.ts";
import { pathsOf, regionOf, type Outline } from "./outline.ts";
import { polygon, type Path } from "./path.ts";
import { regionArea, ringsOf, type Region } from "./region.ts";
import type { Vec } from "./vec.ts";
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
  const { a, b, distance } = between(own, edges);
  // Edges that keep clear of each other lie all inside or all outside.
  const isIn =
    distance > 0 && own.every(({ start }) => isInside(edges, start)) && !edges.some(({ start }) => isInside(own, start));
  if (isIn) return { margin: distance, at: a, to: b, bare: [] };
  const bare = piecesFrom(difference(regionOf(own), regionOf(edges)), edges);
  const [worst] = bare;
  if (worst) return { margin: -worst.out, at: worst.at, to: worst.to, bare };
  return { margin: distance, at: a, to: b, bare: [] };
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
      const { at, point, distance } = ringsOf([part])
        .flat()
        .map((p) => ({ at: p, ...nearestOn(edges, p) }))
        .reduce((best, found) => (found.distance > best.distance ? found : best));
      return { at, to: point, out: distance, area: regionArea([part]), outline: polygon(part.outer) };
    })
    .filter(({ out }) => out >= NOISE)
    .toSorted((a, b) => b.out - a.out);
}

function nearestOn(edges: readonly Path[], p: Vec): { readonly point: Vec; readonly distance: number } {
  return edges.map((edge) => nearestOnPath(edge, p)).reduce((best, found) => (found.distance < best.distance ? found : best));
}
