/**
 * The back of a neck seen from the side, as the depth of the wood under the plane that the board is glued to (the head's face is
 * carried on from it): the straight taper between two measured depths, the bend into the tilted head with or without a volute, and
 * the curve of the heel.
 *
 *   taper   a(x), the straight line through both depths
 *   head    b(x) = (headX - x) tan t + h / cos t, h the wood square to the head's face, t its tilt
 *   bend    where |a - b| < w: (a + b)/2 + w/4 + (a - b)²/4w, a parabola that touches both lines, w = length/2 · |slope of a - b|
 *   volute  v cos²(pi (x - corner) / length) over its length, the corner being where a and b cross
 *   heel    (depth - a(to)) (1 - sqrt(1 - u²)) added, u from 0 to 1 between its ends: it leaves the back without a corner
 * Source: plain geometry; the shapes of bend, volute and heel are our choice.
 */
import { line, type Segment } from "../geometry/path.ts";
import { unit, vec } from "../geometry/vec.ts";
import { curveSegments } from "../geometry/curve-path.ts";

/** A depth of the wood (mm, above 0) at x. */
export interface DepthAt {
  readonly x: number;
  readonly depth: number;
}

export interface NeckProfileNumbers {
  /** first.x < second.x. */
  readonly first: DepthAt;
  readonly second: DepthAt;
  /** Where the head's face leaves the glue plane. */
  readonly headX: number;
  /** Radians, above 0. */
  readonly tilt: number;
  /** Of the head's wood, square to its face. */
  readonly headThickness: number;
  /** Along the neck, from the end of the taper to the straight back of the head; above 0. */
  readonly bend: number;
  readonly voluteHeight: number;
  readonly voluteLength: number;
  /** from < to: where the heel leaves the back, and the front edge of its foot. */
  readonly heel: { readonly from: number; readonly to: number; readonly depth: number };
}

export interface NeckProfile {
  /** Depth of the wood at x, mm, above 0. */
  readonly depthAt: (x: number) => number;
  /** Where taper and head would meet in a corner, and the ends of the bend that rounds it. */
  readonly corner: number;
  readonly bendFrom: number;
  readonly bendTo: number;
  /** The back from x to x (rising), at heights below 0, the first point left out, within 0.001 mm. */
  readonly segments: (from: number, to: number) => readonly Segment[];
}

/** Less wood than this, mm, is none; numbers that leave less are drawn with it and found by the checks. */
export const LEAST_DEPTH = 0.5;
const STRAIGHT = 1e-9;

/** RangeError where a number is missing or the places are not in order. */
export function neckProfile(n: NeckProfileNumbers): NeckProfile {
  const { first, second, headX, heel } = n;
  if (!(first.x < second.x && heel.from < heel.to && n.tilt > 0 && n.tilt < Math.PI / 2 && n.bend > 0 && n.headThickness > 0))
    throw new RangeError("neckProfile: needs two depths in order, a heel, and a tilted head");
  const tan = Math.tan(n.tilt);
  const taper = (second.depth - first.depth) / (second.x - first.x);
  // A neck that thins faster towards the body than the head falls would never meet it.
  const behind = Math.max(taper, -tan / 2);
  const slopeOf = (x: number): number => (x < first.x ? behind : taper);
  const straight = (x: number): number => first.depth + slopeOf(x) * (x - first.x);
  const neck = (x: number): number => Math.max(LEAST_DEPTH, straight(x));
  const head = (x: number): number => (headX - x) * tan + n.headThickness / Math.cos(n.tilt);

  // On the line behind the first depth, or, with a head thicker than the neck, on the one before it.
  const crossing = (slope: number): number =>
    (headX * tan + n.headThickness / Math.cos(n.tilt) - first.depth + slope * first.x) / (slope + tan);
  const corner = crossing(behind) <= first.x || taper + tan <= 0 ? crossing(behind) : crossing(taper);
  const w = (n.bend / 2) * (slopeOf(corner) + tan);
  const half = n.bend / 2;
  const voluteHalf = n.voluteHeight > 0 ? n.voluteLength / 2 : 0;

  const base = (x: number): number => {
    const a = neck(x);
    const b = head(x);
    const apart = Math.abs(a - b);
    const bent = apart < w ? (a + b) / 2 + w / 4 + (apart * apart) / (4 * w) : Math.max(a, b);
    const away = Math.abs(x - corner);
    return away < voluteHalf ? bent + n.voluteHeight * Math.cos((Math.PI * away) / (2 * voluteHalf)) ** 2 : bent;
  };
  const rise = Math.max(0, heel.depth - base(heel.to));
  const depthAt = (x: number): number => {
    if (x <= heel.from) return base(x);
    if (x >= heel.to) return Math.max(heel.depth, base(heel.to));
    const u = (x - heel.from) / (heel.to - heel.from);
    return base(x) + rise * (1 - Math.sqrt(1 - u * u));
  };

  const knots = [corner - half, corner + half, corner - voluteHalf, corner, corner + voluteHalf, first.x, second.x];

  function piece(from: number, to: number): readonly Segment[] {
    const inHeel = from >= heel.from && to <= heel.to;
    // In the heel by the angle, since the curve ends upright.
    const start = inHeel ? Math.asin((from - heel.from) / (heel.to - heel.from)) : from;
    const end = inHeel ? Math.asin((to - heel.from) / (heel.to - heel.from)) : to;
    const xOf = (t: number): number => (inHeel ? heel.from + (heel.to - heel.from) * Math.sin(t) : t);
    const at = (t: number) => {
      const x = xOf(t);
      return vec(x, -(inHeel ? base(x) + rise * (1 - Math.cos(t)) : depthAt(x)));
    };
    const step = (end - start) * 1e-6;
    const direction = (t: number) => {
      const a = at(Math.min(Math.max(t - step, start), end));
      const b = at(Math.min(Math.max(t + step, start), end));
      return unit(vec(b.x - a.x, b.y - a.y));
    };
    const [p, q] = [at(start), at(end)];
    const bows = [0.25, 0.5, 0.75].some((s) => {
      const m = at(start + (end - start) * s);
      return Math.abs((m.y - p.y) * (q.x - p.x) - (q.y - p.y) * (m.x - p.x)) > STRAIGHT * (q.x - p.x);
    });
    return bows ? curveSegments({ at, direction }, start, end, 1e-3) : [line(q)];
  }

  return {
    depthAt,
    corner,
    bendFrom: corner - half,
    bendTo: corner + half,
    segments: (from, to) => {
      const inside = [...knots, heel.from, heel.to].filter((x) => x > from && x < to).toSorted((a, b) => a - b);
      const places = [from, ...inside, to];
      return places.slice(1).flatMap((x, i) => (x - places[i]! > 1e-6 ? [...piece(places[i]!, x)] : []));
    },
  };
}
