/** Which shape lies under the pointer. */
import { boundsDistance, boundsOfPoints } from "../../geometry/bounds.ts";
import { nearestOnPath } from "../../geometry/nearest.ts";
import type { Vec } from "../../geometry/vec.ts";
import type { Indexed, ShapeIndex } from "./shape-index.ts";

/** Two lines nearer to each other than this, as seen from the pointer, count as equally near: the upper one is meant. px */
const SAME_PX = 1;

/** The shape whose line passes nearest to `at` within `reachPx`; of equally near ones the uppermost, undefined where there is none. */
export function pickShape(index: ShapeIndex, at: Vec, pxPerMm: number, reachPx = 6): Indexed | undefined {
  const reach = reachPx / pxPerMm;
  const same = SAME_PX / pxPerMm;
  const here = boundsOfPoints([at]);
  let best: Indexed | undefined;
  let least = reach;
  for (let i = index.all.length - 1; i >= 0; i--) {
    const one = index.all[i]!;
    if (boundsDistance(one.bounds, here) > least) continue;
    const away = Math.min(...[one.shape.path, ...(one.shape.holes ?? [])].map((path) => nearestOnPath(path, at).distance));
    if (best ? away < least - same : away <= reach) {
      best = one;
      least = away;
    }
  }
  return best;
}
