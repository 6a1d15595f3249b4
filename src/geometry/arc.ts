import { ARC_AS_CUBICS } from "./tolerance.ts";
import { arc, cubic, line, type Arc, type Cubic, type Path, type Segment } from "./path.ts";
import { add, cross, distance, dot, leftOf, lerp, norm, scale, sub, turned, unit, vec, type Vec } from "./vec.ts";

const TURN = 2 * Math.PI;

/** Radius of an arc that starts at `from`, mm. */
export const arcRadius = (from: Vec, a: Arc): number => distance(from, a.centre);

/** Angle run through from `from` to the arc's end, radians: positive counter-clockwise, size below a full turn. */
export function arcSweep(from: Vec, a: Arc): number {
  const u = sub(from, a.centre);
  const v = sub(a.to, a.centre);
  const angle = Math.atan2(cross(u, v), dot(u, v));
  const ahead = a.ccw ? angle : -angle;
  const size = ahead < 0 ? ahead + TURN : ahead;
  // A full turn is no arc: what comes out as one is an arc of no length whose ends rounding has swapped.
  const sweep = size > TURN - 1e-9 ? 0 : size;
  return a.ccw ? sweep : -sweep;
}

/** The arc from `from` through `via` to `to`; undefined where the three stand in a line. */
export function arcThrough(from: Vec, via: Vec, to: Vec): Arc | undefined {
  const u = sub(via, from);
  const v = sub(to, from);
  const twice = 2 * cross(u, v);
  if (Math.abs(twice) <= 1e-12 * Math.max(dot(u, u), dot(v, v))) return undefined;
  const uu = dot(u, u);
  const vv = dot(v, v);
  const centre = add(from, vec((v.y * uu - u.y * vv) / twice, (u.x * vv - v.x * uu) / twice));
  return arc(to, centre, twice > 0);
}

/**
 * The arc of `radius` from `from` to `to`, the shorter way round unless `large`. Undefined where half the chord exceeds the radius or
 * both ends are one point.
 */
export function arcOfRadius(from: Vec, to: Vec, radius: number, ccw: boolean, large = false): Arc | undefined {
  const half = distance(from, to) / 2;
  if (!(half > 0) || half > radius * (1 + 1e-12)) return undefined;
  const height = Math.sqrt(Math.max(0, radius * radius - half * half));
  const side = ccw === large ? -1 : 1;
  const centre = add(lerp(from, to, 0.5), scale(leftOf(unit(sub(to, from))), side * height));
  return arc(to, centre, ccw);
}

/**
 * The arc that rises `rise` mm above the chord from `from` to `to`: to the right of it (so that it runs counter-clockwise) where positive,
 * to the left where negative; the straight side where 0. r = (c^2 / 4 + h^2) / (2 h). Ends must differ.
 */
export function arcOfRise(from: Vec, to: Vec, rise: number): Segment {
  if (rise === 0) return line(to);
  const half = distance(from, to) / 2;
  const toCentre = (half * half - rise * rise) / (2 * rise);
  return arc(to, add(lerp(from, to, 0.5), scale(leftOf(unit(sub(to, from))), toCentre)), rise > 0);
}

/** A corner rounded: the straight sides end at `from` and begin again at `arc.to`, both touched by the arc. */
export interface Fillet {
  readonly from: Vec;
  readonly arc: Arc;
  /** Length taken off each side, radius / tan(half the corner's angle). */
  readonly taken: number;
}

/**
 * The fillet of `radius` at `corner` between the sides to `before` and to `after`. Undefined where the sides run in one line, or where
 * either is shorter than what the fillet takes.
 */
export function fillet(before: Vec, corner: Vec, after: Vec, radius: number): Fillet | undefined {
  const a = unit(sub(before, corner));
  const b = unit(sub(after, corner));
  const sine = cross(a, b);
  // tan(half the angle between a and b) = |sin| / (1 + cos).
  const tangent = Math.abs(sine) / (1 + dot(a, b));
  if (!(Math.abs(sine) > 1e-12) || !(radius > 0)) return undefined;
  const taken = radius / tangent;
  if (taken > Math.min(distance(before, corner), distance(after, corner)) * (1 + 1e-12)) return undefined;
  const from = add(corner, scale(a, taken));
  const ccw = sine < 0;
  const centre = add(from, scale(leftOf(a), ccw ? -radius : radius));
  return { from, arc: arc(add(corner, scale(b, taken)), centre, ccw), taken };
}

/**
 * The closed path round `points` with corner i rounded by `radii[i]` (0 leaves it sharp). Undefined where a fillet finds no room beside
 * its neighbours.
 */
export function roundedPolygon(points: readonly Vec[], radii: readonly number[]): Path | undefined {
  const n = points.length;
  if (n < 3 || radii.length !== n) throw new RangeError("roundedPolygon: needs three points and one radius for each");
  const corners: (Fillet | undefined)[] = [];
  for (let i = 0; i < n; i++) {
    const radius = radii[i]!;
    const found = radius > 0 ? fillet(points[(i + n - 1) % n]!, points[i]!, points[(i + 1) % n]!, radius) : undefined;
    if (radius > 0 && !found) return undefined;
    corners.push(found);
  }
  const segments: Segment[] = [];
  const start = corners[0]?.arc.to ?? points[0]!;
  let at = start;
  for (let k = 1; k <= n; k++) {
    const i = k % n;
    const side = distance(points[(i + n - 1) % n]!, points[i]!);
    const room = side - (corners[(i + n - 1) % n]?.taken ?? 0) - (corners[i]?.taken ?? 0);
    if (room < -1e-9) return undefined;
    const rounded = corners[i];
    const end = rounded?.from ?? points[i]!;
    if (distance(at, end) > 1e-9) segments.push(line(end));
    if (rounded) segments.push(rounded.arc);
    at = rounded?.arc.to ?? points[i]!;
  }
  return { start, segments, closed: true };
}

/** Cubics that stand for the arc within `tolerance` mm (error of one cubic over the angle s: 4/27 r sin^6(s/4) / cos^2(s/4)). */
export function arcAsCubics(from: Vec, a: Arc, tolerance = ARC_AS_CUBICS): Cubic[] {
  const sweep = arcSweep(from, a);
  const radius = arcRadius(from, a);
  let count = Math.max(1, Math.ceil(Math.abs(sweep) / (Math.PI / 2)));
  const error = (s: number): number => ((4 / 27) * radius * Math.sin(s / 4) ** 6) / Math.cos(s / 4) ** 2;
  while (error(Math.abs(sweep) / count) > tolerance) count++;
  const step = sweep / count;
  const handle = (4 / 3) * Math.tan(step / 4);
  const cubics: Cubic[] = [];
  let spoke = sub(from, a.centre);
  for (let i = 1; i <= count; i++) {
    const next = i === count ? sub(a.to, a.centre) : turned(sub(from, a.centre), step * i);
    const c1 = add(a.centre, add(spoke, scale(leftOf(spoke), handle)));
    const c2 = add(a.centre, sub(next, scale(leftOf(next), handle)));
    cubics.push(cubic(c1, c2, i === count ? a.to : add(a.centre, next)));
    spoke = next;
  }
  return cubics;
}

/** How far the arc bows out over its chord, mm: r (1 - cos(s / 2)). */
export const arcRise = (from: Vec, a: Arc): number => norm(sub(from, a.centre)) * (1 - Math.cos(arcSweep(from, a) / 2));
