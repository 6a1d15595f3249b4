/** A photograph brought to scale: from its pixels (y down, from its upper left corner) to mm in the plane of what it shows (y up). */
import { afterwards, homographyThrough, projected, reversed, type Corners, type Homography } from "./homography.ts";
import { angleOf, distance, sub, vec, type Vec } from "./vec.ts";

/** How a picture comes to scale. Places in pixels, lengths in mm. */
export type PictureScale =
  /** Nothing is known but what a pixel is taken for. */
  | { readonly by: "guess"; readonly mmAPixel: number; readonly at: Vec }
  /** Two points and their distance: for a picture taken square to the outline. */
  | { readonly by: "points"; readonly points: readonly [Vec, Vec]; readonly length: number }
  /** The corners of a rectangle in order, the first side `across` long, the next `down`: takes out what the slanting camera did. */
  | { readonly by: "rectangle"; readonly corners: Corners; readonly across: number; readonly down: number };

/** Where a picture lies: its first marked place at `at`, the line to the next in the direction `turn`, radians counter-clockwise. */
export interface PicturePlace {
  readonly at: Vec;
  readonly turn: number;
}

/** Pixels to mm, the first marked place at the origin, the next on the x axis. Undefined where the marks span nothing or are not convex. */
export function planeOf(scale: PictureScale): Homography | undefined {
  if (scale.by === "rectangle") {
    const { corners, across, down } = scale;
    if (!(across > 0 && down > 0)) return undefined;
    // Seen from the front, corners named clockwise on the picture are clockwise on the thing.
    const hand = isClockwise(corners) ? -1 : 1;
    return homographyThrough(corners, [vec(0, 0), vec(across, 0), vec(across, hand * down), vec(0, hand * down)]);
  }
  const [a, b] = scale.by === "points" ? scale.points : [scale.at, vec(scale.at.x + 1, scale.at.y)];
  const apart = distance(a, b);
  const length = scale.by === "points" ? scale.length : scale.mmAPixel;
  if (!(apart > 0 && length > 0)) return undefined;
  const k = length / apart;
  const angle = angleOf(sub(b, a));
  const [c, s] = [k * Math.cos(angle), k * Math.sin(angle)];
  // Turned so that b lies on the x axis, y turned over.
  return [c, s, -c * a.x - s * a.y, s, -c, -s * a.x + c * a.y, 0, 0, 1];
}

/** Pixels to places on the drawing. */
export function placedPlane(scale: PictureScale, { at, turn }: PicturePlace): Homography | undefined {
  const plane = planeOf(scale);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return plane && afterwards(plane, [c, -s, at.x, s, c, at.y, 0, 0, 1]);
}

/** The first marked place and the next, pixels. */
export function marksOf(scale: PictureScale): readonly [Vec, Vec] {
  if (scale.by === "points") return scale.points;
  if (scale.by === "rectangle") return [scale.corners[0], scale.corners[1]];
  return [scale.at, vec(scale.at.x + 1, scale.at.y)];
}

/** mm between two places of the picture; undefined beyond its horizon. */
export function lengthBetween(plane: Homography, a: Vec, b: Vec): number | undefined {
  const [p, q] = [projected(plane, a), projected(plane, b)];
  return p && q && distance(p, q);
}

/** The place that a picture has to take so that its marks come to lie where they lie now, though it gets another scale. */
export function sameSpot(before: Homography, next: PictureScale): PicturePlace | undefined {
  const [a, b] = marksOf(next).map((mark) => projected(before, mark));
  return a && b && { at: a, turn: angleOf(sub(b, a)) };
}

/** Pixels of the picture under a place of the drawing; undefined where it shows nothing of it. */
export const pixelAt = (plane: Homography, p: Vec): Vec | undefined => projected(reversed(plane), p);

/** As seen, with y down. */
function isClockwise(corners: Corners): boolean {
  const twice = corners.reduce((sum, p, i) => {
    const q = corners[(i + 1) % 4]!;
    return sum + p.x * q.y - q.x * p.y;
  }, 0);
  return twice > 0;
}
