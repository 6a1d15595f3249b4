import { flatten } from "./flatten.ts";
import type { Path } from "./path.ts";
import { FLATTEN } from "./tolerance.ts";
import { distanceToSegment, lerp, type Vec } from "./vec.ts";

/** How far apart two lines are at most, and where on either of them that is. */
export interface Farthest {
  readonly distance: number;
  readonly at: Vec;
}

/** How far the distance found may lie below the greatest, mm: less than the flattening costs. */
const NEAR_ENOUGH = FLATTEN / 2;

/**
 * The greatest distance between two lines, mm: that of the point of either which is farthest from the other (Hausdorff distance; F.
 * Hausdorff, Grundzüge der Mengenlehre, 1914). Zero only where both run alike. Within 0.003 mm, most of it from chords that stand for
 * curves.
 */
export function farthestApart(a: Path, b: Path): Farthest {
  const [chordsA, chordsB] = [chordsOf(a), chordsOf(b)];
  const there = farthestFrom(chordsA, chordsB, { distance: 0, at: a.start });
  return farthestFrom(chordsB, chordsA, there);
}

interface Chord {
  readonly a: Vec;
  readonly b: Vec;
}

function chordsOf(path: Path): readonly Chord[] {
  const points = flatten(path);
  const ring = path.closed && points.length > 0 ? [...points, points[0]!] : points;
  return ring.length < 2 ? [{ a: path.start, b: path.start }] : ring.slice(1).map((b, i) => ({ a: ring[i]!, b }));
}

/**
 * The farthest point of some chords from others, if it is farther than `least`. The distance from one chord is a convex function along
 * another, so what lies between two points is never farther than the greater of their distances from one and the same chord: halves in
 * which that bound gives nothing are left out.
 */
function farthestFrom(chords: readonly Chord[], others: readonly Chord[], least: Farthest): Farthest {
  let best = least;
  const look = (at: Vec): Seen => {
    const seen = nearestChord(at, others);
    if (seen.distance > best.distance) best = { distance: seen.distance, at };
    return seen;
  };
  const halves: { readonly from: Seen; readonly to: Seen }[] = chords.map(({ a, b }) => ({ from: look(a), to: look(b) }));
  for (let half = halves.pop(); half; half = halves.pop()) {
    const { from, to } = half;
    const most = Math.min(Math.max(from.distance, toChord(to.at, from.chord)), Math.max(to.distance, toChord(from.at, to.chord)));
    if (most <= best.distance + NEAR_ENOUGH) continue;
    const middle = look(lerp(from.at, to.at, 0.5));
    halves.push({ from, to: middle }, { from: middle, to });
  }
  return best;
}

interface Seen {
  readonly at: Vec;
  readonly distance: number;
  readonly chord: Chord;
}

function nearestChord(at: Vec, chords: readonly Chord[]): Seen {
  let best: Seen = { at, distance: Infinity, chord: chords[0]! };
  for (const chord of chords) {
    const away = toChord(at, chord);
    if (away < best.distance) best = { at, distance: away, chord };
  }
  return best;
}

const toChord = (p: Vec, { a, b }: Chord): number => distanceToSegment(p, a, b);
