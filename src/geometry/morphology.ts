/**
 * Regions filtered by a disc. Eroding leaves the places where the disc's centre may stand inside; dilating adds all that a disc whose centre
 * stands inside covers. Lengths in mm, good to 0.003 a step.
 */
import { boundsMeet } from "./bounds.ts";
import { union } from "./clipper.ts";
import { offsetRegion } from "./offset.ts";
import { regionBounds, type Region } from "./region.ts";

/** Centres of all discs of `radius` that lie inside. */
export const erode = (region: Region, radius: number): Region => eachPart(region, (part) => offsetRegion(part, -checked(radius)));

/** All that discs of `radius` about the region's points cover. */
export function dilate(region: Region, radius: number): Region {
  const parts = region.map((polygon) => offsetRegion([polygon], checked(radius)));
  const apart = parts.every((part, i) =>
    parts.slice(0, i).every((other) => !boundsMeet(regionBounds(part), regionBounds(other))),
  );
  // Parts that keep clear of each other need no union, whose time grows faster than the number of points.
  return apart ? parts.flat() : union(...parts);
}

/** All that discs of `radius` inside the region cover: outward corners rounded, strokes thinner than the disc gone. */
export const open = (region: Region, radius: number): Region => dilate(erode(region, radius), radius);

/**
 * The region with all filled that no disc of `radius` outside it can reach: inward corners rounded, slits narrower than the disc closed,
 * parts nearer to each other than the disc joined.
 */
export const close = (region: Region, radius: number): Region => erode(dilate(region, radius), radius);

/** `close` done to each part on its own, so that parts are never joined; what then overlaps is united. */
export function closeParts(region: Region, radius: number): Region {
  const parts = region.map((polygon) => close([polygon], radius));
  return parts.length === 1 ? parts[0]! : union(...parts);
}

/** Parts share no area, so what is inside one of them is inside none of the others. */
const eachPart = (region: Region, filter: (part: Region) => Region): Region => region.flatMap((polygon) => filter([polygon]));

function checked(radius: number): number {
  if (!(radius >= 0)) throw new RangeError(`a disc of radius ${radius}`);
  return radius;
}
