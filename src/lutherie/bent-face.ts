/**
 * A flat template on the face of a bent side of any curve: where each of its points comes to lie.
 *
 *   the template touches the face at one place, its u axis along the tangent there; the face's point at the angle a from that tangent has
 *   du = cos a ds, dfall = sin a ds, s the length along the face: so ds/du = 1 / cos a and dfall/du = tan a
 *   on a face `inset` inside the outer one ds is shorter by inset times the angle turned
 *
 * A round side gives the formulas of curved-side.ts. Source: plane curves, any text; cubic Hermite interpolation between stations.
 */
import type { Path } from "../geometry/path.ts";
import { pathLength, stationAt } from "../geometry/measure.ts";
import { curvatureAt, piecesOf } from "../geometry/segment.ts";
import { add, angleBetween, dot, leftOf, scale, sub, type Vec } from "../geometry/vec.ts";

/** Where a template's point lies on the face. */
export interface PlaceOnFace {
  /** Along the face from where the template touches it, with the sign of u. */
  readonly along: number;
  /** How far the face lies below the template's plane; below 0 it stands above it. */
  readonly fall: number;
  /** Between face and template, radians, 0 or above: so far a wall cut square to the template leans. */
  readonly lean: number;
}

export interface BentFace {
  /** The touching place on the outer face. */
  readonly at: Vec;
  /** Of curvature there, of the face looked at: above 0 where it bends away from the template. Infinity where straight. */
  readonly radius: number;
  /** How far u reaches to either side, below 0 and above. */
  readonly from: number;
  readonly to: number;
  /** Undefined beyond the ends of the side, or where it stands too steep. */
  readonly place: (u: number) => PlaceOnFace | undefined;
  /** u of a place along the face. */
  readonly flat: (along: number) => number | undefined;
  /** Point of the outer face in plan that a place along this face lies over. */
  readonly plan: (along: number) => Vec | undefined;
}

/** Steeper than this no template is followed, radians. */
const STEEPEST = 1.3;
/** Stations lie this far apart, mm. */
const STEP = 1;

interface Station {
  readonly u: number;
  readonly along: number;
  readonly fall: number;
  /** Of the face against the template, its sign that of dfall/du. */
  readonly slope: number;
  readonly plan: Vec;
}

/**
 * The face along `plan` (the outer face, the instrument to its left) that a template touches `at` mm from the plan's start, looked at
 * until u is `reach` mm to either side. u runs with the plan. Undefined where `at` lies beyond the plan's ends.
 */
export function bentFace(plan: Path, at: number, reach: number, inset = 0): BentFace | undefined {
  const middle = stationAt(plan, at);
  if (!middle || !(reach > 0) || !(inset >= 0)) return undefined;
  const length = pathLength(plan);
  const way = middle.tangent;
  const outward = scale(leftOf(way), -1);
  const onFace = (point: Vec, direction: Vec): Vec => add(point, scale(leftOf(direction), inset));
  const origin = onFace(middle.point, way);
  const station = (s: number): Station | undefined => {
    const found = stationAt(plan, s);
    if (!found) return undefined;
    const turn = angleBetween(way, found.tangent);
    if (Math.abs(turn) > STEEPEST) return undefined;
    const off = sub(onFace(found.point, found.tangent), origin);
    // A side that turns to its left bends away from a template on its right.
    return { u: dot(off, way), along: s - at - inset * turn, fall: -dot(off, outward), slope: turn, plan: found.point };
  };
  const run = (sign: 1 | -1): Station[] => {
    const list: Station[] = [];
    const most = sign > 0 ? length - at : at;
    const count = Math.max(1, Math.ceil(most / STEP));
    for (let i = 1; i <= count; i++) {
      const next = station(at + (sign * most * i) / count);
      const last = list.at(-1)?.u ?? 0;
      if (!next || !(sign * (next.u - last) > 0)) break;
      list.push(next);
      if (sign * next.u >= reach) break;
    }
    return list;
  };
  const stations = [...run(-1).toReversed(), station(at)!, ...run(1)];
  const piece = piecesOf(plan)[middle.index]!;
  const bend = curvatureAt(piece, middle.t);
  const radius = bend === 0 ? Infinity : 1 / bend - inset;
  const between = (key: "u" | "along", value: number): readonly [Station, Station] | undefined => {
    if (!(value >= stations[0]![key] - 1e-12 && value <= stations.at(-1)![key] + 1e-12)) return undefined;
    // The stations on either side of the value, by halves.
    let [low, high] = [0, stations.length - 1];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (stations[middle]![key] < value) low = middle;
      else high = middle;
    }
    return [stations[low]!, stations[high]!];
  };
  return {
    at: middle.point,
    radius,
    from: stations[0]!.u,
    to: stations.at(-1)!.u,
    place: (u) => {
      const ends = between("u", u);
      if (!ends) return undefined;
      const [a, b] = ends;
      const t = b.u === a.u ? 0 : (u - a.u) / (b.u - a.u);
      return {
        along: hermite(a.u, a.along, 1 / Math.cos(a.slope), b.u, b.along, 1 / Math.cos(b.slope), u),
        fall: hermite(a.u, a.fall, Math.tan(a.slope), b.u, b.fall, Math.tan(b.slope), u),
        lean: Math.abs(a.slope + (b.slope - a.slope) * t),
      };
    },
    flat: (along) => {
      const ends = between("along", along);
      if (!ends) return undefined;
      const [a, b] = ends;
      return hermite(a.along, a.u, Math.cos(a.slope), b.along, b.u, Math.cos(b.slope), along);
    },
    plan: (along) => {
      const ends = between("along", along);
      if (!ends) return undefined;
      const [a, b] = ends;
      const t = b.along === a.along ? 0 : (along - a.along) / (b.along - a.along);
      return add(a.plan, scale(sub(b.plan, a.plan), t));
    },
  };
}

/** The cubic through two values with two rates; the first value where both places are one. */
function hermite(x0: number, y0: number, r0: number, x1: number, y1: number, r1: number, x: number): number {
  const h = x1 - x0;
  if (h === 0) return y0;
  const t = (x - x0) / h;
  const [a, b] = [t * t * (3 - 2 * t), 1 - t * t * (3 - 2 * t)];
  return b * y0 + a * y1 + h * (t * (1 - t) * (1 - t) * r0 - t * t * (1 - t) * r1);
}
