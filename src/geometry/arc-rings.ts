/** Edges that follow each other from end to end put together into rings, and rings into outers with their holes. */
import { isNear, lengthOf, numbersTo, pathOfEdges, pointOn, redrawn, sweptTwice, type Edge } from "./arc-edge.ts";
import type { Outline } from "./outline.ts";
import type { Path } from "./path.ts";
import { pathWinding } from "./winding.ts";

/** Rings that hold less than this for each mm round them, mm2/mm, have come from rounding. */
const NO_AREA = 1e-6;
/** An edge longer than this, mm, that finds no place in a ring is no leftover of rounding. */
const LEFTOVER = 1e-3;
/** How far from a knot edges that leave it in one direction are told apart, mm, or half their length. */
const APART = 0.01;

/** Side of the cells in which ends that may be one point are found, mm. */
const CELL = 0.01;
/** An end that misses its knot by less than this, mm, is left where rounding has put it. */
const ROUNDING = 1e-10;

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
  const { from, to, settled } = knotsOf(edges, reach);
  const live = new Uint8Array(edges.length);
  for (const [i, edge] of edges.entries()) live[i] = from[i] !== to[i] || lengthOf(edge) > 10 * reach ? 1 : 0;
  const leaving = byKnot(from, live);
  const arriving = byKnot(to, live);
  if (!dropDeadEnds()) return undefined;

  const rings: Placed[][] = [];
  const used = new Uint8Array(edges.length);
  for (let first = 0; first < edges.length; first++) {
    if (!live[first] || used[first]) continue;
    const ring: Placed[] = [];
    let i = first;
    do {
      used[i] = 1;
      ring.push({ index: i, edge: settled(i) });
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
    const dead: number[] = [];
    const look = (i: number): void => {
      if (live[i] && (leaving.count[to[i]!] === 0 || arriving.count[from[i]!] === 0)) dead.push(i);
    };
    for (let i = 0; i < edges.length; i++) look(i);
    while (dead.length > 0) {
      const i = dead.pop()!;
      if (!live[i]) continue;
      if (lengthOf(edges[i]!) > leftover) return false;
      live[i] = 0;
      leaving.count[from[i]!]!--;
      arriving.count[to[i]!]!--;
      for (let k = arriving.first[from[i]!]!; k >= 0; k = arriving.next[k]!) look(k);
      for (let k = leaving.first[to[i]!]!; k >= 0; k = leaving.next[k]!) look(k);
    }
    return true;
  }

  /** The edge that bounds the same inside as edge i where it ends: of several the first one clockwise from the way back. */
  function nextOf(i: number, first: number): number | undefined {
    const isOpen = (k: number): boolean => live[k] === 1 && (used[k] === 0 || k === first);
    let k = leaving.first[to[i]!]!;
    if (leaving.next[k]! < 0) return isOpen(k) ? k : undefined;
    const free: number[] = [];
    for (; k >= 0; k = leaving.next[k]!) if (isOpen(k)) free.push(k);
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

/** The live edges at each knot: how many there are, the first of them, and by edge the next one at the same knot; -1 after the last. */
interface ByKnot {
  readonly count: Int32Array;
  readonly first: Int32Array;
  readonly next: Int32Array;
}

function byKnot(knots: Int32Array, live: Uint8Array): ByKnot {
  const n = live.length;
  const count = new Int32Array(2 * n);
  const first = new Int32Array(2 * n).fill(-1);
  const next = new Int32Array(n).fill(-1);
  for (let i = n - 1; i >= 0; i--) {
    if (!live[i]) continue;
    const knot = knots[i]!;
    count[knot]!++;
    next[i] = first[knot]!;
    first[knot] = i;
  }
  return { count, first, next };
}

/** The direction, as an angle, from one end of an edge to the point `along` mm into it. */
function bearing(edge: Edge, end: 0 | 1, along: number): number {
  const share = along / lengthOf(edge);
  const p = pointOn(edge, end === 0 ? share : 1 - share);
  return end === 0 ? Math.atan2(p.y - edge.y0, p.x - edge.x0) : Math.atan2(p.y - edge.y1, p.x - edge.x1);
}

interface Knots {
  /** Knot at which each edge starts and ends. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** The edge with its ends drawn to its knots. */
  readonly settled: (i: number) => Edge;
}

/** Ends within `reach` of each other, in x and in y, become one knot, named by one of them and placed there. */
function knotsOf(edges: readonly Edge[], reach: number): Knots {
  const n = edges.length;
  const x = new Float64Array(2 * n);
  const y = new Float64Array(2 * n);
  for (let i = 0; i < n; i++) {
    const edge = edges[i]!;
    x[i] = edge.x0;
    y[i] = edge.y0;
    x[n + i] = edge.x1;
    y[n + i] = edge.y1;
  }
  const chief = numbersTo(2 * n);
  const chiefOf = (end: number): number => {
    let at = end;
    while (chief[at] !== at) at = chief[at] = chief[chief[at]!]!;
    return at;
  };
  // Ends are found by their cells, which share slots: who stands in the same one is held against the distance anyway.
  const slots = new Int32Array(2 ** Math.ceil(Math.log2(4 * n + 1))).fill(-1);
  const slotOf = (i: number, j: number): number => (Math.imul(i, 73856093) ^ Math.imul(j, 19349663)) & (slots.length - 1);
  const cellOf = (at: number): number => Math.floor(at / CELL);
  const next = new Int32Array(2 * n);
  for (let end = 0; end < 2 * n; end++) {
    for (let i = cellOf(x[end]! - reach); i <= cellOf(x[end]! + reach); i++)
      for (let j = cellOf(y[end]! - reach); j <= cellOf(y[end]! + reach); j++)
        for (let other = slots[slotOf(i, j)]!; other >= 0; other = next[other]!)
          if (isNear(x[end]!, y[end]!, x[other]!, y[other]!, reach)) chief[chiefOf(end)] = chiefOf(other);
    const slot = slotOf(cellOf(x[end]!), cellOf(y[end]!));
    next[end] = slots[slot]!;
    slots[slot] = end;
  }
  const knots = chief.map(chiefOf);
  return {
    from: knots.subarray(0, n),
    to: knots.subarray(n),
    settled: (i) => {
      const edge = edges[i]!;
      const a = knots[i]!;
      const b = knots[n + i]!;
      return isNear(edge.x0, edge.y0, x[a]!, y[a]!, ROUNDING) && isNear(edge.x1, edge.y1, x[b]!, y[b]!, ROUNDING)
        ? edge
        : redrawn(edge, x[a]!, y[a]!, x[b]!, y[b]!);
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
