/**
 * Mending an outline at a place where opening and closing disagree: a bridge that closing by a disc of b builds and opening by a disc of a
 * takes away again. What is cut away hangs on the thin tails of the bridge, so that the place is worked out finely.
 */
import { growBounds } from "../geometry/bounds.ts";
import { difference, intersection, offsetRings, union } from "../geometry/clipper.ts";
import { cropRegion } from "../geometry/crop.ts";
import { regionBounds, type Region } from "../geometry/region.ts";

/** What is thinner does not count as part of a bridge, mm. */
const SLIVER = 5e-4;
/** A slit is at least this much wider than its bridge on either side, mm. */
const LEAST = 1e-4;

/**
 * What to cut away of an outline at `place`, where closing by a disc of b has built a bridge that cannot stay, so that the disc passes: all
 * that closing has added there to the outline `before` (`closed` is what it came to), widened by what the disc lacks in the bridge.
 */
export function slitAt(place: Region, before: Region, closed: Region, b: number): Region {
  const box = growBounds(regionBounds(place), 3 * b);
  const around = offsetRings(place, b);
  const touching = (region: Region): Region => region.filter((polygon) => intersection([polygon], around).length > 0);
  const solid = (region: Region): Region => offsetRings(offsetRings(region, -SLIVER / 2), SLIVER / 2);
  const added = difference(cropRegion(closed, box), cropRegion(before, box));
  const bridge = solid(place);
  const core = touching(solid(added));
  if (bridge.length === 0 || core.length === 0) return around;
  // The search for slivers shortens the tails between two arcs that touch by at most sqrt(sliver x radius): a quarter of it is given back, as much as a search by tools as coarse as the cutters would find.
  const whole = intersection(added, offsetRings(core, Math.sqrt(SLIVER * b) / 4));
  return offsetRings(union(whole), Math.max(LEAST, b - inradius(bridge, b)));
}

/** Radius of the largest disc inside a region, looked for up to `most`, to 0.0005 mm. */
export function inradius(region: Region, most: number): number {
  let low = 0;
  let high = most;
  if (offsetRings(region, -high).length > 0) return high;
  while (high - low > 0.0005) {
    const middle = (low + high) / 2;
    if (offsetRings(region, -middle).length > 0) low = middle;
    else high = middle;
  }
  return low;
}
