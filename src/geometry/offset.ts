import { boundsMeet, boundsOfPoints } from "./bounds.ts";
import { offsetRings, type Join } from "./clipper.ts";
import { moveEdgeExactly } from "./exact-offset.ts";
import { flatten } from "./flatten.ts";
import { pathArea } from "./measure.ts";
import { regionOf, type Outline } from "./outline.ts";
import { asCircle, circle, type Path } from "./path.ts";
import { refitRing } from "./refit.ts";
import { ringArea, type Region, type Ring } from "./region.ts";
import { ringIndex } from "./ring-index.ts";
import { reversePath } from "./segment.ts";
import { thinRegion } from "./thin.ts";
import { FLATTEN, GRID, OFFSET_ARC } from "./tolerance.ts";

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
 * The outlines with their edges moved by `delta` mm. Circles stay circles; paths of lines and arcs are moved by formula wherever the general
 * way, on flattened curves, confirms that nothing was swallowed; all else is refitted, good to 0.01 mm. Throws on an open path.
 */
export function offsetOutlines(outlines: readonly Outline[], delta: number, join: Join = "round"): Outline[] {
  if (!Number.isFinite(delta)) throw new RangeError(`offset: the distance is ${delta}`);
  const paths = outlines.flatMap(({ outer, holes }) => [wound(outer, 1), ...holes.map((hole) => wound(hole, -1))]);
  const region = offsetRings(regionOf(paths), delta, join);
  const exact = paths.flatMap((path) => moved(path, delta, join));
  const curveOf = (ring: Ring): Path => exact.find((candidate) => candidate.fits(ring))?.path ?? refitRing(ring);
  return region.map(({ outer, holes }) => ({ outer: curveOf(outer), holes: holes.map(curveOf) }));
}

const wound = (path: Path, sign: 1 | -1): Path => (Math.sign(pathArea(path)) === -sign ? reversePath(path) : path);

interface Candidate {
  readonly path: Path;
  readonly fits: (ring: Ring) => boolean;
}

/** The path moved by formula, if there is a formula for it: none or one. */
function moved(path: Path, delta: number, join: Join): Candidate[] {
  const round = asCircle(path);
  const radius = round && round.radius + Math.sign(pathArea(path)) * delta;
  if (round && radius !== undefined) {
    if (!(radius > 0)) return [];
    const grown = circle(round.centre, radius);
    return [candidateOf(pathArea(path) > 0 ? grown : reversePath(grown))];
  }
  const found = moveEdgeExactly(path, delta, join);
  return found ? [candidateOf(found)] : [];
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
