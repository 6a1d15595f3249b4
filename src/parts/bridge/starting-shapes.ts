/** Starting shapes of our own, about the point where the saddle crosses the centre line; the half of positive y, from front to back. */
import { mirroredPoints, outlinePoint, type OutlinePoint } from "../../geometry/drawn/point.ts";
import type { BridgeParams } from "./numbers.ts";

type Sizes = Pick<BridgeParams, "type" | "front" | "back" | "span" | "wing">;

export function startingBridge(sizes: Sizes, mirrored: boolean): OutlinePoint[] {
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
  return mirrored ? half : mirroredPoints(half);
}
