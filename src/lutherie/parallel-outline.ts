/**
 * An outline moved in by the thickness of a side or of a binding: the parallel curve d inside, each point shifted along its
 * normal. Lines and arcs come out exactly, curves as cubics within a tolerance. Source: parallel curves, any text on plane
 * curves; a curve of curvature k has one as long as d k < 1.
 */
import { arcRadius } from "../geometry/arc.ts";
import { intersectPaths } from "../geometry/intersect.ts";
import { pieceLengthsOf } from "../geometry/measure.ts";
import { arc, endOf, line, type Path, type Segment } from "../geometry/path.ts";
import { curvatureAt, partOf, piecesOf, pointAt, tangentAt, type Piece } from "../geometry/segment.ts";
import { selfCrossings } from "../geometry/self-crossing.ts";
import { add, angleBetween, distance, leftOf, scale, type Vec } from "../geometry/vec.ts";
import { curveSegments } from "../geometry/curve-path.ts";

/** Turn between two segments (radians) that still counts as none. */
const NO_CORNER = 1e-4;
const LOOKS = 24;
/** Greatest distance of the cubics from the true parallel curve, mm. */
const TOLERANCE = 4e-3;
/** The least share of a curve's speed that may be left, so that no cusp comes near. */
const LEAST_SPEED = 0.02;

/**
 * A closed outline, run counter-clockwise, moved `by` mm inwards (0 or above), within `tolerance` mm. Corners that point outwards are
 * cut where their sides meet, those that point inwards rounded. Undefined where a bend is too tight for it, where the sides of a
 * corner meet no more, or where it would cross itself.
 */
export function movedInside(outline: Path, by: number, tolerance = TOLERANCE): Path | undefined {
  const moved = moveAll(outline, by, tolerance);
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
    const path: Path | undefined = clear ? moveAll(outline, distance, tolerance) : movedInside(outline, distance, tolerance);
    clear ||= path !== undefined;
    found.set(distance, path);
  }
  return by.map((distance) => found.get(distance));
}

function moveAll(outline: Path, by: number, tolerance: number): Path | undefined {
  if (!outline.closed || !(by >= 0)) throw new RangeError("movedInside: needs a closed outline and a distance of 0 or more");
  if (by === 0) return outline;
  const lengths = pieceLengthsOf(outline);
  const pieces = piecesOf(outline).filter((_, i) => lengths[i]! > 1e-9);
  const runs = smoothRunsOf(pieces).map((run) => moveRun(run, by, tolerance));
  return runs.every((run) => run !== undefined) ? joinRuns(runs as Run[]) : undefined;
}

interface Run {
  readonly path: Path;
  /** Where it ended on the outline as it was. */
  readonly corner: Vec;
  /** Direction of travel at its ends, the same on the outline as it was. */
  readonly leaving: Vec;
  readonly arriving: Vec;
}

/** The pieces cut at the corners, the first beginning at one if there is any. */
function smoothRunsOf(pieces: readonly Piece[]): Piece[][] {
  const turnAfter = (i: number): number =>
    angleBetween(tangentAt(pieces[i]!, 1)!, tangentAt(pieces[(i + 1) % pieces.length]!, 0)!);
  const corners = pieces.flatMap((_, i) => (Math.abs(turnAfter(i)) > NO_CORNER ? [i] : []));
  const last = corners.at(-1);
  if (last === undefined) return [[...pieces]];
  const turned = [...pieces.slice(last + 1), ...pieces.slice(0, last + 1)];
  const runs: Piece[][] = [[]];
  turned.forEach((piece, k) => {
    runs.at(-1)!.push(piece);
    if (corners.includes((last + 1 + k) % pieces.length) && k < turned.length - 1) runs.push([]);
  });
  return runs;
}

function moveRun(run: readonly Piece[], by: number, tolerance: number): Run | undefined {
  const segments: Segment[] = [];
  for (const piece of run) {
    const moved = movePiece(piece, by, tolerance);
    if (!moved) return undefined;
    segments.push(...moved);
  }
  const [first, last] = [run[0]!, run.at(-1)!];
  return {
    path: { start: shifted(first, 0, by), segments, closed: false },
    corner: last.segment.to,
    leaving: tangentAt(first, 0)!,
    arriving: tangentAt(last, 1)!,
  };
}

const shifted = (piece: Piece, t: number, by: number): Vec => add(pointAt(piece, t), scale(leftOf(tangentAt(piece, t)!), by));

function movePiece(piece: Piece, by: number, tolerance: number): Segment[] | undefined {
  const end = shifted(piece, 1, by);
  const { segment, from } = piece;
  if (segment.kind === "line") return [line(end)];
  if (segment.kind === "arc")
    return !segment.ccw || arcRadius(from, segment) > by * (1 + LEAST_SPEED)
      ? [arc(end, segment.centre, segment.ccw)]
      : undefined;
  for (let k = 0; k <= LOOKS; k++) if (!(1 - by * curvatureAt(piece, k / LOOKS) > LEAST_SPEED)) return undefined;
  return curveSegments({ at: (t) => shifted(piece, t, by), direction: (t) => tangentAt(piece, t)! }, 0, 1, tolerance);
}

/** The moved runs joined: cut where they cross at a corner that points outwards, rounded about one that points inwards. */
function joinRuns(runs: readonly Run[]): Path | undefined {
  const [only] = runs;
  if (runs.length === 1 && only && distance(only.path.start, endOf(only.path)) < 1e-6)
    return closed(only.path.start, only.path.segments);
  let trimmed = runs.map(({ path }) => path);
  const arcs: (Segment | undefined)[] = [];
  for (let i = 0; i < runs.length; i++) {
    const next = (i + 1) % runs.length;
    const [a, b] = [trimmed[i]!, trimmed[next]!];
    const { corner, arriving } = runs[i]!;
    if (angleBetween(arriving, runs[next]!.leaving) > 0) {
      const cut = i === next ? undefined : crossing(a, b, corner);
      if (!cut) return undefined;
      trimmed = trimmed.map((path, k) => (k === i ? cut.before : k === next ? cut.after : path));
      arcs.push(undefined);
      continue;
    }
    arcs.push(arc(b.start, corner, false));
  }
  const segments = trimmed.flatMap((path, i) => [...path.segments, ...(arcs[i] ? [arcs[i]] : [])]);
  return closed(trimmed[0]!.start, segments);
}

const closed = (start: Vec, segments: readonly Segment[]): Path => ({
  start,
  segments: [...segments.slice(0, -1), { ...segments.at(-1)!, to: start }],
  closed: true,
});

/** Both runs up to and from where they cross nearest to the corner. */
function crossing(a: Path, b: Path, corner: Vec): { readonly before: Path; readonly after: Path } | undefined {
  const [found] = intersectPaths(a, b).toSorted((m, n) => distance(m.point, corner) - distance(n.point, corner));
  if (!found) return undefined;
  const [before, after] = [piecesOf(a)[found.first]!, piecesOf(b)[found.second]!];
  const { point } = found;
  const head = found.s > 1e-12 ? [{ ...partOf(before, 0, Math.min(1, found.s)).segment, to: point }] : [];
  const tail = found.t < 1 - 1e-12 ? [partOf(after, Math.max(0, found.t), 1).segment] : [];
  return {
    before: { start: a.start, segments: [...a.segments.slice(0, found.first), ...head], closed: false },
    after: { start: point, segments: [...tail, ...b.segments.slice(found.second + 1)], closed: false },
  };
}
