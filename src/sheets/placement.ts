import type { Bounds } from "../geometry/bounds.ts";
import { transformPoint, type Affine } from "../geometry/transform.ts";
import { vec } from "../geometry/vec.ts";
import type { Placement, Rect } from "./sheet.ts";

const COSINE = [1, 0, -1, 0] as const;
const SINE = [0, 1, 0, -1] as const;

/** The map from a template's own axes to its sheet; quarter turns are exact. */
export function placementMap({ turn, x, y }: Placement): Affine {
  const [c, s] = [COSINE[turn], SINE[turn]];
  return { a: c, b: s, c: s === 0 ? 0 : -s, d: c, e: x, f: y };
}

/** The upright box of `box` after placing. */
export function placedBounds(box: Bounds, at: Placement): Bounds {
  const map = placementMap(at);
  const [p, q] = [transformPoint(map, vec(box.minX, box.minY)), transformPoint(map, vec(box.maxX, box.maxY))];
  return { minX: Math.min(p.x, q.x), minY: Math.min(p.y, q.y), maxX: Math.max(p.x, q.x), maxY: Math.max(p.y, q.y) };
}

export const rectOf = (b: Bounds): Rect => ({ x0: b.minX, y0: b.minY, x1: b.maxX, y1: b.maxY });
