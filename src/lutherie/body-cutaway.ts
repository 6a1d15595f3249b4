/**
 * The treble half of a body with a cutaway: from the upper bout to a horn, round it or to its point, and in a hollow curve to
 * the side of the neck, which it meets square; then along the neck to the end of the body.
 *
 * A rounded horn is upright at its tip with one curvature on both sides: the outer handle a and the inner handle c keep
 * (run - h) / a² = shift / c², h the handle at the bout, run and shift the lengths along the body outside and inside.
 * Source: end curvature of Bézier curves, as for the outline itself.
 */
import { cubic, line, type Path, type Segment } from "../geometry/path.ts";
import { add, ORIGIN, polar, scale, vec } from "../geometry/vec.ts";
import {
  bodyRefusal,
  handleFor,
  outlineNodes,
  radiusFrom,
  tailToUpperBout,
  type BodySizes,
  type OutlineNode,
} from "./body-outline.ts";

/** A cutaway on one side, mm from the neck end and from the centre line. */
export interface Cutaway {
  readonly kind: "rounded" | "pointed";
  /** Where the horn comes nearest to the neck end, and its distance from the centre line there. */
  readonly hornAt: number;
  readonly hornOut: number;
  /** How far in from the neck end the hollow meets the neck, and the neck's half width there. */
  readonly depth: number;
  readonly neckOut: number;
  /** Share of its room that the hollow's handles take, above 0 and below 1. */
  readonly fullness: number;
  /** Of a pointed horn: how its outer edge falls towards the centre line at the tip, and the angle of the tip, radians. */
  readonly tipFall: number;
  readonly tipAngle: number;
}

/** Why this cutaway does not fit this body, in plain words; undefined where it does. */
export function cutawayRefusal(sizes: BodySizes, cut: Cutaway): string | undefined {
  const body = bodyRefusal(sizes);
  if (body) return body;
  const { hornAt, hornOut, depth, neckOut, fullness, tipFall, tipAngle } = cut;
  if (![hornAt, hornOut, depth, neckOut, fullness, tipFall, tipAngle].every(Number.isFinite))
    return "every size must be a number";
  if (!(hornAt >= 0 && hornAt < sizes.upperBoutAt)) return "the horn must lie between the neck end and the upper bout";
  if (!(depth > hornAt && depth < sizes.waistAt)) return "the cutaway must end between its horn and the waist";
  if (!(neckOut > 0 && neckOut < hornOut)) return "the horn must stand farther out than the neck's side";
  if (!(hornOut < sizes.upperBout / 2)) return "the horn must stand inside the upper bout";
  if (!(fullness > 0 && fullness < 1)) return "fullness must be above 0 and below 1";
  const pointed = tipFall > 0 && tipFall < Math.PI / 2 && tipAngle > 0 && tipAngle < tipFall + Math.PI / 2;
  return cut.kind === "rounded" || pointed ? undefined : "the horn's point must turn from its outer edge towards the neck";
}

/** The half outline with the cutaway, from the tail to the neck as halfOutline draws it; RangeError where cutawayRefusal has a reason. */
export function cutawayHalf(sizes: BodySizes, cut: Cutaway): Path {
  const reason = cutawayRefusal(sizes, cut);
  if (reason) throw new RangeError(`cutaway: ${reason}`);
  const nodes = outlineNodes(sizes);
  const { upper, curves } = (cut.kind === "rounded" ? roundedHorn : pointedHorn)(nodes.upper, cut);
  return {
    start: vec(sizes.length, 0),
    segments: [...tailToUpperBout(sizes, { ...nodes, upper }), ...curves, line(vec(0, cut.neckOut)), line(vec(0, 0))],
    closed: false,
  };
}

/** The upper bout with the radius that the horn leaves it, and the curves from there to the neck's side. */
interface Horn {
  readonly upper: OutlineNode;
  readonly curves: readonly Segment[];
}

/** Share of the bout's longest handle that leaves a rounded horn some curvature. */
const ROOM = 0.9;

function roundedHorn({ at, radius }: OutlineNode, cut: Cutaway): Horn {
  const horn = vec(cut.hornAt, cut.hornOut);
  const meet = vec(cut.depth, cut.neckOut);
  const [run, rise] = [at.x - horn.x, at.y - horn.y];
  const [shift, drop] = [meet.x - horn.x, horn.y - meet.y];
  const upper = { at, radius: Math.min(radius, radiusFrom(ROOM * run, rise)) };
  const boutHandle = (outer: number): number => handleFor(upper.radius, rise - outer);
  const most = ROOM * rise;
  const wished = cut.fullness * drop;
  const flatness = (outer: number): number => (run - boutHandle(outer)) * wished ** 2 - shift * outer ** 2;
  const outer = flatness(most) > 0 ? most : fallingZero(flatness, most);
  const inner = outer * Math.sqrt(shift / (run - boutHandle(outer)));
  return {
    upper,
    curves: [
      cubic(vec(at.x - boutHandle(outer), at.y), vec(horn.x, horn.y + outer), horn),
      cubic(vec(horn.x, horn.y - inner), vec(meet.x, meet.y + wished), meet),
    ],
  };
}

/** Where f, above 0 at 0 and not above 0 at `to`, falls to 0. */
function fallingZero(f: (t: number) => number, to: number): number {
  let [low, high] = [0, to];
  while (high - low > 1e-12 * to) {
    const middle = (low + high) / 2;
    if (f(middle) > 0) low = middle;
    else high = middle;
  }
  return high;
}

function pointedHorn({ at, radius }: OutlineNode, cut: Cutaway): Horn {
  const tip = vec(cut.hornAt, cut.hornOut);
  const meet = vec(cut.depth, cut.neckOut);
  const back = polar(ORIGIN, 1, cut.tipFall);
  // The outer handle keeps below the bout's level and leaves the bout's own handle half of the run.
  const outer = cut.fullness * Math.min((at.y - tip.y) / back.y, (at.x - tip.x) / (2 * back.x));
  const off = at.y - tip.y - outer * back.y;
  const upper = { at, radius: Math.min(radius, radiusFrom(at.x - tip.x - outer * back.x, off)) };
  const leaving = polar(ORIGIN, 1, cut.tipFall - cut.tipAngle);
  const [shift, drop] = [meet.x - tip.x, tip.y - meet.y];
  const reach = cut.fullness * Math.min(shift / leaving.x, leaving.y < 0 ? drop / -leaving.y : Infinity);
  return {
    upper,
    curves: [
      cubic(vec(at.x - handleFor(upper.radius, off), at.y), add(tip, scale(back, outer)), tip),
      cubic(add(tip, scale(leaving, reach)), vec(meet.x, meet.y + cut.fullness * drop), meet),
    ],
  };
}
