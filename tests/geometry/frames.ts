/** Placements under which a geometry case must come out the same: turned, mirrored and far from the origin. */
import {
  compose,
  mirroring,
  rotation,
  transformPath,
  transformPoint,
  translation,
  type Affine,
  IDENTITY,
} from "../../src/geometry/transform.ts";
import { determinant } from "../../src/geometry/transform.ts";
import { reversePath } from "../../src/geometry/segment.ts";
import type { Path } from "../../src/geometry/path.ts";
import type { Region, Ring } from "../../src/geometry/region.ts";
import { vec } from "../../src/geometry/vec.ts";

export const FRAMES: readonly (readonly [string, Affine])[] = [
  ["as drawn", IDENTITY],
  ["turned by 0.7 rad", rotation(0.7)],
  ["mirrored", mirroring(vec(3, 1), vec(1, 0.4))],
  ["300 mm away", translation(vec(300, -300))],
  ["5,000 mm away", translation(vec(-5000, 5000))],
  ["turned, mirrored and 5,000 mm away", compose(rotation(2.1), mirroring(vec(0, 0), vec(0, 1)), translation(vec(5000, 3000)))],
];

/** The path placed, still run the same way round. */
export function placePath(frame: Affine, path: Path): Path {
  const placed = transformPath(frame, path);
  return determinant(frame) < 0 ? reversePath(placed) : placed;
}

/** The ring placed, still run the same way round. */
export function placeRing(frame: Affine, ring: Ring): Ring {
  const placed = ring.map((p) => transformPoint(frame, p));
  return determinant(frame) < 0 ? placed.toReversed() : placed;
}

export const placeRegion = (frame: Affine, region: Region): Region =>
  region.map(({ outer, holes }) => ({ outer: placeRing(frame, outer), holes: holes.map((hole) => placeRing(frame, hole)) }));
