/** Straight sides and true arcs with what is asked of them again and again worked out once. Lengths in mm, angles in radians. */
import { arcSweep } from "./arc.ts";
import { arc, line, type Path, type Segment } from "./path.ts";
import { vec, type Vec } from "./vec.ts";

/** A side from (x0, y0) to (x1, y1): straight where `sweep` is 0, else an arc about (cx, cy) that starts at the angle `from`. */
export interface Edge {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  readonly cx: number;
  readonly cy: number;
  readonly radius: number;
  readonly from: number;
  /** Counter-clockwise positive. */
  readonly sweep: number;
}

/** One literal for all edges, so that they are of one kind to the engine that runs this. */
export const arcEdge = (
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  cx: number,
  cy: number,
  radius: number,
  from: number,
  sweep: number,
): Edge => ({ x0, y0, x1, y1, cx, cy, radius, from, sweep });

export const sideEdge = (x0: number, y0: number, x1: number, y1: number): Edge => arcEdge(x0, y0, x1, y1, 0, 0, 0, 0, 0);

/** Edges of paths that were made from edges, or asked for once. */
const known = new WeakMap<Path, readonly Edge[]>();

/** The edges of a closed path of lines and arcs, segments of no length left out. Throws on a cubic. */
export function edgesOf(path: Path): readonly Edge[] {
  const made = known.get(path);
  if (made) return made;
  const edges: Edge[] = [];
  let at = path.start;
  for (const segment of path.segments) {
    const edge = edgeOf(at, segment);
    if (edge) edges.push(edge);
    at = segment.to;
  }
  known.set(path, edges);
  return edges;
}

/** The edge along a line or an arc from `at`; undefined where it has no length. Throws on a cubic. */
export function edgeOf(at: Vec, segment: Segment): Edge | undefined {
  const { to } = segment;
  if (segment.kind === "cubic") throw new RangeError("edgeOf: the path holds a cubic");
  if (at.x === to.x && at.y === to.y) return undefined;
  if (segment.kind === "line") return sideEdge(at.x, at.y, to.x, to.y);
  const { x: cx, y: cy } = segment.centre;
  const sweep = arcSweep(at, segment);
  if (sweep === 0) return undefined;
  return arcEdge(at.x, at.y, to.x, to.y, cx, cy, Math.hypot(at.x - cx, at.y - cy), Math.atan2(at.y - cy, at.x - cx), sweep);
}

/** The closed path along a ring of edges; each ends where the next begins. */
export function pathOfEdges(edges: readonly Edge[]): Path {
  const first = edges[0]!;
  const path: Path = {
    start: vec(first.x0, first.y0),
    segments: edges.map((edge, i) => {
      const next = edges[i + 1] ?? first;
      const to = vec(next.x0, next.y0);
      return edge.sweep === 0 ? line(to) : arc(to, vec(edge.cx, edge.cy), edge.sweep > 0);
    }),
    closed: true,
  };
  known.set(path, edges);
  return path;
}

/** Whether two points lie within `reach` mm of each other in x and in y. */
export const isNear = (x0: number, y0: number, x1: number, y1: number, reach: number): boolean =>
  Math.abs(x1 - x0) <= reach && Math.abs(y1 - y0) <= reach;

/** Quicker than Math.hypot, whose care for huge numbers is not needed here. */
const root = (x: number, y: number): number => Math.sqrt(x * x + y * y);

export const lengthOf = (e: Edge): number => (e.sweep === 0 ? root(e.x1 - e.x0, e.y1 - e.y0) : e.radius * Math.abs(e.sweep));

/** The point at t in [0, 1]. */
export function pointOn(e: Edge, t: number): Vec {
  if (e.sweep === 0) return vec(e.x0 + (e.x1 - e.x0) * t, e.y0 + (e.y1 - e.y0) * t);
  const angle = e.from + e.sweep * t;
  return vec(e.cx + e.radius * Math.cos(angle), e.cy + e.radius * Math.sin(angle));
}

/** Unit direction of travel at t in [0, 1]. */
export function directionOn(e: Edge, t: number): Vec {
  if (e.sweep === 0) {
    const length = root(e.x1 - e.x0, e.y1 - e.y0);
    return vec((e.x1 - e.x0) / length, (e.y1 - e.y0) / length);
  }
  const k = Math.sign(e.sweep) / e.radius;
  if (t === 0) return vec(-(e.y0 - e.cy) * k, (e.x0 - e.cx) * k);
  if (t === 1) return vec(-(e.y1 - e.cy) * k, (e.x1 - e.cx) * k);
  const { x, y } = pointOn(e, t);
  return vec(-(y - e.cy) * k, (x - e.cx) * k);
}

/** 1 / radius, positive where the edge bends to the left; 0 on a straight side. */
export const bendOf = (e: Edge): number => (e.sweep === 0 ? 0 : Math.sign(e.sweep) / e.radius);

/** Twice the area swept by the ray from the origin along the edge. */
export function sweptTwice(e: Edge): number {
  const straight = e.x0 * e.y1 - e.x1 * e.y0;
  return e.sweep === 0 ? straight : straight + e.radius * e.radius * (e.sweep - Math.sin(e.sweep));
}

/** The least upright box of each edge, as minX, minY, maxX, maxY one after the other. */
export function boxesOf(edges: readonly Edge[]): Float64Array {
  const boxes = new Float64Array(4 * edges.length);
  for (let k = 0; k < edges.length; k++) {
    const e = edges[k]!;
    let minX = Math.min(e.x0, e.x1);
    let maxX = Math.max(e.x0, e.x1);
    let minY = Math.min(e.y0, e.y1);
    let maxY = Math.max(e.y0, e.y1);
    if (e.sweep !== 0) {
      if (reaches(e, 0)) maxX = e.cx + e.radius;
      if (reaches(e, Math.PI / 2)) maxY = e.cy + e.radius;
      if (reaches(e, Math.PI)) minX = e.cx - e.radius;
      if (reaches(e, -Math.PI / 2)) minY = e.cy - e.radius;
    }
    boxes[4 * k] = minX;
    boxes[4 * k + 1] = minY;
    boxes[4 * k + 2] = maxX;
    boxes[4 * k + 3] = maxY;
  }
  return boxes;
}

/** The numbers of the edges in the order in which their boxes begin along x. */
export const sweepOrder = (boxes: Float64Array): Int32Array =>
  numbersTo(boxes.length / 4).toSorted((a, b) => boxes[4 * a]! - boxes[4 * b]!);

/** The numbers from 0 up to n - 1. */
export function numbersTo(n: number): Int32Array {
  const numbers = new Int32Array(n);
  for (let k = 0; k < n; k++) numbers[k] = k;
  return numbers;
}

const TURN = 2 * Math.PI;

/** Parameter of the arc at `angle`, not bounded to [0, 1]: the one of a full turn that lies nearest to the arc's middle. */
function arcParameter(e: Edge, angle: number): number {
  let ahead = e.sweep > 0 ? angle - e.from : e.from - angle;
  const size = Math.abs(e.sweep);
  ahead -= TURN * Math.round((ahead - size / 2) / TURN);
  return ahead / size;
}

function reaches(e: Edge, angle: number): boolean {
  const t = arcParameter(e, angle);
  return t > 0 && t < 1;
}

/** Whether the direction (dx, dy) from an arc's centre passes through the arc. */
function spans(e: Edge, dx: number, dy: number): boolean {
  const way = e.sweep > 0 ? 1 : -1;
  const ux = e.x0 - e.cx;
  const uy = e.y0 - e.cy;
  const vx = e.x1 - e.cx;
  const vy = e.y1 - e.cy;
  const pastStart = (ux * dy - uy * dx) * way >= 0;
  const beforeEnd = (dx * vy - dy * vx) * way >= 0;
  return Math.abs(e.sweep) <= Math.PI ? pastStart && beforeEnd : pastStart || beforeEnd;
}

/** Distance from (x, y) to the edge. */
export function distanceTo(e: Edge, x: number, y: number): number {
  if (e.sweep === 0) {
    const dx = e.x1 - e.x0;
    const dy = e.y1 - e.y0;
    const t = Math.min(1, Math.max(0, ((x - e.x0) * dx + (y - e.y0) * dy) / (dx * dx + dy * dy)));
    return root(x - e.x0 - dx * t, y - e.y0 - dy * t);
  }
  const dx = x - e.cx;
  const dy = y - e.cy;
  if (spans(e, dx, dy)) return Math.abs(root(dx, dy) - e.radius);
  return Math.min(root(x - e.x0, y - e.y0), root(x - e.x1, y - e.y1));
}

/** The point of the edge nearest to (x, y). */
export function nearestOn(e: Edge, x: number, y: number): Vec {
  if (e.sweep === 0) {
    const dx = e.x1 - e.x0;
    const dy = e.y1 - e.y0;
    const t = Math.min(1, Math.max(0, ((x - e.x0) * dx + (y - e.y0) * dy) / (dx * dx + dy * dy)));
    return vec(e.x0 + dx * t, e.y0 + dy * t);
  }
  const dx = x - e.cx;
  const dy = y - e.cy;
  const away = root(dx, dy);
  if (away > 0 && spans(e, dx, dy)) return vec(e.cx + (dx / away) * e.radius, e.cy + (dy / away) * e.radius);
  return root(x - e.x0, y - e.y0) <= root(x - e.x1, y - e.y1) ? vec(e.x0, e.y0) : vec(e.x1, e.y1);
}

/** True where (x, y) is nearer to the edge than `d`. */
export function isNearer(e: Edge, x: number, y: number, d: number): boolean {
  if (e.sweep !== 0 && Math.abs(root(x - e.cx, y - e.cy) - e.radius) >= d) return false;
  return distanceTo(e, x, y) < d;
}

/** Calls back with every point that two edges share, parameters drawn to [0, 1] where they miss by under `slack` mm. */
export function eachMeeting(a: Edge, b: Edge, slack: number, tell: (x: number, y: number, s: number, t: number) => void): void {
  const offer = (x: number, y: number): void => {
    const s = parameterOn(a, x, y, slack);
    if (s === undefined) return;
    const t = parameterOn(b, x, y, slack);
    if (t !== undefined) tell(x, y, s, t);
  };
  if (a.sweep === 0 && b.sweep === 0) lineLine(a, b, slack, offer);
  else if (a.sweep === 0) lineCircle(a, b, slack, offer);
  else if (b.sweep === 0) lineCircle(b, a, slack, offer);
  else if (a.radius <= b.radius) circleCircle(a, b, slack, offer);
  else circleCircle(b, a, slack, offer);
}

/** Calls back with the numbers of every edge of the one list and of the other whose boxes come within `reach` of each other, until told to stop by `true`. */
export function eachNear(
  some: readonly Edge[],
  others: readonly Edge[],
  reach: number,
  tell: (one: number, other: number) => boolean | void,
): void {
  const [a, b] = [boxesOf(some), boxesOf(others)];
  const [ones, twos] = [sweepOrder(a), sweepOrder(b)];
  let widest = 0;
  for (let k = 0; k < b.length; k += 4) widest = Math.max(widest, b[k + 2]! - b[k]!);
  let first = 0;
  for (const one of ones) {
    const minX = a[4 * one]! - reach;
    const minY = a[4 * one + 1]! - reach;
    const maxX = a[4 * one + 2]! + reach;
    const maxY = a[4 * one + 3]! + reach;
    // Sorted by where they begin: those before `first` have ended, those after the last have not begun.
    while (first < twos.length && b[4 * twos[first]!]! < minX - widest) first++;
    for (let k = first; k < twos.length; k++) {
      const other = twos[k]!;
      if (b[4 * other]! > maxX) break;
      if (b[4 * other + 2]! < minX || b[4 * other + 1]! > maxY || b[4 * other + 3]! < minY) continue;
      if (tell(one, other)) return;
    }
  }
}

/** Whether any edge of the one list shares a point with one of the other. */
export function edgesMeet(some: readonly Edge[], others: readonly Edge[]): boolean {
  let meets = false;
  eachNear(some, others, 0, (one, other) => {
    eachMeeting(some[one]!, others[other]!, 0, () => (meets = true));
    return meets;
  });
  return meets;
}

type Offer = (x: number, y: number) => void;

/** Sine below which two sides are parallel: over 100 mm they part by less than a tenth of the slack of a meeting. */
const PARALLEL = 1e-10;

function lineLine(a: Edge, b: Edge, slack: number, offer: Offer): void {
  const ux = a.x1 - a.x0;
  const uy = a.y1 - a.y0;
  const vx = b.x1 - b.x0;
  const vy = b.y1 - b.y0;
  const sine = ux * vy - uy * vx;
  const wx = b.x0 - a.x0;
  const wy = b.y0 - a.y0;
  const lengths = root(ux, uy) * root(vx, vy);
  if (Math.abs(sine) > PARALLEL * lengths) {
    const s = (wx * vy - wy * vx) / sine;
    offer(a.x0 + ux * s, a.y0 + uy * s);
  } else if (Math.abs(wx * uy - wy * ux) <= slack * root(ux, uy)) offerEnds(a, b, offer);
}

function lineCircle(a: Edge, b: Edge, slack: number, offer: Offer): void {
  const dx = a.x1 - a.x0;
  const dy = a.y1 - a.y0;
  const length = root(dx, dy);
  const ux = dx / length;
  const uy = dy / length;
  const wx = b.cx - a.x0;
  const wy = b.cy - a.y0;
  const away = ux * wy - uy * wx;
  const height = Math.abs(away);
  if (height > b.radius + slack) return;
  const foot = ux * wx + uy * wy;
  const half = Math.sqrt(Math.max(0, (b.radius - height) * (b.radius + height)));
  offer(a.x0 + ux * (foot - half), a.y0 + uy * (foot - half));
  if (half > 0) offer(a.x0 + ux * (foot + half), a.y0 + uy * (foot + half));
}

/** `a` is the smaller circle: the sums then keep their digits beside an arc so flat that its centre lies far away. */
function circleCircle(a: Edge, b: Edge, slack: number, offer: Offer): void {
  const dx = b.cx - a.cx;
  const dy = b.cy - a.cy;
  const d = root(dx, dy);
  const p = a.radius;
  const q = b.radius;
  if (d <= slack) {
    if (q - p <= slack) offerEnds(a, b, offer);
    return;
  }
  if (d > p + q + slack || d < q - p - slack) return;
  const reach = ((d - q) * (d + q) + p * p) / (2 * d);
  const half = Math.sqrt(Math.max(0, (p - reach) * (p + reach)));
  const ux = dx / d;
  const uy = dy / d;
  offer(a.cx + ux * reach - uy * half, a.cy + uy * reach + ux * half);
  if (half > 0) offer(a.cx + ux * reach + uy * half, a.cy + uy * reach - ux * half);
}

/** Two edges on one line or one circle meet in those ends that lie on both. */
function offerEnds(a: Edge, b: Edge, offer: Offer): void {
  offer(a.x0, a.y0);
  offer(a.x1, a.y1);
  offer(b.x0, b.y0);
  offer(b.x1, b.y1);
}

/** Parameter of a point that lies on the edge's line or circle; undefined where it lies beyond its ends by more than `slack`. */
export function parameterOn(e: Edge, x: number, y: number, slack: number): number | undefined {
  let t: number;
  if (e.sweep === 0) {
    const dx = e.x1 - e.x0;
    const dy = e.y1 - e.y0;
    t = ((x - e.x0) * dx + (y - e.y0) * dy) / (dx * dx + dy * dy);
  } else t = arcParameter(e, Math.atan2(y - e.cy, x - e.cx));
  const room = slack / lengthOf(e);
  return t < -room || t > 1 + room ? undefined : Math.min(1, Math.max(0, t));
}

/** A place on an edge. */
export interface OnEdge {
  readonly t: number;
  readonly x: number;
  readonly y: number;
}

/** The edge run the other way. */
export const reversedEdge = (e: Edge): Edge => arcEdge(e.x1, e.y1, e.x0, e.y0, e.cx, e.cy, e.radius, e.from + e.sweep, -e.sweep);

/** The part of the edge between two places on it. */
export const edgePart = (e: Edge, a: OnEdge, b: OnEdge): Edge =>
  arcEdge(a.x, a.y, b.x, b.y, e.cx, e.cy, e.radius, e.from + e.sweep * a.t, e.sweep * (b.t - a.t));

/** Two parts of one edge, one after the other, in one. */
export const joinedParts = (a: Edge, b: Edge): Edge =>
  arcEdge(a.x0, a.y0, b.x1, b.y1, a.cx, a.cy, a.radius, a.from, a.sweep + b.sweep);

/**
 * The edge drawn anew between ends a hair away from its own, so that it truly passes through them: an arc's centre moves to where it is as
 * far from both.
 */
export function redrawn(e: Edge, x0: number, y0: number, x1: number, y1: number): Edge {
  if (e.sweep === 0) return sideEdge(x0, y0, x1, y1);
  const dx = x1 - x0;
  const dy = y1 - y0;
  const square = dx * dx + dy * dy;
  // Between ends so near to each other the arc is nearly a circle, whose centre they do not fix, or next to nothing.
  if (square < (e.radius / 10) ** 2 && Math.abs(e.sweep) > Math.PI)
    return arcEdge(x0, y0, x1, y1, e.cx, e.cy, e.radius, e.from, e.sweep);
  const along = ((e.cx - (x0 + x1) / 2) * dx + (e.cy - (y0 + y1) / 2) * dy) / square;
  const cx = e.cx - along * dx;
  const cy = e.cy - along * dy;
  const from = Math.atan2(y0 - cy, x0 - cx);
  let sweep = Math.atan2(y1 - cy, x1 - cx) - from;
  if (e.sweep > 0 && sweep < 0) sweep += TURN;
  if (e.sweep < 0 && sweep > 0) sweep -= TURN;
  // A short arc whose ends have changed places.
  if (Math.abs(sweep - e.sweep) > Math.PI) return sideEdge(x0, y0, x1, y1);
  return arcEdge(x0, y0, x1, y1, cx, cy, root(x0 - cx, y0 - cy), from, sweep);
}
