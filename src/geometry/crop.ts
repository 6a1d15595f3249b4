import { boundsMeet, boundsOfPoints, type Bounds } from "./bounds.ts";
import type { Region, Ring } from "./region.ts";
import { lerp, type Vec } from "./vec.ts";

/**
 * What of the region lies in the box (I. E. Sutherland and G. W. Hodgman, "Reentrant polygon clipping", 1974). Rings may run along the box's
 * sides to and fro, so that the outcome is a region only to the clipping functions; it is quick, being linear in the number of points.
 */
export const cropRegion = (region: Region, box: Bounds): Region =>
  region.flatMap(({ outer, holes }) => {
    const cropped = cropRing(outer, box);
    return cropped.length > 2
      ? [{ outer: cropped, holes: holes.map((hole) => cropRing(hole, box)).filter((hole) => hole.length > 2) }]
      : [];
  });

/** `cropRegion` of one region by many boxes: polygons that a box does not meet are not looked at. */
export function cropperOf(region: Region): (box: Bounds) => Region {
  const bounds = region.map(({ outer }) => boundsOfPoints(outer));
  return (box) =>
    cropRegion(
      region.filter((_, i) => boundsMeet(bounds[i]!, box)),
      box,
    );
}

const cropRing = (ring: Ring, { minX, minY, maxX, maxY }: Bounds): Ring => {
  let rest = ring;
  rest = keep(rest, (p) => p.x - minX);
  rest = keep(rest, (p) => maxX - p.x);
  rest = keep(rest, (p) => p.y - minY);
  return keep(rest, (p) => maxY - p.y);
};

/** The ring where `room` is 0 or more. */
function keep(ring: Ring, room: (p: Vec) => number): Ring {
  const kept: Vec[] = [];
  let a = ring.at(-1);
  if (!a) return kept;
  let before = room(a);
  for (const b of ring) {
    const now = room(b);
    if (before >= 0 !== now >= 0) kept.push(lerp(a, b, before / (before - now)));
    if (now >= 0) kept.push(b);
    a = b;
    before = now;
  }
  return kept;
}
