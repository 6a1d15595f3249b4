/** A point or a vector in the plane, in mm. x runs from the nut to the tail, y to the treble side. */
export interface Vec {
  readonly x: number;
  readonly y: number;
}

export const vec = (x: number, y: number): Vec => ({ x, y });
export const ORIGIN: Vec = vec(0, 0);
export const add = (a: Vec, b: Vec): Vec => vec(a.x + b.x, a.y + b.y);
export const sub = (a: Vec, b: Vec): Vec => vec(a.x - b.x, a.y - b.y);
export const scale = (a: Vec, k: number): Vec => vec(a.x * k, a.y * k);
export const dot = (a: Vec, b: Vec): number => a.x * b.x + a.y * b.y;
/** z of the cross product: positive where b lies counter-clockwise of a. */
export const cross = (a: Vec, b: Vec): number => a.x * b.y - a.y * b.x;
// Not by Math.hypot, which is many times slower: it guards against sizes that no instrument has.
export const norm = (a: Vec): number => Math.sqrt(a.x * a.x + a.y * a.y);
export const distance = (a: Vec, b: Vec): number => Math.sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y));
export const lerp = (a: Vec, b: Vec, t: number): Vec => vec(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t);
/** Unit vector along a; a must not be the zero vector. */
export function unit(a: Vec): Vec {
  const n = norm(a);
  if (!(n > 0)) throw new RangeError("unit: the zero vector has no direction");
  return vec(a.x / n, a.y / n);
}
/** a turned a quarter to the left (counter-clockwise). */
export const leftOf = (a: Vec): Vec => vec(-a.y, a.x);
/** Angle of a from the x axis, radians in (-pi, pi]. */
export const angleOf = (a: Vec): number => Math.atan2(a.y, a.x);
/** The point at `radius` and `angle` (radians, counter-clockwise) from `centre`. */
export const polar = (centre: Vec, radius: number, angle: number): Vec =>
  vec(centre.x + radius * Math.cos(angle), centre.y + radius * Math.sin(angle));
/** a turned by `angle` radians, counter-clockwise, about the origin. */
export function turned(a: Vec, angle: number): Vec {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  return vec(a.x * c - a.y * s, a.x * s + a.y * c);
}
/** Angle from a to b, radians in (-pi, pi], counter-clockwise positive. */
export const angleBetween = (a: Vec, b: Vec): number => Math.atan2(cross(a, b), dot(a, b));
/** Distance from p to the straight piece from a to b (to the point a where both are one). */
export function distanceToSegment(p: Vec, a: Vec, b: Vec): number {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const square = dx * dx + dy * dy;
  const t = square > 0 ? Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / square)) : 0;
  const x = p.x - a.x - dx * t;
  const y = p.y - a.y - dy * t;
  return Math.sqrt(x * x + y * y);
}
