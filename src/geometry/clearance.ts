import { boundsDistance, boundsOfPoints } from "./bounds.ts";
import { appendFlat } from "./flatten.ts";
import { intersectPaths } from "./intersect.ts";
import { nearestOnPath } from "./nearest.ts";
import type { Path } from "./path.ts";
import { piecesOf } from "./segment.ts";
import { distanceToSegment, type Vec } from "./vec.ts";

/** The narrowest place between two paths: one point on each and how far apart they are. */
export interface Clearance {
  readonly a: Vec;
  readonly b: Vec;
  readonly distance: number;
}

/** Chords of the first, coarse search. */
const COARSE = 0.01;

/**
 * The least distance between two paths, 0 where they meet; to 1e-6 mm. It is the edges that count: a path inside another keeps its
 * distance from the edge. Chords find the candidates; each is then settled by falling from one curve square onto the other in turn.
 */
export function clearance(a: Path, b: Path): Clearance {
  const [met] = intersectPaths(a, b);
  if (met) return { a: met.point, b: met.point, distance: 0 };
  const chordsA = chordsOf(a);
  const chordsB = chordsOf(b);
  let least = Infinity;
  const pairs: { away: number; start: Vec }[] = [];
  for (const p of chordsA)
    for (const q of chordsB) {
      if (boundsDistance(p.box, q.box) > least + 2 * COARSE) continue;
      const [away, start] = chordDistance(p.points, q.points);
      if (away > least + 2 * COARSE) continue;
      least = Math.min(least, away);
      pairs.push({ away, start });
    }
  let best: Clearance | undefined;
  for (const { away, start } of pairs) {
    if (away > least + 2 * COARSE) continue;
    const settled = settle(a, b, start);
    if (!best || settled.distance < best.distance) best = settled;
  }
  if (!best) throw new RangeError("clearance: a path has no segments");
  return best;
}

function settle(a: Path, b: Path, start: Vec): Clearance {
  let onA = nearestOnPath(a, start).point;
  let away = Infinity;
  for (;;) {
    const onB = nearestOnPath(b, onA).point;
    const next = nearestOnPath(a, onB);
    if (next.distance > away - 1e-9) return { a: next.point, b: onB, distance: next.distance };
    away = next.distance;
    onA = next.point;
  }
}

function chordsOf(path: Path): { points: readonly [Vec, Vec]; box: ReturnType<typeof boundsOfPoints> }[] {
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
