import { uniteRings } from "./clipper.ts";
import { flatten } from "./flatten.ts";
import { pathArea, pathLength } from "./measure.ts";
import type { Path } from "./path.ts";
import type { Region } from "./region.ts";
import { FLATTEN } from "./tolerance.ts";

/** One connected piece with its true curves: a closed outer path, counter-clockwise, and closed holes in it, clockwise. */
export interface Outline {
  readonly outer: Path;
  readonly holes: readonly Path[];
}

/** All paths of an outline. */
export const pathsOf = ({ outer, holes }: Outline): Path[] => [outer, ...holes];

/** Area of all outlines together, mm2, their holes taken off. */
export const outlinesArea = (outlines: readonly Outline[]): number =>
  outlines.flatMap(pathsOf).reduce((sum, path) => sum + pathArea(path), 0);

/** Length of all their edges, mm. */
export const outlinesLength = (outlines: readonly Outline[]): number =>
  outlines.flatMap(pathsOf).reduce((sum, path) => sum + pathLength(path), 0);

/** What closed paths cover by the nonzero rule, flattened within `tolerance` mm. Throws on an open path. */
export function regionOf(paths: readonly Path[], tolerance = FLATTEN): Region {
  if (!paths.every((path) => path.closed)) throw new RangeError("regionOf: a path is open");
  return uniteRings(paths.map((path) => flatten(path, tolerance)));
}
