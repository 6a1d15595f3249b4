/** Outlines that chance draws, the same for the same seed: closed, free of crossings, with bays and limbs. */
import type { Vec } from "../../src/geometry/vec.ts";
import type { FrameSize } from "../../src/sheets/frames.ts";

/** Numbers from 0 to 1 (the mulberry32 generator, in the public domain). */
export function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** A ring round the origin whose reach swings between a fifth of `reach` and all of it, and as wide as `wide` times its height. */
export function star(next: () => number, reach: number, wide: number, corners: number): Vec[] {
  return Array.from({ length: corners }, (_, i) => {
    const angle = (2 * Math.PI * i) / corners;
    const r = reach * (0.2 + 0.8 * next());
    return { x: r * Math.cos(angle) * wide, y: r * Math.sin(angle) };
  });
}

/** A large outline and frames that it needs several of. */
export function wobbly(seed: number): { points: Vec[]; size: FrameSize } {
  const next = chance(seed);
  const points = star(next, 180 + 220 * next(), 0.4 + next(), 7 + Math.floor(next() * 9));
  return { points, size: { width: 180 + 110 * next(), height: 150 + 110 * next(), overlap: next() < 0.3 ? 0 : 4 + 8 * next() } };
}
