/**
 * The ways of one or two cutters that clear a pocket to its floor. The centre of a cutter of radius r runs along P - (r + k step), P being the
 * pocket's edge, k counting inwards from 0; no corner between two ways is missed if step <= r. A large cutter of radius R first clears
 * (P - (R + allowance)) + R; the small one then runs along those parts of its own ways that lie within r of what is left. The length is about
 * area(P - r) / step + perimeter(P - r) / 2. Lengths in mm, areas in mm2.
 */
import { edgePart, edgesOf, joinedParts, lengthOf, pointOn, type Edge, type OnEdge } from "../geometry/arc-edge.ts";
import { openArcs } from "../geometry/arc-morphology.ts";
import { offsetArcs } from "../geometry/arc-offset.ts";
import { placesApart } from "../geometry/arc-places.ts";
import { regionOfArcs } from "../geometry/arc-ring.ts";
import { difference, intersection } from "../geometry/clipper.ts";
import { pathLength } from "../geometry/measure.ts";
import { outlinesArea, outlinesLength, pathsOf, type Outline } from "../geometry/outline.ts";
import { arc, line, type Path } from "../geometry/path.ts";
import { isInRegion, ringsOf, type Region } from "../geometry/region.ts";
import { ringIndex } from "../geometry/ring-index.ts";
import { reversePath } from "../geometry/segment.ts";
import { vec, type Vec } from "../geometry/vec.ts";

export interface ClearingCutter {
  readonly radius: number;
  /** Distance between neighbouring ways, above 0 and at most the diameter. */
  readonly step: number;
}

export interface Clearing {
  /** The cutter that reaches everywhere it can; alone, or after `first`. */
  readonly cutter: ClearingCutter;
  /** A larger one that goes before, and what it leaves along the walls for the other; undefined where one cutter does it all. */
  readonly first: (ClearingCutter & { readonly allowance: number }) | undefined;
  /**
   * How the cutter meets the wall, its spindle turning clockwise as seen from above: `against` its turning, which holds by hand, or `with`
   * it, which a machine may do.
   */
  readonly travel: "against" | "with";
}

/** One run of a cutter's centre, of lines and arcs: closed, or open where the small cutter works in a corner only. */
export interface Pass {
  readonly path: Path;
  readonly by: "first" | "cutter";
  /** 0 along the wall, counting inwards. */
  readonly level: number;
  /** Number of the pocket's part in which it runs. */
  readonly part: number;
}

export interface Cleared {
  /** In the order of cutting: the first cutter, then the other; part by part, from the middle out to the wall. */
  readonly passes: readonly Pass[];
  /** Of all passes together, moves between them apart. */
  readonly length: number;
  /** area(P - r) / step + perimeter(P - r) / 2, for the one cutter alone. */
  readonly estimate: number;
  /** Of the pocket, what its corners and narrow places keep from the cutter. */
  readonly unreached: Region;
  /** Of the pocket, what a step above the radius leaves standing between the ways. */
  readonly missed: Region;
}

/** What is no wider than this does not count as left over, mm. */
const WIDTH = 0.002;
/** Runs of the small cutter go on past what is left by this share of its radius, and are looked at in steps of as much. */
const RUN_ON = 0.05;

/**
 * The passes that clear a pocket given in lines and arcs. Throws RangeError for a radius, step or allowance out of its range, and for a first cutter that
 * is not the larger one.
 */
export function clearPocket(pocket: readonly Outline[], clearing: Clearing): Cleared {
  const { cutter, first, travel } = clearing;
  checked(cutter);
  if (first) {
    checked(first);
    if (!(first.radius > cutter.radius)) throw new RangeError("clearPocket: the first cutter is the larger one");
    if (!(first.allowance >= 0)) throw new RangeError("clearPocket: the allowance is 0 or more");
  }
  const passes: Pass[] = [];
  const missed: Region[] = [];
  let estimate = 0;
  const turn = (path: Path): Path => (travel === "with" ? path : reversePath(path));
  for (const [part, outline] of pocket.entries()) {
    const own = waysOf(outline, cutter, 0);
    estimate += own.estimate;
    if (!first) {
      passes.push(...own.ways.map(({ path, level }) => ({ path: turn(path), by: "cutter" as const, level, part })));
      missed.push(own.missed);
      continue;
    }
    const large = waysOf(outline, first, first.allowance);
    const done = offsetArcs(offsetArcs([outline], -(first.radius + first.allowance)), first.radius);
    const rest = [...placesApart(openArcs([outline], cutter.radius), done, WIDTH).onlyInA.flat(), ...large.missed];
    passes.push(...large.ways.map(({ path, level }) => ({ path: turn(path), by: "first" as const, level, part })));
    for (const { path, level } of own.ways)
      passes.push(...runsNear(path, rest, cutter.radius).map((run) => ({ path: turn(run), by: "cutter" as const, level, part })));
    missed.push(intersection(own.missed, rest));
  }
  return {
    passes,
    length: passes.reduce((sum, { path }) => sum + pathLength(path), 0),
    estimate,
    unreached: pocket.flatMap((outline) => placesApart([outline], openArcs([outline], cutter.radius), WIDTH).onlyInA.flat()),
    missed: missed.flat(),
  };
}

interface Ways {
  /** From the middle out. */
  readonly ways: readonly { readonly path: Path; readonly level: number }[];
  readonly estimate: number;
  readonly missed: Region;
}

/** The ways of one cutter in one part of the pocket, `allowance` kept from the wall. */
function waysOf(outline: Outline, { radius, step }: ClearingCutter, allowance: number): Ways {
  const levels: Outline[][] = [];
  for (;;) {
    const centres = offsetArcs([outline], -(radius + allowance + levels.length * step));
    if (centres.length === 0) break;
    levels.push(centres);
  }
  const wall = levels[0] ?? [];
  const area = outlinesArea(wall);
  const perimeter = outlinesLength(wall);
  return {
    ways: levels.flatMap((centres, level) => centres.flatMap(pathsOf).map((path) => ({ path, level }))).toReversed(),
    estimate: area / step + perimeter / 2,
    missed: step <= radius ? [] : levels.flatMap((centres, k) => between(centres, levels[k + 1] ?? [], radius)),
  };
}

/** What a cutter of `radius` leaves between one level of its ways and the next. */
function between(centres: readonly Outline[], next: readonly Outline[], radius: number): Region {
  return difference(regionOfArcs(offsetArcs(centres, -radius)), regionOfArcs(offsetArcs(next, radius)));
}

/** Those parts of a closed way from which a cutter of `radius` reaches what is left, and a little more at either end. */
function runsNear(path: Path, rest: Region, radius: number): Path[] {
  if (rest.length === 0) return [];
  const step = RUN_ON * radius;
  const reach = radius + step;
  const index = ringIndex(ringsOf(rest), reach);
  const isNear = (p: Vec): boolean => index.distanceWithin(p, reach) !== undefined || isInRegion(rest, p);
  const bits = edgesOf(path).flatMap((edge) => {
    const count = Math.max(1, Math.ceil(lengthOf(edge) / step));
    return Array.from({ length: count }, (_, k) => {
      const [from, to] = [k / count, (k + 1) / count];
      return { edge, from, to, near: isNear(pointOn(edge, (from + to) / 2)) };
    });
  });
  if (bits.every(({ near }) => near)) return [path];
  const runs: Edge[][] = [];
  const first = bits.findIndex(({ near }) => !near);
  for (let i = 1; i <= bits.length; i++) {
    const { edge, from, to, near } = bits[(first + i) % bits.length]!;
    if (!near) continue;
    const before = bits[(first + i - 1) % bits.length]!;
    if (!before.near) runs.push([]);
    const run = runs.at(-1)!;
    const on = (t: number): OnEdge => ({ t, ...pointOn(edge, t) });
    if (before.near && before.edge === edge && from > 0) run.push(joinedParts(run.pop()!, edgePart(edge, on(from), on(to))));
    else run.push(edgePart(edge, on(from), on(to)));
  }
  return runs.map(openPath);
}

/** The open path along edges that follow each other. */
function openPath(edges: readonly Edge[]): Path {
  const { x0, y0 } = edges[0]!;
  return {
    start: vec(x0, y0),
    segments: edges.map(({ x1, y1, cx, cy, sweep }) =>
      sweep === 0 ? line(vec(x1, y1)) : arc(vec(x1, y1), vec(cx, cy), sweep > 0),
    ),
    closed: false,
  };
}

function checked({ radius, step }: ClearingCutter): void {
  if (!(radius > 0 && radius < Infinity)) throw new RangeError("clearPocket: a cutter's radius is above 0");
  if (!(step > 0 && step <= 2 * radius)) throw new RangeError("clearPocket: the step is above 0 and at most the diameter");
}
