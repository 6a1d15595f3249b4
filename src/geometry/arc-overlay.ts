/**
 * Outlines of lines and arcs laid over each other: what the one has and the other has not, traced along their own edges. Edges are cut where
 * others meet them or end on them; parts of both that run along each other bound nothing and are left out; the rest closes into rings. Exact
 * to rounding, and quick where most of both is the same. Lengths in mm.
 */
import {
  distanceTo,
  eachMeeting,
  eachNear,
  edgePart,
  edgesOf,
  isNear,
  lengthOf,
  parameterOn,
  pathOfEdges,
  pointOn,
  reversedEdge,
  type Edge,
  type OnEdge,
} from "./arc-edge.ts";
import { edgesArea, joinRings, outlinesOfRings } from "./arc-rings.ts";
import { boundsMeet } from "./bounds.ts";
import { pathBounds } from "./measure.ts";
import { pathsOf, type Outline } from "./outline.ts";
import type { Path } from "./path.ts";
import type { Vec } from "./vec.ts";
import { isInside, pathWinding } from "./winding.ts";

/** Edges nearer to each other than this, mm, are one: a hundred times what rounding leaves, a hundredth of what could be seen. */
export const ON_EDGE = 1e-5;
/** Ends of what is left this near to each other, mm, are one point. */
const JOINED = 4 * ON_EDGE;
/** Side of the cells in which parts that may run along each other are found, mm. */
const CELL = 0.05;
/** Meetings are looked for to within this, mm. */
const MET = 1e-9;
/** The areas found may miss the difference of both areas by this, mm2, for each mm of edges. */
const AREA_MISSED = 1e-7;

/** What only the one of two outlines has, and only the other, place by place; undefined where rounding leaves rings that do not close. */
export function arcsApart(
  a: readonly Outline[],
  b: readonly Outline[],
): { readonly onlyInA: readonly Outline[]; readonly onlyInB: readonly Outline[] } | undefined {
  const [ours, theirs] = [edgesIn(a), edgesIn(b)];
  const [cutOurs, cutTheirs] = cutBoth(ours, theirs);
  // With ours run forwards and theirs backwards, what only we have lies on the left of its ring, what only they have on the right.
  const [ahead, back] = unmatched(partsOf(ours, cutOurs), partsOf(theirs, cutTheirs).map(reversedEdge));
  // Where the two cross, what only the one has ends, and what only the other has begins: both rings go over to the other outline.
  const rings = joinRings([...ahead, ...back], JOINED, Infinity, ahead.length)?.map((ring) => ring.map(({ edge }) => edge));
  if (!rings) return undefined;
  const missed = edgesArea(ours) - edgesArea(theirs) - rings.reduce((sum, ring) => sum + edgesArea(ring), 0);
  if (Math.abs(missed) > AREA_MISSED * [...ours, ...theirs].reduce((sum, edge) => sum + lengthOf(edge), 0)) return undefined;
  return sorted(rings);
}

/** What is left of the outlines without `taken`; undefined where rounding leaves rings that do not close. */
export function withoutArcs(outlines: readonly Outline[], taken: readonly Outline[]): Outline[] | undefined {
  const [ours, theirs] = [edgesIn(outlines), edgesIn(taken)];
  const [cutOurs, cutTheirs] = cutBoth(ours, theirs);
  const [ourPaths, theirPaths] = [outlines.flatMap(pathsOf), taken.flatMap(pathsOf)];
  const isIn = (paths: readonly Path[], part: Edge): boolean => isInside(paths, pointOn(part, 0.5));
  const boxes = taken.map(({ outer }) => pathBounds(outer));
  const isByTaken = (part: Edge): boolean => {
    const p = pointOn(part, 0.5);
    return boxes.some((box) => boundsMeet(box, { minX: p.x, minY: p.y, maxX: p.x, maxY: p.y }, ON_EDGE));
  };
  const parts = [
    ...partsOf(ours, cutOurs).filter((part) => !isByTaken(part) || !isIn(theirPaths, part)),
    ...partsOf(theirs, cutTheirs)
      .filter((part) => isIn(ourPaths, part))
      .map(reversedEdge),
  ];
  const rings = joinRings(parts, JOINED);
  return rings && outlinesOfRings(rings.map((ring) => ring.map(({ edge }) => edge)));
}

const edgesIn = (outlines: readonly Outline[]): Edge[] => outlines.flatMap(pathsOf).flatMap(edgesOf);

/** Places at which each edge is cut, by its number. */
type Cuts = readonly (OnEdge[] | undefined)[];

function cutBoth(ours: readonly Edge[], theirs: readonly Edge[]): readonly [Cuts, Cuts] {
  const cutOurs: (OnEdge[] | undefined)[] = [];
  const cutTheirs: (OnEdge[] | undefined)[] = [];
  const cut = (cuts: (OnEdge[] | undefined)[], n: number, edge: Edge, t: number, x: number, y: number): void => {
    if (isNear(edge.x0, edge.y0, x, y, ON_EDGE) || isNear(edge.x1, edge.y1, x, y, ON_EDGE)) return;
    (cuts[n] ??= []).push({ t, x, y });
  };
  /** The start of each edge is the end of another. */
  const cutAtStart = (cuts: (OnEdge[] | undefined)[], n: number, edge: Edge, other: Edge): void => {
    if (distanceTo(edge, other.x0, other.y0) > ON_EDGE) return;
    const t = parameterOn(edge, other.x0, other.y0, ON_EDGE);
    if (t !== undefined) cut(cuts, n, edge, t, other.x0, other.y0);
  };
  eachNear(ours, theirs, ON_EDGE, (i, k) => {
    const [one, other] = [ours[i]!, theirs[k]!];
    cutAtStart(cutOurs, i, one, other);
    cutAtStart(cutTheirs, k, other, one);
    eachMeeting(one, other, MET, (x, y, s, t) => {
      cut(cutOurs, i, one, s, x, y);
      cut(cutTheirs, k, other, t, x, y);
    });
  });
  return [cutOurs, cutTheirs];
}

function partsOf(edges: readonly Edge[], cuts: Cuts): Edge[] {
  return edges.flatMap((edge, n) => {
    const places = cuts[n];
    if (!places) return [edge];
    const parts: Edge[] = [];
    let at: OnEdge = { t: 0, x: edge.x0, y: edge.y0 };
    for (const place of [...places.toSorted((p, q) => p.t - q.t), { t: 1, x: edge.x1, y: edge.y1 }]) {
      if (isNear(at.x, at.y, place.x, place.y, ON_EDGE) && (place.t - at.t) * lengthOf(edge) < JOINED) continue;
      parts.push(edgePart(edge, at, place));
      at = place;
    }
    return parts;
  });
}

/** The parts without those pairs of which one runs back along the other from end to end. */
function unmatched(ahead: readonly Edge[], back: readonly Edge[]): readonly [Edge[], Edge[]] {
  const middle = (part: Edge): Vec => pointOn(part, 0.5);
  const column = (x: number): number => Math.floor(x / CELL);
  const key = (i: number, j: number): number => i * 0x4000000 + j;
  const waiting = new Map<number, { readonly part: Edge; readonly at: Vec; matched: boolean }[]>();
  const all = back.map((part) => ({ part, at: middle(part), matched: false }));
  for (const one of all) {
    const cell = key(column(one.at.x), column(one.at.y));
    const list = waiting.get(cell);
    if (list) list.push(one);
    else waiting.set(cell, [one]);
  }
  const left = ahead.filter((part) => {
    const { x, y } = middle(part);
    for (let i = column(x - JOINED); i <= column(x + JOINED); i++)
      for (let j = column(y - JOINED); j <= column(y + JOINED); j++)
        for (const one of waiting.get(key(i, j)) ?? []) {
          const { x0, y0, x1, y1 } = one.part;
          if (
            one.matched ||
            !isNear(one.at.x, one.at.y, x, y, JOINED) ||
            !isNear(x1, y1, part.x0, part.y0, JOINED) ||
            !isNear(x0, y0, part.x1, part.y1, JOINED)
          )
            continue;
          one.matched = true;
          return false;
        }
    return true;
  });
  return [left, all.filter(({ matched }) => !matched).map(({ part }) => part)];
}

/** Rings sorted by their sense: outers run forwards in the one and backwards in the other; a ring of the other sense inside is a hole. */
function sorted(rings: readonly (readonly Edge[])[]): { readonly onlyInA: Outline[]; readonly onlyInB: Outline[] } {
  const all = rings
    .map((ring) => {
      const path = pathOfEdges(ring);
      return { ring, area: edgesArea(ring), path, box: pathBounds(path), holes: [] as Path[] };
    })
    .toSorted((a, b) => Math.abs(b.area) - Math.abs(a.area));
  const onlyInA: Outline[] = [];
  const onlyInB: Outline[] = [];
  const places: typeof all = [];
  for (const one of all) {
    const around = places.findLast(
      (other) =>
        Math.sign(other.area) !== Math.sign(one.area) &&
        boundsMeet(other.box, one.box) &&
        pathWinding(other.path, pointOn(one.ring[0]!, 0.5)) !== 0,
    );
    if (around) around.holes.push(one.path);
    else places.push(one);
  }
  for (const { ring, area, path, holes } of places)
    if (area > 0) onlyInA.push({ outer: path, holes });
    else onlyInB.push({ outer: backwards(ring), holes: holes.map((hole) => backwards(edgesOf(hole))) });
  return { onlyInA, onlyInB };
}

const backwards = (ring: readonly Edge[]): Path => pathOfEdges(ring.toReversed().map(reversedEdge));
