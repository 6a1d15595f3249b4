/** A photograph brought to scale: from its pixels (y down, from its upper left corner) to mm in the plane of what it shows (y up). */
import { boundsOfPoints } from "./bounds.ts";
import { afterwards, depthAt, homographyThrough, projected, reversed, type Corners, type Homography } from "./homography.ts";
import type { Affine } from "./transform.ts";
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

/**
 * The place of a picture that gets another scale, so that the middle of its marks stays where it is and the first two lie in the direction
 * that they have, brought to whole steps of `step` radians.
 */
export function sameSpot(before: Homography, next: PictureScale, step?: number): PicturePlace | undefined {
  const [a, b] = marksOf(next).map((mark) => projected(before, mark));
  const marks = next.by === "rectangle" ? next.corners : marksOf(next);
  const middle = vec(
    marks.reduce((sum, { x }) => sum + x, 0) / marks.length,
    marks.reduce((sum, { y }) => sum + y, 0) / marks.length,
  );
  if (!a || !b) return undefined;
  const found = angleOf(sub(b, a));
  const turn = step === undefined ? found : Math.round(found / step) * step;
  const after = placedPlane(next, { at: vec(0, 0), turn });
  const [here, there] = [projected(before, middle), after && projected(after, middle)];
  return here && there && { at: sub(here, there), turn };
}

/** How a flattened picture is drawn anew: its size in pixels, where each comes from in the photograph, and where it lies in mm. */
export interface FlatGrid {
  readonly width: number;
  readonly height: number;
  readonly toSource: Homography;
  /** From its pixels to the plane, as `planeOf` has it: all of it at one scale. */
  readonly toPlane: Affine;
}

/** Parts of the picture that are this much farther away than the rectangle show too little to be stretched. */
const FARTHEST = 4;
/** Times the rectangle's size that is shown to each side of it. */
const AROUND = 2.5;
const SAMPLES = 24;

/** The grid that keeps the detail that the photograph has along the rectangle's sides, within `most` pixels. Undefined without a plane. */
export function flatGrid(
  size: { readonly width: number; readonly height: number },
  scale: Extract<PictureScale, { by: "rectangle" }>,
  most: number,
): FlatGrid | undefined {
  const plane = planeOf(scale);
  if (!plane) return undefined;
  const corners = scale.corners.map((corner) => projected(plane, corner)!);
  const own = boundsOfPoints(corners);
  const [w, h] = [own.maxX - own.minX, own.maxY - own.minY];
  const depth = Math.max(...scale.corners.map((corner) => depthAt(plane, corner)));
  const seen = Array.from({ length: (SAMPLES + 1) ** 2 }, (_, k) =>
    vec((size.width * (k % (SAMPLES + 1))) / SAMPLES, (size.height * Math.floor(k / (SAMPLES + 1))) / SAMPLES),
  )
    .filter((p) => depthAt(plane, p) > depth / FARTHEST)
    .flatMap((p) => projected(plane, p) ?? []);
  const all = boundsOfPoints([...seen, ...corners]);
  const minX = Math.max(all.minX, own.minX - AROUND * w);
  const maxX = Math.min(all.maxX, own.maxX + AROUND * w);
  const minY = Math.max(all.minY, own.minY - AROUND * h);
  const maxY = Math.min(all.maxY, own.maxY + AROUND * h);
  const finest = Math.min(
    ...scale.corners.map((corner, i) => {
      const next = (i + 1) % 4;
      return distance(corners[i]!, corners[next]!) / distance(corner, scale.corners[next]!);
    }),
  );
  const mm = Math.max(finest, Math.sqrt(((maxX - minX) * (maxY - minY)) / most));
  const toPlane: Affine = { a: mm, b: 0, c: 0, d: -mm, e: minX, f: maxY };
  return {
    width: Math.max(1, Math.round((maxX - minX) / mm)),
    height: Math.max(1, Math.round((maxY - minY) / mm)),
    toPlane,
    toSource: afterwards([mm, 0, minX, 0, -mm, maxY, 0, 0, 1], reversed(plane)),
  };
}

/** As seen, with y down. */
function isClockwise(corners: Corners): boolean {
  const twice = corners.reduce((sum, p, i) => {
    const q = corners[(i + 1) % 4]!;
    return sum + p.x * q.y - q.x * p.y;
  }, 0);
  return twice > 0;
}
