import { boundsMeet, boundsOfPoints } from "./bounds.ts";
import { offsetRings, type Join } from "./clipper.ts";
import { flatten } from "./flatten.ts";
import { pathArea } from "./measure.ts";
import { pathsOf, regionOf, type Outline } from "./outline.ts";
import { parallelPath } from "./parallel.ts";
import { asCircle, circle, type Path } from "./path.ts";
import { refitRing } from "./refit.ts";
import { ringArea, type Region, type Ring } from "./region.ts";
import { ringIndex } from "./ring-index.ts";
import { reversePath } from "./segment.ts";
import { selfCrossings } from "./self-crossing.ts";
import { thinRegion } from "./thin.ts";
import { FLATTEN, GRID, OFFSET_ARC, REFIT, SWALLOWED } from "./tolerance.ts";

/**
 * The region with its edge moved by `delta` mm: outwards where positive, inwards where negative; empty where nothing is left. The edge is
 * thinned first, since the time grows faster than the number of points; the outcome is good to 0.003 mm.
 */
export const offsetRegion = (region: Region, delta: number, join: Join = "round"): Region =>
  delta === 0 ? region : offsetRings(thinRegion(region), delta, join);

/**
 * The closed path's inside with its edge moved by `delta` mm, outwards where positive, inwards where negative, whichever way the path is
 * run. A shape may fall apart or vanish: `swallowed` tells what was lost. Throws on an open path.
 */
export const offsetPath = (path: Path, delta: number, join: Join = "round"): Outline[] =>
  offsetOutlines([{ outer: path, holes: [] }], delta, join);

/**
 * The outlines with their edges moved by `delta` mm. Circles stay circles; a path that has a parallel curve all round gives it, lines and arcs to
 * rounding; all else is moved on flattened curves and refitted, good to 0.01 mm. Throws on an open path.
 */
export function offsetOutlines(outlines: readonly Outline[], delta: number, join: Join = "round"): Outline[] {
  if (!Number.isFinite(delta)) throw new RangeError(`offset: the distance is ${delta}`);
  const given = outlines.map(({ outer, holes }) => ({ outer: wound(outer, 1), holes: holes.map((hole) => wound(hole, -1)) }));
  if (delta === 0) return given;
  const paths = given.flatMap(pathsOf);
  const moved = paths.map((path) => parallel(path, delta, join));
  const [path] = paths;
  const [outer] = moved;
  if (path && outer && paths.length === 1 && join === "round" && isAllThere(path, outer, Math.abs(delta)))
    return [{ outer, holes: [] }];
  const region = offsetRings(regionOf(paths), delta, join);
  const exact = moved.flatMap((path) => (path ? [candidateOf(path)] : []));
  const curveOf = (ring: Ring): Path => exact.find((candidate) => candidate.fits(ring))?.path ?? refitRing(ring);
  return region.map(({ outer, holes }) => ({ outer: curveOf(outer), holes: holes.map(curveOf) }));
}

const wound = (path: Path, sign: 1 | -1): Path => (Math.sign(pathArea(path)) === -sign ? reversePath(path) : path);

/** The path moved by formula, whatever else is near; undefined where there is no formula for it. */
function parallel(path: Path, delta: number, join: Join): Path | undefined {
  const round = asCircle(path);
  if (!round) return parallelPath(path, delta, { join, tolerance: REFIT, dropsArcs: true });
  const radius = round.radius + Math.sign(pathArea(path)) * delta;
  if (!(radius > 0)) return undefined;
  const grown = circle(round.centre, radius);
  return pathArea(path) > 0 ? grown : reversePath(grown);
}

/**
 * A moved path is held against the old one at points on it whose chords keep so near to it, mm: where it first comes too near it crosses itself,
 * so what the points find is a stretch that has been cut at the wrong crossing.
 */
const LOOKED_AT = 0.02;

/**
 * Whether a path moved by `distance`, its corners rounded, is the whole edge of the moved shape. That edge is made of those points of the moved
 * path that lie nowhere nearer than the distance to the old one: so it is where none of its points does.
 */
function isAllThere(path: Path, moved: Path, distance: number): boolean {
  // Of a path that crosses itself the moved one may lose a loop that is run the other way.
  if (Math.sign(pathArea(moved)) !== Math.sign(pathArea(path)) || selfCrossings(path).length > 0) return false;
  const reach = distance - SWALLOWED;
  if (reach > 0) {
    const index = ringIndex([flatten(path, 2 * FLATTEN)], reach);
    if (flatten(moved, LOOKED_AT).some((p) => index.distanceWithin(p, reach) !== undefined)) return false;
  }
  // What the distance cannot tell: edges that touch or cross by a hair.
  return selfCrossings(moved).length === 0;
}

interface Candidate {
  readonly path: Path;
  readonly fits: (ring: Ring) => boolean;
}

/** Chords on both sides of a curve, the round joins' error, and the grid's. */
const AGREED = 2 * FLATTEN + OFFSET_ARC + 2 * GRID;

/** Takes the exact path for a ring of the general way if both run the same way round and no point of either is off the other. */
function candidateOf(path: Path): Candidate {
  const points = flatten(path);
  const box = boundsOfPoints(points);
  const isOn = (ring: Ring, other: Ring): boolean => {
    const index = ringIndex([other], AGREED);
    return ring.every((p) => index.distanceWithin(p, AGREED) !== undefined);
  };
  return {
    path,
    fits: (ring) =>
      boundsMeet(box, boundsOfPoints(ring)) &&
      Math.sign(ringArea(ring)) === Math.sign(ringArea(points)) &&
      isOn(points, ring) &&
      isOn(ring, points),
  };
}
