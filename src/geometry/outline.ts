import { uniteRings } from "./clipper.ts";
import { flatten } from "./flatten.ts";
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

/** What closed paths cover by the nonzero rule, flattened within `tolerance` mm. Throws on an open path. */
export function regionOf(paths: readonly Path[], tolerance = FLATTEN): Region {
  if (!paths.every((path) => path.closed)) throw new RangeError("regionOf: a path is open");
  return uniteRings(paths.map((path) => flatten(path, tolerance)));
}
