/**
 * Offsets of outlines made of straight sides and true arcs, exact to rounding. The edge of the moved outline consists of the points that lie
 * at the distance from the old edge, on the right side of it; so every side and arc is moved by formula, every corner that opens gets its
 * arc, all of these are cut where they meet, and what lies nearer to the old edge than the distance is dropped. The rest closes into rings.
 */
import {
  arcEdge,
  bendOf,
  boxesOf,
  directionOn,
  eachMeeting,
  edgePart,
  edgesOf,
  isNear,
  joinedParts,
  lengthOf,
  pointOn,
  sideEdge,
  sweepOrder,
  type Edge,
  type OnEdge,
} from "./arc-edge.ts";
import { clearOf } from "./arc-index.ts";
import { joinRings, outlinesOfRings } from "./arc-rings.ts";
import { arcOutlinesOf } from "./arc-ring.ts";
import { offsetRings } from "./clipper.ts";
import { pathsOf, regionOf, type Outline } from "./outline.ts";

/** Ends nearer to each other than this are one point, mm: a hundred times what rounding leaves of a meeting at a flat angle. */
const JOINED = 1e-6;
/** Meetings are looked for to within this, mm. */
const MET = 1e-9;
/** A place counts as at the distance if it misses it by no more than this, mm. */
const AT_DISTANCE = 1e-7;
/** Two neighbours that touch in their joint meet there and nowhere else so near to it, mm. */
const BESIDE_JOINT = 1e-5;
/** Angles in a joint smaller than this, radians, open no corner. */
const NO_TURN = 1e-9;
/** Two edges that turn by less than this, radians, in their joint meet beside it, if at all. */
const SMOOTH = 1e-6;
/** A joint that turns back within this of half a turn, radians, is a cusp. */
const CUSP = 1e-6;
/** Where rounding leaves an edge that does not close, the distance is changed by this, mm, and the work done again. */
const NUDGE = 2e-6;
/** After so many times clipping does the work, good to 0.003: paths may cross by rounding in a needle thinner than can be told. */
const MOST_NUDGES = 4;

/**
 * The outlines with their edges moved by `delta` mm, outwards where positive, inwards where negative, corners that open rounded; made of lines
 * and arcs. Outer paths run counter-clockwise and holes clockwise, and no two paths cross; the result is of the same kind. Throws on a
 * cubic or an open path, and for a distance that is no number.
 */
export function offsetArcs(outlines: readonly Outline[], delta: number): Outline[] {
  if (!Number.isFinite(delta)) throw new RangeError(`offsetArcs: the distance is ${delta}`);
  const paths = outlines.flatMap(pathsOf);
  if (!paths.every((path) => path.closed)) throw new RangeError("offsetArcs: a path is open");
  if (delta === 0 || paths.length === 0) return [...outlines];
  const rings = paths.map(edgesOf).filter((ring) => ring.length > 0);
  for (let nudge = 0; nudge <= MOST_NUDGES; nudge++) {
    // Either way by turns, further each time.
    const found = moveRings(rings, delta + NUDGE * Math.ceil(nudge / 2) * (nudge % 2 === 0 ? 1 : -1));
    if (found) return outlinesOfRings(found);
  }
  return arcOutlinesOf(offsetRings(regionOf(paths), delta));
}

/** A moved edge, cut where others meet it. */
interface Candidate {
  readonly edge: Edge;
  /** The candidate that follows it round the same ring, and whether the two run on smoothly. */
  next: Candidate | undefined;
  smooth: boolean;
  cuts: OnEdge[] | undefined;
  /** Whether another meets it in its start or its end. */
  metAtEnds: boolean;
}

function moveRings(rings: readonly (readonly Edge[])[], d: number): Edge[][] | undefined {
  const candidates = rings.flatMap((ring) => candidatesOf(ring, d));
  cutAll(candidates);
  const isFree = clearOf(rings.flat(), Math.abs(d) - AT_DISTANCE);
  const parts: Edge[] = [];
  const cutFrom: Candidate[] = [];
  let before: Candidate | undefined;
  let wasFree: boolean | undefined;
  for (const candidate of candidates) {
    // Along a smooth run no place is nearer to the old edge than the distance unless all are, up to where another edge is met.
    let free = before?.next === candidate && before.smooth && !before.metAtEnds && !candidate.metAtEnds ? wasFree : undefined;
    for (const [k, part] of partsOf(candidate).entries()) {
      if (k > 0 || free === undefined) {
        const middle = pointOn(part, 0.5);
        free = isFree(middle.x, middle.y);
      }
      if (!free) continue;
      parts.push(part);
      cutFrom.push(candidate);
    }
    before = candidate;
    wasFree = free;
  }
  return joinRings(parts, JOINED)?.map((ring) => {
    // Where nothing else leads off, two parts of one edge are one again.
    const whole: Edge[] = [];
    for (const [k, { index, edge }] of ring.entries()) {
      const before = ring[k - 1];
      if (before && cutFrom[before.index] === cutFrom[index] && before.index < index) whole.push(joinedParts(whole.pop()!, edge));
      else whole.push(edge);
    }
    return whole;
  });
}

/** A moved edge between its cuts. */
function partsOf({ edge, cuts }: Candidate): readonly Edge[] {
  if (!cuts) return [edge];
  const parts: Edge[] = [];
  let at: OnEdge = { t: 0, x: edge.x0, y: edge.y0 };
  for (const cut of [...cuts.toSorted((a, b) => a.t - b.t), { t: 1, x: edge.x1, y: edge.y1 }]) {
    if (cut.t > at.t) parts.push(edgePart(edge, at, cut));
    at = cut;
  }
  return parts;
}

/** The edges of a ring moved, with the arcs round the corners that open. */
function candidatesOf(ring: readonly Edge[], d: number): Candidate[] {
  const found: Candidate[] = [];
  const add = (edge: Edge): void => {
    if (lengthOf(edge) > 0) found.push({ edge, next: undefined, smooth: false, cuts: undefined, metAtEnds: false });
  };
  for (const [i, edge] of ring.entries()) {
    const moved = moveEdge(edge, d);
    if (moved) add(moved);
    const corner = cornerArc(edge, ring[(i + 1) % ring.length]!, d);
    if (corner) add(corner);
  }
  for (const [i, candidate] of found.entries()) {
    const next = found[(i + 1) % found.length]!;
    candidate.next = next;
    candidate.smooth = found.length > 2 && areSmooth(candidate.edge, next.edge);
  }
  return found;
}

/** Whether one edge ends where the other begins, in the same direction: then the two touch there and meet nowhere else. */
function areSmooth(a: Edge, b: Edge): boolean {
  if (!isNear(a.x1, a.y1, b.x0, b.y0, JOINED)) return false;
  const u = directionOn(a, 1);
  const v = directionOn(b, 0);
  return u.x * v.x + u.y * v.y > 0 && Math.abs(u.x * v.y - u.y * v.x) < SMOOTH;
}

/** The line or arc `d` mm to the right; undefined where the radius is used up, since all of it then lies too near to its neighbours. */
function moveEdge(e: Edge, d: number): Edge | undefined {
  if (e.sweep === 0) {
    const length = Math.hypot(e.x1 - e.x0, e.y1 - e.y0);
    const dx = ((e.y1 - e.y0) * d) / length;
    const dy = (-(e.x1 - e.x0) * d) / length;
    return sideEdge(e.x0 + dx, e.y0 + dy, e.x1 + dx, e.y1 + dy);
  }
  const radius = e.radius + Math.sign(e.sweep) * d;
  if (radius < AT_DISTANCE) return undefined;
  const k = radius / e.radius;
  return arcEdge(
    e.cx + (e.x0 - e.cx) * k,
    e.cy + (e.y0 - e.cy) * k,
    e.cx + (e.x1 - e.cx) * k,
    e.cy + (e.y1 - e.cy) * k,
    e.cx,
    e.cy,
    radius,
    e.from,
    e.sweep,
  );
}

/** The arc about the joint of two edges that keeps the distance, where the joint opens on that side. */
function cornerArc(before: Edge, after: Edge, d: number): Edge | undefined {
  const u = directionOn(before, 1);
  const v = directionOn(after, 0);
  let turn = Math.atan2(u.x * v.y - u.y * v.x, u.x * v.x + u.y * v.y);
  // In a cusp the way back lies to the left or to the right of the way in by what both bend.
  if (Math.abs(turn) > Math.PI - CUSP) turn = Math.PI * (bendOf(before) + bendOf(after) > 0 ? -1 : 1);
  if (turn * d <= 0 || Math.abs(turn) < NO_TURN) return undefined;
  const cx = after.x0;
  const cy = after.y0;
  const from = Math.atan2(-u.x * d, u.y * d);
  return arcEdge(cx + u.y * d, cy - u.x * d, cx + v.y * d, cy - v.x * d, cx, cy, Math.abs(d), from, turn);
}

/** Cuts every candidate where another meets it, both at the same point. */
function cutAll(candidates: readonly Candidate[]): void {
  const boxes = boxesOf(candidates.map(({ edge }) => edge));
  const order = sweepOrder(boxes);
  for (let i = 0; i < order.length; i++) {
    const a = order[i]!;
    const minY = boxes[4 * a + 1]! - MET;
    const maxX = boxes[4 * a + 2]! + MET;
    const maxY = boxes[4 * a + 3]! + MET;
    for (let j = i + 1; j < order.length; j++) {
      const b = order[j]!;
      if (boxes[4 * b]! > maxX) break;
      if (boxes[4 * b + 1]! <= maxY && boxes[4 * b + 3]! >= minY) cutPair(candidates[a]!, candidates[b]!);
    }
  }
}

function cutPair(a: Candidate, b: Candidate): void {
  if ((a.next === b && a.smooth) || (b.next === a && b.smooth)) return;
  eachMeeting(a.edge, b.edge, MET, (x, y, s, t) => {
    if (a.next === b && isBeside(a.edge, b.edge, x, y)) return;
    if (b.next === a && isBeside(b.edge, a.edge, x, y)) return;
    cut(a, s, x, y);
    cut(b, t, x, y);
  });
}

/** Whether two edges that follow each other touch in their joint, and (x, y) lies beside it. */
const isBeside = (before: Edge, after: Edge, x: number, y: number): boolean =>
  isNear(before.x1, before.y1, after.x0, after.y0, JOINED) && isNear(x, y, after.x0, after.y0, BESIDE_JOINT);

function cut(candidate: Candidate, t: number, x: number, y: number): void {
  const { x0, y0, x1, y1 } = candidate.edge;
  if (isNear(x, y, x0, y0, JOINED / 2) || isNear(x, y, x1, y1, JOINED / 2)) {
    candidate.metAtEnds = true;
    return;
  }
  (candidate.cuts ??= []).push({ t, x, y });
}
