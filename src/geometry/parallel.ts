/**
 * Parallel curves of closed paths: each point shifted along its normal. Lines and arcs come out exactly, cubics as cubics within a tolerance.
 * Source: parallel curves, any text on plane curves; a curve of curvature k, above 0 where it bends to the left, that moves d to its right
 * has one as long as 1 + d k > 0.
 */
import { arcRadius } from "./arc.ts";
import { boundsDistance, boundsOfPoints } from "./bounds.ts";
import type { Join } from "./clipper.ts";
import { curveSegments } from "./curve-path.ts";
import { intersectPieces, meetLines } from "./intersect.ts";
import { arc, endOf, line, type Path, type Segment } from "./path.ts";
import { curvatureAt, hullOf, partOf, pieceLength, piecesOf, pointAt, tangentAt, type Piece } from "./segment.ts";
import { selfCrossings } from "./self-crossing.ts";
import { SAME_POINT } from "./tolerance.ts";
import { add, angleBetween, distance, leftOf, scale, type Vec } from "./vec.ts";

/** Joints whose edges part by less than this, mm, when they are moved are smooth; and those beside a cubic that turn by less than so many radians. */
const NO_GAP = 1e-6;
const NO_CORNER = 1e-4;
/** A joint that turns back within this of half a turn, radians, is a cusp. */
const CUSP = 1e-6;
/** Places of a cubic at which its bend is looked at. */
const LOOKS = 24;
/** Greatest distance of the cubics from the true parallel curve, mm. */
const TOLERANCE = 4e-3;
/** The least share of a curve's speed that may be left, so that no cusp comes near. */
const LEAST_SPEED = 0.02;

export interface ParallelOptions {
  /** At corners that open. */
  readonly join?: Join;
  /** Of cubics, mm. */
  readonly tolerance?: number;
  /** Whether arcs whose radius is used up are left out, their neighbours cut where they meet; otherwise there is no parallel path. */
  readonly dropsArcs?: boolean;
}

/**
 * A closed path with its edge moved `d` mm to the right of its travel (outwards from one run counter-clockwise). Corners that open are
 * joined, corners that close cut where their sides meet. Undefined where a cubic bends too tightly for it, and where sides that should meet do
 * not. Edges far apart that now meet are not looked at. Throws on an open path.
 */
export function parallelPath(path: Path, d: number, options: ParallelOptions = {}): Path | undefined {
  if (!path.closed) throw new RangeError("parallelPath: the path is open");
  if (d === 0) return path;
  const { join = "round", tolerance = TOLERANCE, dropsArcs = false } = options;
  const pieces = piecesOf(path).filter(
    (piece) => distance(piece.from, piece.segment.to) > SAME_POINT || pieceLength(piece) > SAME_POINT,
  );
  const kept: Moved[] = [];
  for (const [index, piece] of pieces.entries()) {
    const segments = movePiece(piece, d, tolerance);
    if (!segments || (segments.length === 0 && !dropsArcs)) return undefined;
    if (segments.length > 0) kept.push({ piece, index, start: shifted(piece, 0, d), segments });
  }
  const joints = kept.map((before, i) => jointOf(before, kept[(i + 1) % kept.length]!, pieces.length, d));
  if (joints.length === 0 || joints.includes(undefined)) return undefined;
  return joinRuns(runsOf(kept, joints as Joint[]), d, join);
}

/**
 * A closed outline, run counter-clockwise, moved `by` mm inwards (0 or above), within `tolerance` mm. Undefined where a bend is too tight for
 * it, where the sides of a corner meet no more, or where it would cross itself.
 */
export function movedInside(outline: Path, by: number, tolerance = TOLERANCE): Path | undefined {
  const moved = moveIn(outline, by, tolerance);
  return moved && selfCrossings(moved).length === 0 ? moved : undefined;
}

/**
 * The same for several distances at once, in their order. A parallel curve that does not cross itself lies inside others that do not, so only
 * the deepest that there is is looked at.
 */
export function allMovedInside(outline: Path, by: readonly number[], tolerance = TOLERANCE): (Path | undefined)[] {
  const deepFirst = [...new Set(by)].toSorted((a, b) => b - a);
  const found = new Map<number, Path | undefined>();
  let clear = false;
  for (const distance of deepFirst) {
    const path: Path | undefined = clear ? moveIn(outline, distance, tolerance) : movedInside(outline, distance, tolerance);
    clear ||= path !== undefined;
    found.set(distance, path);
  }
  return by.map((distance) => found.get(distance));
}

function moveIn(outline: Path, by: number, tolerance: number): Path | undefined {
  if (!(by >= 0)) throw new RangeError("movedInside: needs a distance of 0 or more");
  return parallelPath(outline, -by, { tolerance });
}

/** A piece and what it has become. */
interface Moved {
  readonly piece: Piece;
  readonly index: number;
  readonly start: Vec;
  readonly segments: readonly Segment[];
}

const shifted = (piece: Piece, t: number, d: number): Vec => add(pointAt(piece, t), scale(leftOf(tangentAt(piece, t)!), -d));

/** Empty where an arc's radius is used up; undefined where a cubic has no parallel curve. */
function movePiece(piece: Piece, d: number, tolerance: number): Segment[] | undefined {
  const end = shifted(piece, 1, d);
  const { segment, from } = piece;
  if (segment.kind === "line") return [line(end)];
  if (segment.kind === "arc")
    return arcRadius(from, segment) + (segment.ccw ? d : -d) > SAME_POINT ? [arc(end, segment.centre, segment.ccw)] : [];
  for (let k = 0; k <= LOOKS; k++) if (!(1 + d * curvatureAt(piece, k / LOOKS) > LEAST_SPEED)) return undefined;
  return curveSegments({ at: (t) => shifted(piece, t, d), direction: (t) => tangentAt(piece, t)! }, 0, 1, tolerance);
}

/** How two pieces go on into each other. */
type Joint = "smooth" | "opens" | "closes";

/** Undefined at a cusp. */
function jointOf(before: Moved, after: Moved, count: number, d: number): Joint | undefined {
  if ((before.index + 1) % count !== after.index) return "closes";
  const turn = turnBetween(before.piece, after.piece);
  const curved = [before, after].some(({ piece }) => piece.segment.kind === "cubic");
  if (Math.abs(turn * d) < NO_GAP || (curved && Math.abs(turn) < NO_CORNER)) return "smooth";
  if (Math.abs(turn) > Math.PI - CUSP) return undefined;
  return turn * d > 0 ? "opens" : "closes";
}

const turnBetween = (a: Piece, b: Piece): number => angleBetween(tangentAt(a, 1)!, tangentAt(b, 0)!);

/** Pieces that go on smoothly, as one open path. */
interface Run {
  readonly path: Path;
  readonly last: Piece;
  /** The first piece of the next run. */
  readonly next: Piece;
  readonly joint: Joint;
}

/** Runs between the corners. One that goes all round from a corner to itself is two, which can be cut where they meet. */
function runsOf(kept: readonly Moved[], joints: readonly Joint[]): Run[] {
  const corners = joints.flatMap((joint, i) => (joint === "smooth" ? [] : [i]));
  const ends = corners.length === 1 && kept.length > 1 ? [...corners, (corners[0]! + (kept.length >> 1)) % kept.length] : corners;
  if (ends.length === 0) ends.push(kept.length - 1);
  const inOrder = ends.toSorted((a, b) => a - b);
  return inOrder.map((end, k) => {
    const begin = inOrder[(k + inOrder.length - 1) % inOrder.length]! + 1;
    const count = ((end - begin + kept.length) % kept.length) + 1;
    const run = Array.from({ length: count }, (_, i) => kept[(begin + i) % kept.length]!);
    return {
      path: { start: run[0]!.start, segments: run.flatMap(({ segments }) => segments), closed: false },
      last: run.at(-1)!.piece,
      next: kept[(end + 1) % kept.length]!.piece,
      joint: joints[end]!,
    };
  });
}

/** The runs joined: cut where they cross at a corner that closes, joined about one that opens. */
function joinRuns(runs: readonly Run[], d: number, join: Join): Path | undefined {
  const trimmed = runs.map(({ path }) => path);
  const joins: Segment[][] = [];
  for (const [i, { joint, last, next }] of runs.entries()) {
    const after = (i + 1) % runs.length;
    const [a, b] = [trimmed[i]!, trimmed[after]!];
    const corner = last.segment.to;
    joins.push([]);
    if (joint === "closes") {
      const cut = i === after ? undefined : crossing(a, b, corner, NEAR * Math.abs(d));
      if (!cut) return undefined;
      trimmed[i] = cut.before;
      trimmed[after] = cut.after;
    } else if (joint === "opens" && join === "round") joins[i]!.push(arc(b.start, corner, d > 0));
    else if (joint === "opens") {
      const tip = meetLines(endOf(a), tangentAt(last, 1)!, b.start, tangentAt(next, 0)!);
      if (!tip) return undefined;
      joins[i]!.push(line(tip), line(b.start));
    }
  }
  if (trimmed.some(({ segments }) => segments.length === 0)) return undefined;
  const segments = trimmed.flatMap((path, i) => [...path.segments, ...joins[i]!]);
  const [first] = trimmed;
  // Made to end on the start itself, which rounding may have left a hair away.
  return { start: first!.start, segments: [...segments.slice(0, -1), { ...segments.at(-1)!, to: first!.start }], closed: true };
}

/** Sides that close at a corner mostly cross within so many times the distance that they were moved by. */
const NEAR = 4;

/** Both runs up to and from where they cross nearest to the corner, looked for within `near` mm of it first. */
function crossing(a: Path, b: Path, corner: Vec, near: number): { readonly before: Path; readonly after: Path } | undefined {
  const found = nearestCrossing(a, b, corner, near) ?? nearestCrossing(a, b, corner, Infinity);
  if (!found) return undefined;
  const { point, before, after, s, t } = found;
  const head = s > 1e-12 ? [{ ...partOf(before, 0, Math.min(1, s)).segment, to: point }] : [];
  const tail = t < 1 - 1e-12 ? [partOf(after, Math.max(0, t), 1).segment] : [];
  return {
    before: { start: a.start, segments: [...a.segments.slice(0, found.first), ...head], closed: false },
    after: { start: point, segments: [...tail, ...b.segments.slice(found.second + 1)], closed: false },
  };
}

interface Crossing {
  readonly point: Vec;
  readonly away: number;
  readonly first: number;
  readonly before: Piece;
  readonly s: number;
  readonly second: number;
  readonly after: Piece;
  readonly t: number;
}

/** The nearest to the corner of all crossings within reach of it. */
function nearestCrossing(a: Path, b: Path, corner: Vec, reach: number): Crossing | undefined {
  const at = boundsOfPoints([corner]);
  const within = (path: Path) =>
    piecesOf(path)
      .map((piece, index) => ({ piece, index }))
      .filter(({ piece }) => boundsDistance(hullOf(piece), at) <= reach);
  const others = within(b);
  let best: Crossing | undefined;
  for (const { piece: before, index: first } of within(a))
    for (const { piece: after, index: second } of others)
      for (const { point, s, t } of intersectPieces(before, after)) {
        const away = distance(point, corner);
        if (away <= reach && away < (best?.away ?? Infinity)) best = { point, away, first, before, s, second, after, t };
      }
  return best;
}
