import { arcSweep } from "./arc.ts";
import { fitArc, fitCircle } from "./fit-arc.ts";
import { fitCubic } from "./fit-cubic.ts";
import { circle, cubic, line, type Arc, type Path, type Segment } from "./path.ts";
import type { Outline } from "./outline.ts";
import type { Region, Ring } from "./region.ts";
import { reversePath } from "./segment.ts";
import { ringArea } from "./region.ts";
import { straightSides, thinRing } from "./thin.ts";
import { ARC_POINTS, CORNER_TURN, FLATTEN, REFIT, THIN } from "./tolerance.ts";
import { angleBetween, distance, leftOf, scale, sub, turned, unit, type Vec } from "./vec.ts";

/** A side or a turn that bows by more than this off any chord cannot be a smooth curve flattened and thinned, whatever its angle. */
const BOW = 3 * (FLATTEN + THIN);
/** An arc within a longer smooth run must turn by this much, over so many sides, before it is taken for one. */
const ARC_TURN = Math.PI / 6;
const ARC_SIDES = 6;

/**
 * The ring as a closed path of lines, true arcs and cubics, run the same way: the ring is thinned (to THIN) and no fitted segment is further
 * than `tolerance` mm from the thinned ring. Corners stay corners and straight sides straight; elsewhere segments meet in one direction.
 * A ring round a circle becomes a circle. For rings made by flattening to FLATTEN and by clipping; a coarser ring keeps its sides.
 */
export function refitRing(ring: Ring, tolerance = REFIT): Path {
  const round = fitCircle(ring, ARC_POINTS);
  if (round && ring.every((p, i) => chordBow(p, ring[(i + 1) % ring.length]!, round.radius) <= tolerance)) {
    const path = circle(round.centre, round.radius);
    return ringArea(ring) > 0 ? path : reversePath(path);
  }
  const points = thinRing(ring);
  const n = points.length;
  const straight = straightSides(points, BOW);
  const breaks = points.flatMap((_, i) => (straight[i] || straight[(i + n - 1) % n] || isCorner(points, i) ? [i] : []));
  if (breaks.length === 0) return fitSmoothLoop(points, tolerance);
  const segments: Segment[] = [];
  for (const [k, from] of breaks.entries()) {
    const to = k + 1 < breaks.length ? breaks[k + 1]! : breaks[0]! + n;
    const run = Array.from({ length: to - from + 1 }, (_, i) => points[(from + i) % n]!);
    if (run.length === 2) {
      segments.push(line(run[1]!));
      continue;
    }
    // Where a straight side runs on smoothly into the curve, its direction is the curve's.
    const before = straight[(from + n - 1) % n] ? unit(sub(run[0]!, points[(from + n - 1) % n]!)) : undefined;
    const after = straight[to % n] ? unit(sub(points[(to + 1) % n]!, run.at(-1)!)) : undefined;
    segments.push(
      ...fitRun(run, agreed(endTangent(run), before), agreed(scale(endTangent(run.toReversed()), -1), after), tolerance),
    );
  }
  return { start: points[breaks[0]!]!, segments, closed: true };
}

/** Every ring of the region refitted. */
export const outlinesOf = (region: Region, tolerance = REFIT): Outline[] =>
  region.map(({ outer, holes }) => ({
    outer: refitRing(outer, tolerance),
    holes: holes.map((hole) => refitRing(hole, tolerance)),
  }));

const chordBow = (a: Vec, b: Vec, radius: number): number => {
  const half = distance(a, b) / 2;
  return half < radius ? radius - Math.sqrt(radius * radius - half * half) : radius;
};

/** True where the ring turns too sharply at a point for a flattened curve. */
export function isCorner(points: Ring, i: number, bow = BOW): boolean {
  const n = points.length;
  const a = sub(points[i]!, points[(i + n - 1) % n]!);
  const b = sub(points[(i + 1) % n]!, points[i]!);
  const turn = Math.abs(angleBetween(a, b));
  return turn > CORNER_TURN || (turn * Math.min(Math.hypot(a.x, a.y), Math.hypot(b.x, b.y))) / 8 > bow;
}

/** A ring without corners or straight sides, begun where it bends most. */
function fitSmoothLoop(points: Ring, tolerance: number): Path {
  const n = points.length;
  let first = 0;
  let most = -1;
  for (let i = 0; i < n; i++) {
    const a = sub(points[i]!, points[(i + n - 1) % n]!);
    const b = sub(points[(i + 1) % n]!, points[i]!);
    const bend = Math.abs(angleBetween(a, b)) / (Math.hypot(a.x, a.y) + Math.hypot(b.x, b.y));
    if (bend > most) {
      most = bend;
      first = i;
    }
  }
  const run = Array.from({ length: n + 1 }, (_, i) => points[(first + i) % n]!);
  const tangent = tangentThrough(points[(first + n - 1) % n]!, run[0]!, run[1]!);
  return { start: run[0]!, segments: fitRun(run, tangent, tangent, tolerance), closed: true };
}

/** A smooth run of points: arcs where there are true ones, cubics between. */
function fitRun(run: readonly Vec[], leaving: Vec, arriving: Vec, tolerance: number): Segment[] {
  const whole = wholeArc(run, tolerance);
  if (whole) return whole;
  const segments: Segment[] = [];
  let done = 0;
  let tangent = leaving;
  for (const found of arcsIn(run, tolerance)) {
    const start = leftOf(scale(unit(sub(run[found.from]!, found.arc.centre)), found.arc.ccw ? 1 : -1));
    const end = leftOf(scale(unit(sub(run[found.to]!, found.arc.centre)), found.arc.ccw ? 1 : -1));
    if (found.from > done) segments.push(...fitCubics(run.slice(done, found.from + 1), tangent, start, tolerance));
    segments.push(found.arc);
    done = found.to;
    tangent = end;
  }
  if (done < run.length - 1) segments.push(...fitCubics(run.slice(done), tangent, arriving, tolerance));
  return segments;
}

/** The run as one arc, or as two halves of one circle where it turns by more than half a turn. Between breaks an arc is as good as a cubic. */
function wholeArc(run: readonly Vec[], tolerance: number): Arc[] | undefined {
  const one = arcWithin(run, tolerance / 2, tolerance);
  if (one) return [one];
  const middle = Math.floor(run.length / 2);
  const halves = [run.slice(0, middle + 1), run.slice(middle)].map((half) => arcWithin(half, tolerance / 2, tolerance));
  const [a, b] = halves;
  return a && b && distance(a.centre, b.centre) < tolerance ? [a, b] : undefined;
}

/** The arc through the run, if its points stand on it to `slack` and its bow over each side keeps within the tolerance of that side. */
function arcWithin(run: readonly Vec[], slack: number, tolerance: number): Arc | undefined {
  // Three points lie on some circle whatever the curve.
  if (run.length < 4) return undefined;
  const found = fitArc(run, slack);
  if (!found) return undefined;
  const radius = distance(run[0]!, found.centre);
  const inside = run.map((p) => radius - distance(p, found.centre));
  const keeps = run.slice(1).every((p, i) => chordBow(run[i]!, p, radius) + Math.max(0, inside[i]!, inside[i + 1]!) <= tolerance);
  return keeps ? found : undefined;
}

interface FoundArc {
  readonly from: number;
  readonly to: number;
  readonly arc: Arc;
}

/** The long arcs in a smooth run, in order. */
function arcsIn(run: readonly Vec[], tolerance: number): FoundArc[] {
  const last = run.length - 1;
  const bent = new Float64Array(run.length);
  for (let i = 1; i < last; i++) bent[i] = bent[i - 1]! + angleBetween(sub(run[i]!, run[i - 1]!), sub(run[i + 1]!, run[i]!));
  bent[last] = bent[last - 1]!;
  const found: FoundArc[] = [];
  let from = 0;
  while (from + ARC_SIDES <= last) {
    let to = from + ARC_SIDES;
    while (to < last && Math.abs(bent[to - 1]! - bent[from]!) < ARC_TURN) to++;
    let best = arcWithin(run.slice(from, to + 1), ARC_POINTS, tolerance);
    if (!best || Math.abs(arcSweep(run[from]!, best)) < ARC_TURN) {
      from++;
      continue;
    }
    for (let step = last - to; step > 0; step = Math.floor(step / 2)) {
      for (let longer = to + step; longer <= last; longer = to + step) {
        const next = arcWithin(run.slice(from, longer + 1), ARC_POINTS, tolerance);
        if (!next) break;
        best = next;
        to = longer;
      }
    }
    found.push({ from, to, arc: best });
    from = to;
  }
  return found;
}

/** Cubics over a smooth run, each as long as the tolerance lets it be. */
function fitCubics(run: readonly Vec[], leaving: Vec, arriving: Vec, tolerance: number): Segment[] {
  const last = run.length - 1;
  const segments: Segment[] = [];
  let from = 0;
  let tangent = leaving;
  let guess = last;
  while (from < last) {
    const fit = (to: number): Segment | undefined => {
      const end = to === last ? arriving : tangentThrough(run[to - 1]!, run[to]!, run[to + 1]!);
      const found = fitCubic(run.slice(from, to + 1), tangent, end, tolerance);
      return found && cubic(found[1], found[2], found[3]);
    };
    // The longest that fits lies between `good` and `bad`; searched from the length of the one before.
    let good = from;
    let best: Segment | undefined;
    let bad = last + 1;
    let to = Math.min(last, from + guess);
    while (to > good) {
      const found = fit(to);
      if (found) {
        best = found;
        good = to;
      } else bad = to;
      to = bad > last ? Math.min(last, good + (good - from)) : Math.floor((good + bad) / 2);
    }
    // A side on its own is within any tolerance of itself.
    if (!best) {
      good = from + 1;
      best = line(run[good]!);
    }
    segments.push(best);
    guess = Math.max(2, good - from);
    from = good;
    if (from < last) tangent = tangentThrough(run[from - 1]!, run[from]!, run[from + 1]!);
  }
  return segments;
}

/** Direction at b of the circle through three points. */
export function tangentThrough(a: Vec, b: Vec, c: Vec): Vec {
  const u = sub(b, a);
  const v = sub(c, b);
  const p = Math.hypot(u.x, u.y);
  const q = Math.hypot(v.x, v.y);
  // Each side's direction weighs by the other's length.
  return unit({ x: (u.x / p) * q + (v.x / q) * p, y: (u.y / p) * q + (v.y / q) * p });
}

/** Direction at the start of a run, by the circle through its first three points. */
export function endTangent(run: readonly Vec[]): Vec {
  const chord = unit(sub(run[1]!, run[0]!));
  // The tangent leaves the chord by the angle under which the chord is seen from the third point.
  const turn = angleBetween(sub(run[2]!, run[0]!), sub(run[2]!, run[1]!));
  return turned(chord, -turn);
}

/** The neighbour's direction where it agrees with the run's own to 3 degrees. */
export const agreed = (own: Vec, neighbour: Vec | undefined): Vec =>
  neighbour && Math.abs(angleBetween(own, neighbour)) < Math.PI / 60 ? neighbour : own;
