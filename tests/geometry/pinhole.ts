/** A camera worked out in space, apart from the product's own mathematics. */
import { vec, type Vec } from "../../src/geometry/vec.ts";

/**
 * A pinhole that looks at the middle of the plane z = 0 from `away` mm, leaning `lean` from square in the direction `round`, radians.
 * Places of the plane in mm (y up) to pixels (y down).
 */
export function pinhole(
  lean: number,
  round: number,
  away: number,
  focalPx: number,
  size: { readonly width: number; readonly height: number },
): (p: Vec) => Vec {
  const from = [away * Math.sin(lean) * Math.cos(round), away * Math.sin(lean) * Math.sin(round), away * Math.cos(lean)] as const;
  const minus = (a: readonly number[], b: readonly number[]): number[] => a.map((value, i) => value - b[i]!);
  const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, value, i) => sum + value * b[i]!, 0);
  const crossed = (a: readonly number[], b: readonly number[]): number[] => [
    a[1]! * b[2]! - a[2]! * b[1]!,
    a[2]! * b[0]! - a[0]! * b[2]!,
    a[0]! * b[1]! - a[1]! * b[0]!,
  ];
  const unit = (a: readonly number[]): number[] => a.map((value) => value / Math.hypot(...a));
  const ahead = unit(minus([0, 0, 0], from));
  const right = unit(crossed(ahead, [0, 1, 0]));
  const up = crossed(right, ahead);
  return (p) => {
    const d = minus([p.x, p.y, 0], from);
    const depth = dot(d, ahead);
    return vec(size.width / 2 + (focalPx * dot(d, right)) / depth, size.height / 2 - (focalPx * dot(d, up)) / depth);
  };
}

/** Numbers from 0 to 1, the same in every run (mulberry32). */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
