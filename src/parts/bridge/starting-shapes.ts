/** Starting shapes of our own, about the point where the saddle crosses the centre line; the half of positive y, from front to back. */
import { mirroredPoints, outlinePoint, type OutlinePoint } from "../../geometry/drawn/point.ts";
import type { BridgeParams } from "./numbers.ts";

type Sizes = Pick<BridgeParams, "type" | "front" | "back" | "span" | "wing">;

/** `lean`: how far x falls back for each mm towards rising y, where one half is not the image of the other: the saddle's own slant. */
export function startingBridge(sizes: Sizes, mirrored: boolean, lean = 0): OutlinePoint[] {
  const { front, back, span, wing } = sizes;
  const middle = (back - front) / 2;
  const [near, far] = [middle - wing / 2, middle + wing / 2];
  const block = sizes.type === "floating" ? 0.3 : 0.29;
  const round = Math.min(wing / 2.2, 4);
  const half: OutlinePoint[] =
    sizes.type === "tied"
      ? [
          // A block with straight wings set back from it.
          outlinePoint(-front, 0),
          outlinePoint(-front, block * span),
          outlinePoint(near, block * span, { rounding: 1 }),
          outlinePoint(near, span / 2, { rounding: round }),
          outlinePoint(far, span / 2, { rounding: round }),
          outlinePoint(far, block * span, { rounding: 1 }),
          outlinePoint(back, block * span),
          outlinePoint(back, 0),
        ]
      : [
          outlinePoint(-front, 0),
          outlinePoint(-front, block * span, { kind: "fair", side: "curve" }),
          outlinePoint(near, span / 2, { rounding: round, direction: Math.PI / 2, arriving: Math.PI / 2 }),
          outlinePoint(far, span / 2, { rounding: round, side: "curve", direction: -Math.PI / 2 }),
          outlinePoint(back, block * span, { kind: "fair" }),
          outlinePoint(back, 0),
        ];
  return mirrored ? half : mirroredPoints(half).map((point) => leaning(point, lean));
}

/** A point, and the directions of its sides, of an outline that is slanted by x + lean y. */
function leaning(point: OutlinePoint, lean: number): OutlinePoint {
  const turned = (angle: number | undefined): number | undefined =>
    angle === undefined ? undefined : Math.atan2(Math.sin(angle), Math.cos(angle) + lean * Math.sin(angle));
  return {
    ...point,
    x: point.x + lean * point.y,
    direction: turned(point.direction),
    arriving: turned(point.arriving),
  };
}
