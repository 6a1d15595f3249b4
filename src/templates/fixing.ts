/** Tabs and ears at the ends of a template: the edge runs out round them and back, exactly where it was everywhere else. */
import { intersectPaths, type Crossing } from "../geometry/intersect.ts";
import { pathBounds } from "../geometry/measure.ts";
import { arc, line, segmentPath, type Path, type Segment } from "../geometry/path.ts";
import { partOf, piecesOf, pointAt } from "../geometry/segment.ts";
import { add, dot, leftOf, scale, sub, type Vec } from "../geometry/vec.ts";

export interface Fixed {
  readonly path: Path;
  /** Where an ear's screw goes. */
  readonly hole: Vec;
}

/**
 * A closed edge, run counter-clockwise, with a tab or an ear `width` wide standing out by `reach` from where the line through `from`
 * along the unit vector `out` leaves it last. Undefined where the edge is narrower than that there.
 */
export function withFixing(
  path: Path,
  from: Vec,
  out: Vec,
  { kind, width, reach }: { readonly kind: "tab" | "ear"; readonly width: number; readonly reach: number },
): Fixed | undefined {
  const last = (beside: number): Crossing | undefined => lastCrossing(path, add(from, scale(leftOf(out), beside)), out);
  // Looking outwards a counter-clockwise edge runs from right to left.
  const [right, left, middle] = [last(-width / 2), last(width / 2), last(0)];
  if (!right || !left || !middle) return undefined;
  const along = (p: Vec): number => dot(sub(p, from), out);
  const base = Math.max(along(right.point), along(left.point), along(middle.point));
  const at = (distance: number, beside: number): Vec => add(from, add(scale(out, distance), scale(leftOf(out), beside)));
  const radius = width / 2;
  const shoulder = base + (kind === "ear" ? Math.max(0, reach - radius) : reach);
  const ear: Segment[] = [line(at(shoulder, -radius)), arc(at(shoulder, radius), at(shoulder, 0), true), line(left.point)];
  const tab: Segment[] = [line(at(shoulder, -radius)), line(at(shoulder, radius)), line(left.point)];
  return { path: replaced(path, right, left, kind === "ear" ? ear : tab), hole: at(shoulder, 0) };
}

/** Where the ray along `way` leaves the path for good. */
function lastCrossing(path: Path, from: Vec, way: Vec): Crossing | undefined {
  const { minX, minY, maxX, maxY } = pathBounds(path);
  const reach = Math.hypot(maxX - minX, maxY - minY) + Math.hypot(from.x - minX, from.y - minY) + 1;
  return intersectPaths(segmentPath(sub(from, scale(way, reach)), add(from, scale(way, reach))), path).at(-1);
}

/** The closed path with its stretch from one place forward to another replaced. */
function replaced(path: Path, from: Crossing, to: Crossing, by: readonly Segment[]): Path {
  const pieces = piecesOf(path);
  const kept: Segment[] = [];
  const n = pieces.length;
  const same = to.second === from.second && to.t < from.t;
  for (let k = 0; k <= n; k++) {
    const i = (to.second + k) % n;
    const t0 = k === 0 ? to.t : 0;
    const isLast = i === from.second && (k > 0 || same);
    const t1 = isLast ? from.t : 1;
    if (t1 - t0 > 1e-12) kept.push(partOf(pieces[i]!, t0, t1).segment);
    if (isLast) break;
  }
  const start = pointAt(pieces[to.second]!, to.t);
  const last = by.at(-1)!;
  return { start, segments: [...kept, ...by.slice(0, -1), { ...last, to: start }], closed: true };
}
