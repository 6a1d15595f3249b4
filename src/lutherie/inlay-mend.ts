/**
 * Mending an outline at a place where opening and closing disagree: a bridge that closing by a disc of b builds and opening by a disc of a
 * takes away again. Worked out on a finer grid of steps than the rest, since what is cut away hangs on the thin tails of the bridge.
 */
import { difference, intersection, offsetRings, union } from "../geometry/clipper.ts";
import { growBounds } from "../geometry/bounds.ts";
import { erode } from "../geometry/morphology.ts";
import { flatten } from "../geometry/flatten.ts";
import { rectangle } from "../geometry/path.ts";
import { regionArea, regionBounds, type Region } from "../geometry/region.ts";
import { thinRegion } from "../geometry/thin.ts";

const THIN_FINE = 1e-4;
/** What is thinner is the steps' own error. */
const SLIVER_FINE = 5e-4;

export const move = (region: Region, by: number): Region => thinRegion(offsetRings(region, by), THIN_FINE);
export const openFine = (region: Region, r: number): Region => move(move(region, -r), r);
export const closeFine = (region: Region, r: number): Region => move(move(region, r), -r);

/**
 * What to cut away from the common outline of `shape` at `place`, so that a disc of b passes where it could not: all that closing adds
 * there, widened by what the disc lacks in the bridge.
 */
export function slitAt(place: Region, shape: Region, a: number, b: number): Region {
  const near = cropped(shape, place, 8 * Math.max(a, b));
  const common = openFine(closeFine(openFine(near, a), b), a);
  const closed = closeFine(common, b);
  const around = offsetRings(place, b);
  const touching = (region: Region): Region => region.filter((polygon) => intersection([polygon], around).length > 0);
  const bridge = touching(openFine(difference(closed, common), SLIVER_FINE / 2));
  const added = difference(closed, near);
  const core = touching(openFine(added, SLIVER_FINE / 2));
  if (bridge.length === 0 || core.length === 0) return offsetRings(place, b);
  // The search for slivers shortens the tails between two arcs that touch by at most sqrt(sliver x radius): half of it is given back.
  const whole = intersection(added, offsetRings(core, Math.sqrt(SLIVER_FINE * b) / 2));
  return offsetRings(union(whole), Math.max(THIN_FINE, b - inradius(bridge, b)));
}

function cropped(shape: Region, place: Region, by: number): Region {
  const { minX, minY, maxX, maxY } = growBounds(regionBounds(place), by);
  return intersection(shape, [{ outer: flatten(rectangle(minX, minY, maxX, maxY)), holes: [] }]);
}

/** Radius of the largest disc inside a region, looked for up to `most`, to 0.0005 mm. */
export function inradius(region: Region, most: number): number {
  let low = 0;
  let high = most;
  if (regionArea(erode(region, high)) > 0) return high;
  while (high - low > 0.0005) {
    const middle = (low + high) / 2;
    if (erode(region, middle).length > 0) low = middle;
    else high = middle;
  }
  return low;
}
