/** Maps of one plane to another by central projection: how a flat thing and its photograph belong together, with a lens that keeps lines straight. */
import { cross, sub, vec, type Vec } from "./vec.ts";

/** Rows of the 3 by 3 matrix; (x, y) goes to (a x + b y + c, d x + e y + f) / (g x + h y + i). */
export type Homography = readonly [number, number, number, number, number, number, number, number, number];

/** Four corners in order, round either way. */
export type Corners = readonly [Vec, Vec, Vec, Vec];

/**
 * The map that takes four corners to four others: by way of the basis in which the first three are the axes and the fourth is (1, 1, 1)
 * (R. Hartley, A. Zisserman, "Multiple View Geometry", 2nd ed., 2.3, from memory). Undefined where either four are not the corners of a
 * convex figure.
 */
export function homographyThrough(from: Corners, to: Corners): Homography | undefined {
  if (!isConvex(from) || !isConvex(to)) return undefined;
  const a = basisOf(from);
  const b = basisOf(to);
  const back = a && inverseOf(a);
  if (!b || !back) return undefined;
  const found = scaled(product(b, back));
  // Near is where the corners are.
  return depthAt(found, from[0]) > 0 ? found : (found.map((entry) => -entry) as unknown as Homography);
}

/** True where four corners turn the same way at each, as those of a rectangle do in every picture of it. */
export function isConvex(corners: Corners): boolean {
  const turns = corners.map((p, i) => {
    const before = corners[(i + 3) % 4]!;
    const after = corners[(i + 1) % 4]!;
    const [u, v] = [sub(p, before), sub(after, p)];
    const size = Math.hypot(u.x, u.y) * Math.hypot(v.x, v.y);
    return size > 0 ? cross(u, v) / size : 0;
  });
  return turns.every((turn) => turn > LEAST_TURN) || turns.every((turn) => turn < -LEAST_TURN);
}

/** Sine of the least turn at a corner: below it three corners stand all but in a line. */
const LEAST_TURN = 1e-3;

/** Where a point goes; undefined from the line on that goes to infinity, seen from the corners that the map was made of. */
export function projected(h: Homography, p: Vec): Vec | undefined {
  const w = depthAt(h, p);
  if (!(w > 1e-12)) return undefined;
  return vec((h[0] * p.x + h[1] * p.y + h[2]) / w, (h[3] * p.x + h[4] * p.y + h[5]) / w);
}

/** What a point is divided by: above 0 on the near side of the horizon. */
export const depthAt = (h: Homography, p: Vec): number => h[6] * p.x + h[7] * p.y + h[8];

/** The way back. Every map that `homographyThrough` gives has one. */
export function reversed(h: Homography): Homography {
  const back = inverseOf(h);
  if (!back) throw new Error("a map of planes that cannot be reversed");
  return scaled(back);
}

/** One map after another. */
export const afterwards = (first: Homography, then: Homography): Homography => product(then, first);

const product = (m: Homography, n: Homography): Homography => {
  const at = (row: number, column: number): number => [0, 1, 2].reduce((sum, k) => sum + m[3 * row + k]! * n[3 * k + column]!, 0);
  return [at(0, 0), at(0, 1), at(0, 2), at(1, 0), at(1, 1), at(1, 2), at(2, 0), at(2, 1), at(2, 2)];
};

function inverseOf([a, b, c, d, e, f, g, h, i]: Homography): Homography | undefined {
  const det = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  const size = Math.max(...[a, b, c, d, e, f, g, h, i].map(Math.abs));
  if (!(Math.abs(det) > Number.MIN_VALUE * size)) return undefined;
  return [
    (e * i - f * h) / det,
    (c * h - b * i) / det,
    (b * f - c * e) / det,
    (f * g - d * i) / det,
    (a * i - c * g) / det,
    (c * d - a * f) / det,
    (d * h - e * g) / det,
    (b * g - a * h) / det,
    (a * e - b * d) / det,
  ];
}

/** Takes the axes to the first three points and (1, 1, 1) to the fourth. */
function basisOf([p, q, r, s]: Corners): Homography | undefined {
  const m: Homography = [p.x, q.x, r.x, p.y, q.y, r.y, 1, 1, 1];
  const back = inverseOf(m);
  if (!back) return undefined;
  const share = [0, 1, 2].map((k) => back[3 * k]! * s.x + back[3 * k + 1]! * s.y + back[3 * k + 2]!);
  const [u = 0, v = 0, w = 0] = share;
  return [p.x * u, q.x * v, r.x * w, p.y * u, q.y * v, r.y * w, u, v, w];
}

/** A map counts whatever its size; of one size it is easier to compare. */
function scaled(h: Homography): Homography {
  const size = Math.hypot(...h);
  const at = (k: number): number => h[k]! / size;
  return [at(0), at(1), at(2), at(3), at(4), at(5), at(6), at(7), at(8)];
}
