import { boundsDistance, boundsOfPoints, joinBounds, type Bounds } from "./bounds.ts";
import { appendFlat } from "./flatten.ts";
import { intersectPaths } from "./intersect.ts";
import { nearestOnPath } from "./nearest.ts";
import type { Path } from "./path.ts";
import { boxedPiecesOf, type Piece } from "./segment.ts";
import { add, distance, distanceToSegment, norm, scale, sub, type Vec } from "./vec.ts";

/** The narrowest place between two paths: one point on each and how far apart they are. */
export interface Clearance {
  readonly a: Vec;
  readonly b: Vec;
  readonly distance: number;
}

/** Chords of the first search. */
const COARSE = 0.005;

/**
 * The least distance between two paths, 0 where they meet, to 1e-6 mm; where the two run side by side at nearly one distance, to 0.01. It is
 * the edges that count: a path inside another keeps its distance from the edge. Chords find the places where the distance is least to
 * either side; each is then settled by falling from one curve square onto the other in turn, and on to where these falls lead.
 */
export function clearance(a: Path, b: Path): Clearance {
  const [met] = intersectPaths(a, b);
  if (met) return { a: met.point, b: met.point, distance: 0 };
  const { chords, least } = nearChords(a, b);
  let best: Clearance | undefined;
  for (const [i, { away, start }] of chords.entries()) {
    const lowest = away <= (chords[i - 1]?.away ?? Infinity) && away <= (chords[i + 1]?.away ?? Infinity);
    if (!lowest || away > least + 2 * COARSE) continue;
    const settled = settle(a, b, start);
    if (!best || settled.distance < best.distance) best = settled;
  }
  if (!best) throw new RangeError("clearance: a path has no segments");
  return best;
}

/** How far a chord keeps from another path, and at which of its points; Infinity where that is more than counts in the end. */
interface Near {
  away: number;
  start: Vec;
}

/** The chords of a path, piece by piece, with their distances to another; and the least of these. */
function nearChords(a: Path, b: Path): { readonly chords: readonly Near[]; readonly least: number } {
  const [own, others] = [boxedPiecesOf(a), boxedPiecesOf(b)];
  let least = Infinity;
  for (const { piece } of own) for (const other of others) least = Math.min(least, distance(piece.from, other.piece.from));
  const tooFar = (p: Bounds, q: Bounds): boolean => boundsDistance(p, q) >= least + 3 * COARSE;
  const pairs = own.flatMap(({ box }, i) =>
    others.flatMap((other, j) => (tooFar(box, other.box) ? [] : [{ i, j, apart: boundsDistance(box, other.box) }])),
  );
  // A piece that comes nowhere near is not cut into chords; one stands for all of them.
  const near = own.map(({ piece }): Near[] => [{ away: Infinity, start: piece.from }]);
  const cut = new Set<number>();
  // From the nearest on, so that most of the rest then lies too far off to be looked at.
  for (const { i, j } of pairs.toSorted((p, q) => p.apart - q.apart)) {
    const box = others[j]!.box;
    if (tooFar(own[i]!.box, box)) break;
    const runs = runsOf(a, i);
    if (!cut.has(i)) near[i] = runs.flatMap(({ chords }) => chords.map(({ points }) => ({ away: Infinity, start: points[0] })));
    cut.add(i);
    let k = 0;
    for (const run of runs) {
      if (tooFar(run.box, box)) k += run.chords.length;
      else
        for (const chord of run.chords) {
          look(chord, runsOf(b, j), near[i]![k]!, least + 3 * COARSE);
          least = Math.min(least, near[i]![k]!.away);
          k += 1;
        }
    }
  }
  return { chords: near.flat(), least };
}

/** Takes into `near` what comes nearer to the chord than `most` and than what was found before. */
function look(p: Chord, runs: readonly Run[], near: Near, most: number): void {
  let limit = Math.min(near.away, most);
  for (const run of runs) {
    if (boundsDistance(p.box, run.box) >= limit) continue;
    for (const q of run.chords) {
      if (boundsDistance(p.box, q.box) >= limit) continue;
      const [away, start] = chordDistance(p.points, q.points);
      if (away >= limit) continue;
      limit = away;
      near.away = away;
      near.start = start;
    }
  }
}

/** Edges that run side by side settle ever more slowly, with nothing to gain that counts. */
const ROUNDS = 30;

function settle(a: Path, b: Path, start: Vec): Clearance {
  const across = (onA: Vec): Clearance => {
    const { point, distance } = nearestOnPath(b, onA);
    return { a: onA, b: point, distance };
  };
  let at = across(nearestOnPath(a, start).point);
  let before = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const fallen = across(nearestOnPath(a, at.b).point);
    const step = sub(fallen.a, at.a);
    const length = norm(step);
    // Each step is about the same share of the one before; this is where all that are to come would lead.
    const ahead = length > 0 && length < before ? length / (before - length) : 0;
    const led = ahead > 0 ? across(nearestOnPath(a, add(fallen.a, scale(step, ahead))).point) : fallen;
    const next = led.distance < fallen.distance ? led : fallen;
    if (next.distance > at.distance - 1e-9) return next.distance < at.distance ? next : at;
    before = next === led && ahead > 0 ? 0 : length;
    at = next;
  }
  return at;
}

interface Chord {
  readonly points: readonly [Vec, Vec];
  readonly box: Bounds;
}

/** Chords that follow each other, and the box round them. */
interface Run {
  readonly chords: readonly Chord[];
  readonly box: Bounds;
}
const RUN = 24;

/** Paths never change, and one edge is often measured against many others: the runs of those of its pieces that were looked at. */
const known = new WeakMap<Path, Map<number, readonly Run[]>>();

function runsOf(path: Path, index: number): readonly Run[] {
  const ofPath = known.get(path) ?? new Map<number, readonly Run[]>();
  const before = ofPath.get(index);
  if (before) return before;
  const chords = chordsOf(boxedPiecesOf(path)[index]!.piece);
  const runs = Array.from({ length: Math.ceil(chords.length / RUN) }, (_, i) => chords.slice(i * RUN, (i + 1) * RUN)).map(
    (run) => ({
      chords: run,
      box: joinBounds(run.map(({ box }) => box)),
    }),
  );
  known.set(path, ofPath.set(index, runs));
  return runs;
}

function chordsOf(piece: Piece): Chord[] {
  const points: Vec[] = [piece.from];
  appendFlat(piece, COARSE, points);
  return points.slice(1).map((to, i) => {
    const ends = [points[i]!, to] as const;
    return { points: ends, box: boundsOfPoints(ends) };
  });
}

/** Least distance of two straight pieces that do not cross, and the point of the first at which it is taken. */
function chordDistance([a, b]: readonly [Vec, Vec], [c, d]: readonly [Vec, Vec]): [number, Vec] {
  const fromA = distanceToSegment(a, c, d);
  const fromB = distanceToSegment(b, c, d);
  const toC = distanceToSegment(c, a, b);
  const toD = distanceToSegment(d, a, b);
  const least = Math.min(fromA, fromB, toC, toD);
  if (least === fromA) return [least, a];
  if (least === fromB) return [least, b];
  return [least, least === toC ? c : d];
}
