/** An outline traced over a photograph: places along an edge, made into the points of the outline. */
import { outlinePoint } from "../../../geometry/drawn/point.ts";
import { distance, vec, type Vec } from "../../../geometry/vec.ts";
import type { PointOutline } from "../../../parts/contract.ts";
import { kept, type EditedPoint } from "../outline-editor/points.ts";

/** In the outline's own axes. */
export interface TracedPlace {
  readonly at: Vec;
  readonly corner: boolean;
}

/** Places nearer than this to the centre line, or to a corner that the part puts itself, are meant to lie on it, mm. */
const MEANT = 1;

/**
 * The points of the outline that was traced, in order from where the part begins it. Of a mirrored outline either half may have been
 * traced. Undefined for too few places.
 */
export function tracedPoints(outline: PointOutline, places: readonly TracedPlace[]): EditedPoint[] | undefined {
  const { before, after, mirrored } = outline;
  const [start] = before;
  const end = after.at(-1);
  let list = places;
  if (mirrored && start) {
    const own = list.reduce((sum, { at }) => sum + at.y, 0);
    if (own * start.y < 0) list = list.map((one) => ({ ...one, at: vec(one.at.x, -one.at.y) }));
  }
  const [first, last] = [list[0], list.at(-1)];
  if (start && first && last && distance(last.at, start) < distance(first.at, start)) list = list.toReversed();
  list = list.filter(({ at }) => [start, end].every((corner) => !corner || distance(at, corner) > MEANT));
  if (list.length < (mirrored || start ? 2 : 3)) return undefined;
  return list.map(({ at, corner }, i) => {
    const isEnd = mirrored && (i === list.length - 1 || (i === 0 && !start));
    const y = isEnd && Math.abs(at.y) <= MEANT ? 0 : kept(at.y);
    // On the centre line the outline meets its image: smooth, unless a corner is meant.
    return outlinePoint(kept(at.x), y, { kind: corner ? "corner" : "fair", side: "curve" });
  });
}
