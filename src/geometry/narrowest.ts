/**
 * The narrowest place of a shape, or of the room around it and in its holes: the least of the places where two edges face each other squarely
 * and nothing else comes between them. These are the narrow necks of the medial axis (H. Blum, "A transformation for extracting new
 * descriptors of shape", 1967; named from memory): as a disc grows past half that width the shape, opened by it, breaks there. Points and
 * corners, which lose their tip to the smallest disc, have no such place. Lengths in mm, angles in radians.
 */
import { directionOn, edgesOf, lengthOf, nearestOn, pointOn, type Edge } from "./arc-edge.ts";
import { edgeIndex, type NearestEdge } from "./arc-nearest.ts";
import { offsetArcs } from "./arc-offset.ts";
import { pathsBounds } from "./measure.ts";
import { pathsOf, type Outline } from "./outline.ts";
import type { Path } from "./path.ts";
import { reversePath } from "./segment.ts";
import { angleBetween, distance, dot, leftOf, lerp, norm, scale, sub, turned, vec, type Vec } from "./vec.ts";

/** A narrow place: how wide it is, and the two points that face each other across it. */
export interface Narrow {
  readonly width: number;
  readonly between: readonly [Vec, Vec];
}

/** `inside`: of the shape itself, its strokes; `outside`: of what is around it and in its holes. */
export type Side = "inside" | "outside";

/** Distance between the places of an edge from which one looks across. */
const STEP = 0.1;
/** Where sides are even, places so many times closer to each other are looked from in the end, to either side. */
const FINER = 10;
/** At a corner that opens to the side looked at, one looks in directions no further apart than this. */
const FAN = Math.PI / 18;
/** Cosine of 20 degrees: what lies further aside does not face the place looked from. */
const FACING = Math.cos(Math.PI / 9);
/** Cosine of half a degree: sides that draw together by less than 1 degree are even, and narrowest where the even piece ends. */
const EVEN = Math.cos(Math.PI / 360);
/** A disc counts as free of edges if none reaches further into it than this. */
const FREE = 1e-6;
/** To this the disc that just fits into a part without a neck is sought. */
const FITTED = 1e-4;
/** Radius of the first disc with which one looks across, mm. */
const SMALL = 0.75;
/** Every sixteenth place first, then those halfway between, and so on. */
const ORDER = [0, 8, 4, 12, 2, 6, 10, 14, 1, 3, 5, 7, 9, 11, 13, 15];
/** Falls from edge to edge after which the two ends of a narrow place have settled, or it is none. */
const MOST_FALLS = 100;

/** From corner to corner of the box round outlines, which have no wider place; 0 without any. */
export function acrossOf(outlines: readonly Outline[]): number {
  if (outlines.length === 0) return 0;
  const { minX, minY, maxX, maxY } = pathsBounds(outlines.map(({ outer }) => outer));
  return Math.hypot(maxX - minX, maxY - minY);
}

/**
 * The narrowest place, if it is narrower than `most`. A part (or a hole) without one, such as a triangle, counts with the largest disc in it,
 * since it vanishes with that. Exact to 1e-6 at necks, to 0.0002 at such discs; where sides draw together by less than 1 degree it is up to
 * 0.0002 wider than it should be. Outlines of lines and arcs that do not overlap; throws on a cubic.
 */
export function narrowest(outlines: readonly Outline[], side: Side, most = acrossOf(outlines)): Narrow | undefined {
  const paths = outlines.flatMap(pathsOf);
  const { best, roomy } = lookAcross(paths.map(edgesOf), side, most);
  const isRoomy = (path: Path): boolean => roomy.has(paths.indexOf(path));
  // Where a disc as wide as the best is free somewhere, the largest is no narrower.
  const alone =
    side === "inside"
      ? outlines.filter((outline) => !pathsOf(outline).some(isRoomy))
      : outlines.flatMap(({ holes }) => holes.filter((hole) => !isRoomy(hole)).map(filled));
  return alone.reduce((least, body) => largestDisc(body, least?.width ?? most) ?? least, best);
}

const filled = (hole: Path): Outline => ({ outer: reversePath(hole), holes: [] });

/** The largest disc in an outline, as a place as wide as its diameter, if that is below `most`; up to 0.0002 too wide. */
export function largestDisc(outline: Outline, most: number): Narrow | undefined {
  if (offsetArcs([outline], -most / 2).length > 0) return undefined;
  let [low, high] = [0, most / 2];
  let core = [outline];
  while (high - low > FITTED) {
    const middle = (low + high) / 2;
    const left = offsetArcs([outline], -middle);
    if (left.length > 0) [low, core] = [middle, left];
    else high = middle;
  }
  const centre = core[0]!.outer.start;
  // Never below the truth, so that a disc in an even stroke does not pass for narrower than the stroke.
  return { width: 2 * high, between: [vec(centre.x - high, centre.y), vec(centre.x + high, centre.y)] };
}

/** Looks across from every place of the rings for the narrowest below `most`; with the numbers of the rings at which a disc as wide as that is free. */
function lookAcross(
  rings: readonly (readonly Edge[])[],
  side: Side,
  most: number,
): { readonly best: Narrow | undefined; readonly roomy: ReadonlySet<number> } {
  const index = edgeIndex(rings.flat());
  const places = new Map<Edge, { readonly ring: readonly Edge[]; readonly at: number }>();
  for (const ring of rings) for (const [at, edge] of ring.entries()) places.set(edge, { ring, at });
  // The material lies on the left of outer rings and of holes.
  const way = side === "inside" ? 1 : -1;
  const known = new Map<Edge, Map<Edge, Narrow | undefined>>();
  let best: Narrow | undefined;
  const free = rings.map(() => 0);

  const look = (from: Vec, edge: Edge, normal: Vec, number: number): boolean => {
    const bound = best?.width ?? most;
    const found = across(from, edge, normal, bound);
    if (found === "free") free[number] = Math.max(free[number]!, bound);
    if (found === undefined || found === "free" || found.width >= bound) return false;
    best = found;
    return true;
  };
  const lookAt = (edge: Edge, t: number, number: number): boolean =>
    look(pointOn(edge, t), edge, scale(leftOf(directionOn(edge, t)), way), number);

  for (const [number, ring] of rings.entries())
    for (const { from, edge, normal } of fansOf(ring, way)) look(from, edge, normal, number);
  const sides = rings.flatMap((ring, number) =>
    ring.map((edge) => ({ edge, number, count: Math.max(2, Math.ceil(lengthOf(edge) / STEP)) })),
  );
  let last: { readonly edge: Edge; readonly t: number; readonly number: number; readonly count: number } | undefined;
  // A few first: the sooner a narrow place is found, the less far the others need to look.
  for (const turn of ORDER) {
    let k = turn;
    for (const { edge, number, count } of sides) {
      for (; k < count; k += ORDER.length) {
        const t = (k + 0.5) / count;
        if (lookAt(edge, t, number)) last = { edge, t, number, count };
      }
      k -= count;
    }
  }
  // Between even sides the narrowest place is not settled by itself.
  if (last)
    for (let k = -FINER; k <= FINER; k++)
      lookAt(last.edge, Math.min(1, Math.max(0, last.t + k / (2 * FINER * last.count))), last.number);
  const bound = best?.width ?? most;
  return { best, roomy: new Set([...rings.keys()].filter((number) => free[number]! >= bound)) };

  /** The place across from a point of an edge, seen along the normal there, if it is narrower than `bound`; `free` if a disc as wide as that is. */
  function across(from: Vec, edge: Edge, normal: Vec, bound: number): Narrow | "free" | undefined {
    // The largest disc that touches the edge at `from` and holds no other point of any: grown until it holds one, then let shrink.
    let radius = Math.min(bound / 2, SMALL);
    let to: NearestEdge | undefined;
    for (;;) {
      const hit = index.nearest(vec(from.x + normal.x * radius, from.y + normal.y * radius), radius - FREE);
      if (!hit) {
        if (to) break;
        if (radius >= bound / 2) return "free";
        radius = Math.min(bound / 2, 2 * radius);
        continue;
      }
      const away = sub(hit.point, from);
      const ahead = dot(away, normal);
      const next = ahead > 0 ? dot(away, away) / (2 * ahead) : 0;
      if (next < FREE) return undefined;
      to = hit;
      if (next > radius - FREE / 2) break;
      radius = next;
    }
    const away = sub(to.point, from);
    const width = norm(away);
    const cosine = dot(away, normal) / width;
    if (cosine < FACING) return undefined;
    return settled(from, edge, to) ?? (cosine >= EVEN ? { width, between: [from, to.point] } : undefined);
  }

  /** The narrow place between two edges, once found always the same. */
  function settled(from: Vec, edge: Edge, to: NearestEdge): Narrow | undefined {
    const partners = known.get(edge) ?? new Map<Edge, Narrow | undefined>();
    known.set(edge, partners);
    if (!partners.has(to.edge)) partners.set(to.edge, settle(from, edge, to));
    return partners.get(to.edge);
  }

  /** Both ends drawn to where each lies square across from the other; undefined where that is no narrow place. */
  function settle(from: Vec, edge: Edge, to: NearestEdge): Narrow | undefined {
    let a = { point: from, edge };
    let b = { point: to.point, edge: to.edge };
    let width = Infinity;
    for (let round = 0; round < MOST_FALLS; round++) {
      a = fall(b.point, a.edge);
      b = fall(a.point, b.edge);
      const next = distance(a.point, b.point);
      if (next > width - 1e-12) break;
      width = next;
    }
    if (!(width > FREE) || index.nearest(lerp(a.point, b.point, 0.5), width / 2 - FREE)) return undefined;
    return { width, between: [a.point, b.point] };
  }

  /** The point nearest to p on an edge or its neighbours. */
  function fall(p: Vec, edge: Edge): { readonly point: Vec; readonly edge: Edge } {
    const { ring, at } = places.get(edge)!;
    let best = { point: nearestOn(edge, p.x, p.y), edge };
    for (const step of [ring.length - 1, 1]) {
      const beside = ring[(at + step) % ring.length]!;
      const point = nearestOn(beside, p.x, p.y);
      if (distance(point, p) < distance(best.point, p)) best = { point, edge: beside };
    }
    return best;
  }
}

/** A place from which one looks across, and the way. */
interface Look {
  readonly from: Vec;
  readonly edge: Edge;
  readonly normal: Vec;
}

/** Looks in several directions from each corner of a ring that opens to the side looked at. */
const fansOf = (ring: readonly Edge[], way: 1 | -1): Look[] =>
  ring.flatMap((edge, i) => {
    const next = ring[(i + 1) % ring.length]!;
    const before = directionOn(edge, 1);
    const turn = angleBetween(before, directionOn(next, 0));
    if (turn * way >= -FAN / 2) return [];
    const fans = Math.ceil(Math.abs(turn) / FAN);
    return Array.from({ length: fans + 1 }, (_, k) => ({
      from: vec(next.x0, next.y0),
      edge: next,
      normal: scale(leftOf(turned(before, (turn * k) / fans)), way),
    }));
  });
