/**
 * Half a body from its measures: cubics from the tail block over the lower bout, the waist and the upper bout to the neck
 * block, level at the bouts and the waist, upright at the blocks.
 *
 * A cubic whose handle at an end is h long and whose other handle ends d off the tangent there has the curvature
 * (2/3) d / h² at that end. So for a chosen radius rho at a bout or at the waist each handle there is h = sqrt(2/3 rho d),
 * and the curvature is the same on both sides. Between two levels each coordinate only rises or only falls while a handle
 * is no longer than the run. Source: end curvature of Bézier curves (Farin, Curves and Surfaces for CAGD, from memory).
 */
import { cubicPoints, cubicPoint, cubicDerivative } from "../geometry/bezier.ts";
import { cubic, line, type Path, type Segment } from "../geometry/path.ts";
import { piecesOf, reversePath } from "../geometry/segment.ts";
import { mirroring, transformPath } from "../geometry/transform.ts";
import { ORIGIN, vec, type Vec } from "../geometry/vec.ts";

/** Widths are whole widths, mm; stations are counted from the neck end; fullness is a share above 0 and below 1. */
export interface BodySizes {
  readonly length: number;
  readonly upperBout: number;
  readonly waist: number;
  readonly lowerBout: number;
  readonly upperBoutAt: number;
  readonly waistAt: number;
  readonly lowerBoutAt: number;
  /** Width of the straight part at the neck block and at the tail block; 0 for a round end. */
  readonly neckFlat: number;
  readonly tailFlat: number;
  /** How full each end, bout and waist is: the share of its room that its handle takes. More is rounder. */
  readonly shoulderFullness: number;
  readonly upperFullness: number;
  readonly waistFullness: number;
  readonly lowerFullness: number;
  readonly tailFullness: number;
}

/** A bout or the waist: half its width, where it stands, and the radius of its curve there. */
export interface OutlineNode {
  readonly at: Vec;
  readonly radius: number;
}

/** The three nodes of a half outline on the treble side. */
export interface OutlineNodes {
  readonly upper: OutlineNode;
  readonly waist: OutlineNode;
  readonly lower: OutlineNode;
}

/** Why these sizes make no body, in plain words; undefined where they do. */
export function bodyRefusal(s: BodySizes): string | undefined {
  if (!Object.values(s).every((value: number) => Number.isFinite(value))) return "every size must be a number";
  if (!(0 < s.upperBoutAt && s.upperBoutAt < s.waistAt && s.waistAt < s.lowerBoutAt && s.lowerBoutAt < s.length)) {
    return "upper bout, waist, lower bout and the tail must follow one another from the neck";
  }
  if (!(s.waist > 0 && s.waist < s.upperBout && s.waist < s.lowerBout)) return "the waist must be narrower than both bouts";
  if (!(s.neckFlat >= 0 && s.neckFlat < s.upperBout)) return "the straight part at the neck must be narrower than the upper bout";
  if (!(s.tailFlat >= 0 && s.tailFlat < s.lowerBout)) return "the straight part at the tail must be narrower than the lower bout";
  const fullness = [s.shoulderFullness, s.upperFullness, s.waistFullness, s.lowerFullness, s.tailFullness];
  return fullness.every((f) => f > 0 && f < 1) ? undefined : "fullness must be above 0 and below 1";
}

/** The bouts and the waist with the radius that the fullness gives them; RangeError where bodyRefusal has a reason. */
export function outlineNodes(s: BodySizes): OutlineNodes {
  requireBody(s);
  const [upper, waist, lower] = [s.upperBout / 2, s.waist / 2, s.lowerBout / 2];
  const [upperRun, lowerRun] = [s.waistAt - s.upperBoutAt, s.lowerBoutAt - s.waistAt];
  const [upperRise, lowerRise] = [upper - waist, lower - waist];
  // Towards the block a handle may be as long as the run and no longer, or the outline would pass its own end.
  const shoulderOff = (upper - s.neckFlat / 2) * (1 - s.shoulderFullness);
  const tailOff = (lower - s.tailFlat / 2) * (1 - s.tailFullness);
  return {
    upper: {
      at: vec(s.upperBoutAt, upper),
      radius: Math.min(radiusFrom(s.upperFullness * upperRun, upperRise), radiusFrom(s.upperBoutAt, shoulderOff)),
    },
    waist: {
      at: vec(s.waistAt, waist),
      radius: Math.min(radiusFrom(s.waistFullness * upperRun, upperRise), radiusFrom(s.waistFullness * lowerRun, lowerRise)),
    },
    lower: {
      at: vec(s.lowerBoutAt, lower),
      radius: Math.min(radiusFrom(s.lowerFullness * lowerRun, lowerRise), radiusFrom(s.length - s.lowerBoutAt, tailOff)),
    },
  };
}

/**
 * The treble half as an open path from the tail (length, 0) to the neck (0, 0), the body to its left; RangeError where
 * bodyRefusal has a reason. The curvature is continuous but for the ends of straight parts at the blocks.
 */
export function halfOutline(s: BodySizes): Path {
  const nodes = outlineNodes(s);
  const neck = vec(0, s.neckFlat / 2);
  const segments = [...tailToUpperBout(s, nodes), boutToQuarter(nodes.upper, neck, s.shoulderFullness)];
  if (neck.y > 0) segments.push(line(vec(0, 0)));
  return { start: vec(s.length, 0), segments, closed: false };
}

/** The part of a half outline from the tail on the centre line to the upper bout. */
export function tailToUpperBout(s: BodySizes, { upper, waist, lower }: OutlineNodes): Segment[] {
  const tail = vec(s.length, s.tailFlat / 2);
  const curves = [quarterToBout(tail, lower, s.tailFullness), between(lower, waist), between(waist, upper)];
  return tail.y > 0 ? [line(tail), ...curves] : curves;
}

/**
 * Two half outlines, both drawn on the treble side from the tail to the neck, as one closed path, counter-clockwise: the first
 * where it is, the second mirrored.
 */
export function wholeOutline(treble: Path, bass: Path): Path {
  const mirrored = reversePath(transformPath(mirroring(ORIGIN, vec(1, 0)), bass)).segments;
  const last = mirrored.at(-1);
  if (!last || treble.segments.length === 0) throw new RangeError("wholeOutline: a half has no segments");
  return {
    start: treble.start,
    segments: [...treble.segments, ...mirrored.slice(0, -1), { ...last, to: treble.start }],
    closed: true,
  };
}

/** Half the body's width at x, mm, from 0 to the length; of the straight part's end where the outline is upright there. */
export function halfWidthAt(sizes: BodySizes, x: number): number {
  if (!(x >= 0 && x <= sizes.length)) throw new RangeError("halfWidthAt: the place must lie on the body");
  for (const { from, segment } of piecesOf(halfOutline(sizes))) {
    if (segment.kind !== "cubic" || x > from.x || x < segment.to.x) continue;
    const points = cubicPoints(from, segment);
    // x only falls along every cubic.
    let [low, high] = [0, 1];
    let t = (from.x - x) / (from.x - segment.to.x);
    for (let round = 0; round < 60 && high - low > 1e-15; round += 1) {
      const off = cubicPoint(points, t).x - x;
      if (off > 0) low = t;
      else high = t;
      const next = t - off / cubicDerivative(points, t).x;
      t = next > low && next < high ? next : (low + high) / 2;
    }
    return cubicPoint(points, t).y;
  }
  throw new RangeError("halfWidthAt: the outline has no such place");
}

/** Radius of a cubic at its end with a handle this long, the other handle ending `off` away from the tangent there. */
export const radiusFrom = (handle: number, off: number): number => (1.5 * handle ** 2) / off;
/** Length of the handle that gives a radius, the other handle ending `off` away from the tangent there. */
export const handleFor = (radius: number, off: number): number => Math.sqrt((radius * off) / 1.5);

function quarterToBout(end: Vec, { at, radius }: OutlineNode, fullness: number): Segment {
  const rise = (at.y - end.y) * fullness;
  return cubic(vec(end.x, end.y + rise), vec(at.x + handleFor(radius, at.y - end.y - rise), at.y), at);
}

function boutToQuarter({ at, radius }: OutlineNode, end: Vec, fullness: number): Segment {
  const rise = (at.y - end.y) * fullness;
  return cubic(vec(at.x - handleFor(radius, at.y - end.y - rise), at.y), vec(end.x, end.y + rise), end);
}

function between(a: OutlineNode, b: OutlineNode): Segment {
  const off = Math.abs(a.at.y - b.at.y);
  return cubic(vec(a.at.x - handleFor(a.radius, off), a.at.y), vec(b.at.x + handleFor(b.radius, off), b.at.y), b.at);
}

function requireBody(s: BodySizes): void {
  const reason = bodyRefusal(s);
  if (reason) throw new RangeError(`body outline: ${reason}`);
}
