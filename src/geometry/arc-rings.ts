/** Edges that follow each other from end to end put together into rings, and rings into outers with their holes. */
import { lengthOf, pathOfEdges, pointOn, redrawn, sweptTwice, type Edge } from "./arc-edge.ts";
import type { Outline } from "./outline.ts";
import type { Path } from "./path.ts";
import { pathWinding } from "./winding.ts";

/** Rings that hold less than this for each mm round them, mm2/mm, have come from rounding. */
const NO_AREA = 1e-6;
/** An edge longer than this, mm, that finds no place in a ring is no leftover of rounding. */
const LEFTOVER = 1e-3;
/** How far from a knot edges that leave it in one direction are told apart, mm, or half their length. */
const APART = 0.01;

/** An edge in its place in a ring. */
export interface Placed {
  /** Its number in the list that the ring was made from. */
  readonly index: number;
  /** Its ends drawn to those of its neighbours. */
  readonly edge: Edge;
}

/**
 * The rings that the edges make, each edge used at most once, ends within `reach` mm taken for one point. Where rings touch they are kept
 * apart. Undefined where an edge longer than `leftover` mm belongs to no ring. Where the first `ahead` edges meet others a ring goes on from the
 * one kind to the other, if it can.
 */
export function joinRings(
  edges: readonly Edge[],
  reach: number,
  leftover = LEFTOVER,
  ahead = edges.length,
): Placed[][] | undefined {
  const knots = knotsOf(edges, reach);
  const { from, to } = knots;
  const live = edges.map((edge, i) => from[i] !== to[i] || lengthOf(edge) > 10 * reach);
  const leaving = byKnot(from, live, knots.count);
  const arriving = byKnot(to, live, knots.count);
  if (!dropDeadEnds()) return undefined;

  const rings: Placed[][] = [];
  const used = new Uint8Array(edges.length);
  for (let first = 0; first < edges.length; first++) {
    if (!live[first] || used[first]) continue;
    const ring: Placed[] = [];
    let i = first;
    do {
      used[i] = 1;
      ring.push({ index: i, edge: knots.settled(i) });
      const next = nextOf(i, first);
      if (next === undefined) return undefined;
      i = next;
    } while (i !== first);
    const area = ring.reduce((sum, { edge }) => sum + sweptTwice(edge), 0) / 2;
    if (Math.abs(area) > NO_AREA * ring.reduce((sum, { edge }) => sum + lengthOf(edge), 0)) rings.push(ring);
  }
  return rings;

  /** Takes away edges that nothing leads to or on from, over and over. False where one of some length is among them. */
  function dropDeadEnds(): boolean {
    const isLive = (i: number): boolean => live[i]!;
    const stack = [...edges.keys()];
    while (stack.length > 0) {
      const i = stack.pop()!;
      if (!live[i] || (leaving[to[i]!]!.some(isLive) && arriving[from[i]!]!.some(isLive))) continue;
      if (lengthOf(edges[i]!) > leftover) return false;
      live[i] = false;
      stack.push(...arriving[from[i]!]!, ...leaving[to[i]!]!);
    }
    return true;
  }

  /** The edge that bounds the same inside as edge i where it ends: of several the first one clockwise from the way back. */
  function nextOf(i: number, first: number): number | undefined {
    const all = leaving[to[i]!]!;
    const isOpen = (k: number): boolean => live[k]! && (!used[k] || k === first);
    if (all.length === 1) return isOpen(all[0]!) ? all[0] : undefined;
    const free = all.filter(isOpen);
    const across = free.filter((k) => k < ahead !== i < ahead);
    const open = across.length > 0 ? across : free;
    if (open.length < 2) return open[0];
    const reachOut = Math.min(APART, ...[i, ...open].map((k) => lengthOf(edges[k]!) / 2));
    const back = bearing(edges[i]!, 1, reachOut);
    const turnTo = (k: number): number => {
      const turn = back - bearing(edges[k]!, 0, reachOut);
      const whole = turn - 2 * Math.PI * Math.floor(turn / (2 * Math.PI));
      // An edge that runs back over the same way is the last to be taken.
      return whole < 1e-9 ? 2 * Math.PI : whole;
    };
    return open.reduce((best, k) => (turnTo(k) < turnTo(best) ? k : best));
  }
}

/** The numbers of the live edges at each knot. */
function byKnot(knots: readonly number[], live: readonly boolean[], count: number): number[][] {
  const lists: number[][] = Array.from({ length: count });
  for (const [i, knot] of knots.entries())
    if (live[i]) {
      if (lists[knot]) lists[knot].push(i);
      else lists[knot] = [i];
    }
  return lists.map((list) => list ?? []);
}

/** The direction, as an angle, from one end of an edge to the point `along` mm into it. */
function bearing(edge: Edge, end: 0 | 1, along: number): number {
  const share = along / lengthOf(edge);
  const p = pointOn(edge, end === 0 ? share : 1 - share);
  return end === 0 ? Math.atan2(p.y - edge.y0, p.x - edge.x0) : Math.atan2(p.y - edge.y1, p.x - edge.x1);
}

interface Knots {
  readonly count: number;
  /** Knot at which each edge starts and ends. */
  readonly from: readonly number[];
  readonly to: readonly number[];
  /** The edge with its ends drawn to its knots. */
  readonly settled: (i: number) => Edge;
}

/** Ends within `reach` of each other, in x and in y, become one knot, placed at one of them. */
function knotsOf(edges: readonly Edge[], reach: number): Knots {
  const n = edges.length;
  const x = new Float64Array(2 * n);
  const y = new Float64Array(2 * n);
  for (const [i, edge] of edges.entries()) {
    x[i] = edge.x0;
    y[i] = edge.y0;
    x[n + i] = edge.x1;
    y[n + i] = edge.y1;
  }
  const chief = Int32Array.from(x.keys());
  const chiefOf = (end: number): number => {
    let at = end;
    while (chief[at] !== at) at = chief[at] = chief[chief[at]!]!;
    return at;
  };
  const order = Uint32Array.from(x.keys()).toSorted((a, b) => x[a]! - x[b]!);
  for (let i = 0; i < order.length; i++) {
    const a = order[i]!;
    for (let j = i + 1; j < order.length && x[order[j]!]! - x[a]! <= reach; j++)
      if (Math.abs(y[order[j]!]! - y[a]!) <= reach) chief[chiefOf(order[j]!)] = chiefOf(a);
  }
  const numbers = new Int32Array(2 * n).fill(-1);
  let count = 0;
  const knot = (end: number): number => {
    const at = chiefOf(end);
    return numbers[at]! < 0 ? (numbers[at] = count++) : numbers[at]!;
  };
  const from = edges.map((_, i) => knot(i));
  const to = edges.map((_, i) => knot(n + i));
  return {
    count,
    from,
    to,
    settled: (i) => {
      const a = chiefOf(i);
      const b = chiefOf(n + i);
      return a === i && b === n + i ? edges[i]! : redrawn(edges[i]!, x[a]!, y[a]!, x[b]!, y[b]!);
    },
  };
}

/** Area inside a ring of edges, positive counter-clockwise. */
export const edgesArea = (ring: readonly Edge[]): number => ring.reduce((sum, edge) => sum + sweptTwice(edge), 0) / 2;

/** Rings that do not cross, as outers (counter-clockwise) with the holes (clockwise) that lie straight inside them. */
export function outlinesOfRings(rings: readonly (readonly Edge[])[]): Outline[] {
  const sorted = rings.map((ring) => ({ path: pathOfEdges(ring), area: edgesArea(ring) }));
  const outers = sorted.filter(({ area }) => area > 0).map((ring) => ({ ...ring, holes: [] as Path[] }));
  for (const { path } of sorted.filter(({ area }) => area <= 0)) {
    const around = outers.filter((outer) => outers.length === 1 || pathWinding(outer.path, path.start) !== 0);
    if (around.length > 0) around.reduce((best, outer) => (outer.area < best.area ? outer : best)).holes.push(path);
  }
  return outers.map(({ path, holes }) => ({ outer: path, holes }));
}
