import { arcRadius, arcSweep } from "./arc.ts";
import { arc, type Arc } from "./path.ts";
import type { Ring } from "./region.ts";
import { cross, distance, dot, lerp, sub, vec, type Vec } from "./vec.ts";

/**
 * The arc through the first and the last of `points` that misses those between by the least squares, if it misses none by more than
 * `tolerance` mm and they stand on it in order. With the chord's middle as origin and half the chord h, a circle through both ends with
 * its centre at height c keeps x^2 + y^2 - h^2 = 2 c y. Undefined for fewer than three points, for a straight run and beyond 200 degrees,
 * where the ends are too near each other to say where the centre lies.
 */
export function fitArc(points: readonly Vec[], tolerance: number): Arc | undefined {
  const from = points[0];
  const to = points.at(-1);
  if (!from || !to || points.length < 3) return undefined;
  const chord = sub(to, from);
  const h = distance(from, to) / 2;
  if (!(h > 0)) return undefined;
  const middle = lerp(from, to, 0.5);
  const ux = chord.x / (2 * h);
  const uy = chord.y / (2 * h);
  let top = 0;
  let bottom = 0;
  let side = 0;
  for (const p of points) {
    const dx = p.x - middle.x;
    const dy = p.y - middle.y;
    const x = dx * ux + dy * uy;
    const y = dy * ux - dx * uy;
    top += y * (x * x + y * y - h * h);
    bottom += 2 * y * y;
    side += y;
  }
  if (!(bottom > 0)) return undefined;
  const c = top / bottom;
  const found = arc(to, vec(middle.x - uy * c, middle.y + ux * c), side < 0);
  const radius = arcRadius(from, found);
  const sweep = arcSweep(from, found);
  if (!Number.isFinite(radius) || Math.abs(sweep) > MOST_SWEEP) return undefined;
  const spoke = sub(from, found.centre);
  let last = 0;
  for (const p of points.slice(1, -1)) {
    const v = sub(p, found.centre);
    if (Math.abs(Math.hypot(v.x, v.y) - radius) > tolerance) return undefined;
    const angle = Math.atan2(cross(spoke, v), dot(spoke, v)) * (found.ccw ? 1 : -1);
    const ahead = angle < -1e-9 ? angle + 2 * Math.PI : angle;
    if (ahead < last || ahead > Math.abs(sweep)) return undefined;
    last = ahead;
  }
  return found;
}

const MOST_SWEEP = (200 * Math.PI) / 180;

/** The circle that every point of the ring keeps within `tolerance` mm of, by least squares (Kasa's method); undefined if there is none. */
export function fitCircle(ring: Ring, tolerance: number): { readonly centre: Vec; readonly radius: number } | undefined {
  const n = ring.length;
  if (n < 8) return undefined;
  const mean = vec(ring.reduce((s, p) => s + p.x, 0) / n, ring.reduce((s, p) => s + p.y, 0) / n);
  let [xx, xy, yy, xz, yz, z] = [0, 0, 0, 0, 0, 0];
  for (const p of ring) {
    const x = p.x - mean.x;
    const y = p.y - mean.y;
    const w = x * x + y * y;
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xz += x * w;
    yz += y * w;
    z += w;
  }
  const k = 2 * (xx * yy - xy * xy);
  if (!(k > 0)) return undefined;
  const a = (xz * yy - yz * xy) / k;
  const b = (yz * xx - xz * xy) / k;
  const centre = vec(mean.x + a, mean.y + b);
  const radius = Math.sqrt(z / n + a * a + b * b);
  return ring.every((p) => Math.abs(distance(p, centre) - radius) <= tolerance) ? { centre, radius } : undefined;
}
