import { boundsDistance, boundsOfPoints, joinBounds, type Bounds } from "./bounds.ts";
import { appendFlat } from "./flatten.ts";
import { intersectPaths } from "./intersect.ts";
import { nearestOnPath } from "./nearest.ts";
import type { Path } from "./path.ts";
import { piecesOf } from "./segment.ts";
import { add, distanceToSegment, scale, sub, type Vec } from "./vec.ts";

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
  const runsB = runsOf(b);
  let last = runsB[0];
  let least = Infinity;
  const nearest = runsOf(a)
    .flatMap(({ chords }) => chords)
    .map((p) => {
      // Chords that lie farther off than any that counts in the end need no number.
      let [away, start] = [least + 3 * COARSE, p.points[0]];
      const look = (run: Run): void => {
        if (boundsDistance(p.box, run.box) >= away) return;
        for (const q of run.chords) {
          if (boundsDistance(p.box, q.box) >= away) continue;
          const found = chordDistance(p.points, q.points);
          if (found[0] >= away) continue;
          [away, start] = found;
          last = run;
        }
      };
      // What was nearest to the chord before is near to this one, and most of the rest then lies too far off to be looked at.
      const near = last;
      if (near) look(near);
      for (const run of runsB) if (run !== near) look(run);
      least = Math.min(least, away);
      return { away, start };
    });
  let best: Clearance | undefined;
  for (const [i, { away, start }] of nearest.entries()) {
    const lowest = away <= (nearest[i - 1]?.away ?? Infinity) && away <= (nearest[i + 1]?.away ?? Infinity);
    if (!lowest || away > least + 2 * COARSE) continue;
    const settled = settle(a, b, start);
    if (!best || settled.distance < best.distance) best = settled;
  }
  if (!best) throw new RangeError("clearance: a path has no segments");
  return best;
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
    const length = Math.hypot(step.x, step.y);
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

/** Paths never change, and one edge is often measured against many others. */
const known = new WeakMap<Path, readonly Run[]>();

function runsOf(path: Path): readonly Run[] {
  const before = known.get(path);
  if (before) return before;
  const chords = chordsOf(path);
  const runs = Array.from({ length: Math.ceil(chords.length / RUN) }, (_, i) => chords.slice(i * RUN, (i + 1) * RUN)).map(
    (run) => ({
      chords: run,
      box: joinBounds(run.map(({ box }) => box)),
    }),
  );
  known.set(path, runs);
  return runs;
}

function chordsOf(path: Path): Chord[] {
  const points: Vec[] = [path.start];
  for (const piece of piecesOf(path)) appendFlat(piece, COARSE, points);
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
