import type { Vec } from "./vec.ts";

/** An upright box, mm; `minX <= maxX` and `minY <= maxY`. */
export interface Bounds {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** The least box round `points`. Throws on an empty list: nothing has no box. */
export function boundsOfPoints(points: readonly Vec[]): Bounds {
  if (points.length === 0) throw new RangeError("boundsOfPoints: no points");
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (const { x, y } of points) {
    minX = Math.min(minX, x);
    minY = Math.min(minY, y);
    maxX = Math.max(maxX, x);
    maxY = Math.max(maxY, y);
  }
  return { minX, minY, maxX, maxY };
}

/** The least box round all `boxes`. Throws on an empty list. */
export function joinBounds(boxes: readonly Bounds[]): Bounds {
  if (boxes.length === 0) throw new RangeError("joinBounds: no boxes");
  let { minX, minY, maxX, maxY } = boxes[0]!;
  for (const box of boxes) {
    minX = Math.min(minX, box.minX);
    minY = Math.min(minY, box.minY);
    maxX = Math.max(maxX, box.maxX);
    maxY = Math.max(maxY, box.maxY);
  }
  return { minX, minY, maxX, maxY };
}

/** `box` with `margin` mm added on every side. */
export const growBounds = (box: Bounds, margin: number): Bounds => ({
  minX: box.minX - margin,
  minY: box.minY - margin,
  maxX: box.maxX + margin,
  maxY: box.maxY + margin,
});

/** True where the boxes share a point or come within `margin` mm of each other. */
export const boundsMeet = (a: Bounds, b: Bounds, margin = 0): boolean =>
  a.minX <= b.maxX + margin && b.minX <= a.maxX + margin && a.minY <= b.maxY + margin && b.minY <= a.maxY + margin;

/** True where p lies in the box or on its edge. */
export const boundsHold = ({ minX, minY, maxX, maxY }: Bounds, { x, y }: Vec): boolean =>
  x >= minX && x <= maxX && y >= minY && y <= maxY;

/** Least distance between the boxes, 0 where they meet. */
export function boundsDistance(a: Bounds, b: Bounds): number {
  const x = Math.max(0, a.minX - b.maxX, b.minX - a.maxX);
  const y = Math.max(0, a.minY - b.maxY, b.minY - a.maxY);
  return Math.sqrt(x * x + y * y);
}
