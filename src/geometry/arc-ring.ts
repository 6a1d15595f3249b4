import { fitCircle } from "./fit-arc.ts";
import { fitBiarc } from "./fit-biarc.ts";
import { flatten } from "./flatten.ts";
import type { Outline } from "./outline.ts";
import { circle, line, type Path, type Segment } from "./path.ts";
import { agreed, endTangent, isCorner, tangentThrough } from "./refit.ts";
import { ringArea, type Region, type Ring } from "./region.ts";
import { reversePath } from "./segment.ts";
import { straightSides, thinRing } from "./thin.ts";
import { ARC_POINTS, ARC_REFIT, FLATTEN, GRID } from "./tolerance.ts";
import { distance, scale, sub, unit, type Vec } from "./vec.ts";

/** A side or a turn that bows by more than this off any chord cannot be a curve flattened to FLATTEN. */
const BOW = 3 * FLATTEN;

/** Arcs of rings that were asked for: a shape's are needed for its pair, its report and its limits. */
const known = new WeakMap<Ring, Path>();

/** Every ring of the region as a path of lines and arcs. */
export function arcOutlinesOf(region: Region, tolerance = ARC_REFIT): Outline[] {
  const arcs = (ring: Ring): Path => {
    if (tolerance !== ARC_REFIT) return arcRing(ring, tolerance);
    const path = known.get(ring) ?? arcRing(ring);
    known.set(ring, path);
    return path;
  };
  return region.map(({ outer, holes }) => ({ outer: arcs(outer), holes: holes.map(arcs) }));
}

/** The outlines, which do not overlap, in straight sides within `tolerance` mm. */
export const regionOfArcs = (outlines: readonly Outline[], tolerance = FLATTEN): Region =>
  outlines.map(({ outer, holes }) => ({
    outer: flatten(outer, tolerance),
    holes: holes.map((hole) => flatten(hole, tolerance)),
  }));

/**
 * The ring as a closed path of lines and true arcs, run the same way. Its points are taken for points of a curve flattened to FLATTEN, which
 * the arcs keep within `tolerance` mm of, to either side, so that nothing shrinks as it does under chords. Corners stay corners and straight
 * sides straight; elsewhere arcs meet in one direction. A ring round a circle becomes a circle; a coarser ring keeps its sides.
 */
export function arcRing(ring: Ring, tolerance = ARC_REFIT): Path {
  const round = fitCircle(ring, ARC_POINTS);
  if (round && ring.every((p, i) => distance(p, ring[(i + 1) % ring.length]!) ** 2 / 8 < 2 * FLATTEN * round.radius)) {
    const path = circle(round.centre, round.radius);
    return ringArea(ring) > 0 ? path : reversePath(path);
  }
  const points = thinRing(ring, GRID);
  const n = points.length;
  const straight = straightSides(points, BOW);
  const breaks = points.flatMap((_, i) => (straight[i] || straight[(i + n - 1) % n] || isCorner(points, i, BOW) ? [i] : []));
  if (breaks.length === 0) {
    const tangent = tangentThrough(points[n - 1]!, points[0]!, points[1]!);
    return { start: points[0]!, segments: fitRun([...points, points[0]!], tangent, tangent, tolerance), closed: true };
  }
  const segments: Segment[] = [];
  for (const [k, from] of breaks.entries()) {
    const to = k + 1 < breaks.length ? breaks[k + 1]! : breaks[0]! + n;
    const run = Array.from({ length: to - from + 1 }, (_, i) => points[(from + i) % n]!);
    if (run.length === 2) segments.push(line(run[1]!));
    else {
      // Where a straight side runs on smoothly into the curve, its direction is the curve's.
      const before = straight[(from + n - 1) % n] ? unit(sub(run[0]!, points[(from + n - 1) % n]!)) : undefined;
      const after = straight[to % n] ? unit(sub(points[(to + 1) % n]!, run.at(-1)!)) : undefined;
      const arriving = agreed(scale(endTangent(run.toReversed()), -1), after);
      segments.push(...fitRun(run, agreed(endTangent(run), before), arriving, tolerance));
    }
  }
  return { start: points[breaks[0]!]!, segments, closed: true };
}

/** Arcs over a smooth run, each pair as long as the tolerance lets it be. */
function fitRun(run: readonly Vec[], leaving: Vec, arriving: Vec, tolerance: number): Segment[] {
  const last = run.length - 1;
  const segments: Segment[] = [];
  let from = 0;
  let tangent = leaving;
  let guess = 8;
  while (from < last) {
    const endingAt = (to: number): Vec => (to === last ? arriving : tangentThrough(run[to - 1]!, run[to]!, run[to + 1]!));
    // The longest that fits lies between `good` and `bad`; searched from the length of the one before.
    let good = from;
    let bad = last + 1;
    let best: readonly Segment[] = [line(run[from + 1]!)];
    for (let to = Math.min(last, from + guess); to > good;) {
      const found = fitBiarc(run.slice(from, to + 1), tangent, endingAt(to), tolerance, 2 * Math.max(FLATTEN, tolerance));
      if (found) {
        best = found;
        good = to;
      } else bad = to;
      to = bad > last ? Math.min(last, good + Math.max(1, good - from)) : Math.floor((good + bad) / 2);
    }
    segments.push(...best);
    good = Math.max(good, from + 1);
    guess = Math.max(2, good - from);
    from = good;
    tangent = endingAt(from);
  }
  return segments;
}
