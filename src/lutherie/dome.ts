/**
 * A plate bent to a sphere, through two heights on the centre line.
 *
 * With k = 1/R, u and s counted from the middle of the chord between the two given points, h half that chord and n its unit
 * normal on the bulging side, a point of the sphere keeps
 *
 *   k s² + 2 b s + c = 0,   b = n_z q,   c = k (u² + y² - h²) + 2 u n_x q,   q = sqrt(1 - k² h²)
 *
 * whose near root s = -c / (b + sqrt(b² - k c)) stays exact as R grows and is the plane through both points at k = 0.
 * Source: analytic geometry of the sphere.
 */
import type { Vec } from "../geometry/vec.ts";

/** A point on the centre line and the plate's height there over the plane that heights are counted from, mm. */
export interface DomePoint {
  readonly x: number;
  readonly height: number;
}

/** A sphere of `radius` (mm; Infinity for a flat plate) through two points of the centre line, bulging away from the plane. */
export interface Dome {
  readonly radius: number;
  readonly first: DomePoint;
  readonly second: DomePoint;
}

/**
 * Height of the plate over the point (x along the centre line, y across), mm. RangeError where the radius is not above half
 * the distance between the two points, where these share one x, or where the sphere does not reach.
 */
export function domeHeight({ radius, first, second }: Dome, { x, y }: Vec): number {
  const [dx, dz] = [second.x - first.x, second.height - first.height];
  const half = Math.sqrt(dx * dx + dz * dz) / 2;
  const k = 1 / radius;
  if (!(radius > 0 && dx !== 0 && half < radius && Number.isFinite(half))) {
    throw new RangeError("domeHeight: the radius must be more than half the distance between two places");
  }
  const sign = dx < 0 ? -1 : 1;
  const [nx, nz] = [(-sign * dz) / (2 * half), (sign * dx) / (2 * half)];
  const q = Math.sqrt(1 - (k * half) ** 2);
  const u = x - (first.x + second.x) / 2;
  const b = nz * q;
  const c = k * (u * u + y * y - half * half) + 2 * u * nx * q;
  const root = b * b - k * c;
  if (!(root >= 0)) throw new RangeError("domeHeight: the sphere does not reach this point");
  return (first.height + second.height) / 2 - c / (b + Math.sqrt(root));
}

/** How far a router held square to a plate domed to `radius` leans, radians, `away` mm from the dome's top; away up to the radius. */
export function leanOnDome(away: number, radius: number): number {
  if (!(radius > 0 && away >= 0 && away <= radius)) throw new RangeError("leanOnDome: the place must lie on the sphere");
  return Math.asin(away / radius);
}
