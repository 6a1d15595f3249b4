import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { flatten } from "../../src/geometry/flatten.ts";
import { arc, circle, cubic, polygon, type Path } from "../../src/geometry/path.ts";
import { piecesOf, pointAt } from "../../src/geometry/segment.ts";
import { distance, distanceToSegment, vec } from "../../src/geometry/vec.ts";
import { FRAMES, placePath } from "./frames.ts";
import { bodyPath } from "./shapes.ts";

/** Greatest distance from points of the path to its chords. */
function chordMiss(path: Path, tolerance: number): number {
  const points = flatten(path, tolerance);
  const chords = points.map((p, i) => [p, points[(i + 1) % points.length]!] as const);
  if (!path.closed) chords.pop();
  let worst = 0;
  for (const piece of piecesOf(path))
    for (let t = 0; t <= 1; t += 1 / 256) {
      const p = pointAt(piece, t);
      worst = Math.max(worst, Math.min(...chords.map(([a, b]) => distanceToSegment(p, a, b))));
    }
  return worst;
}

const coordinate = fc.double({ min: -50, max: 50, noNaN: true });
const point = fc.record({ x: coordinate, y: coordinate });

describe("flattening", () => {
  it("keeps every curve within the tolerance of its chords", () => {
    fc.assert(
      fc.property(point, point, point, point, fc.constantFrom(0.5, 0.01, 0.001), (a, b, c, d, tolerance) => {
        const path: Path = { start: a, segments: [cubic(b, c, d)], closed: false };
        expect(chordMiss(path, tolerance)).toBeLessThanOrEqual(tolerance);
      }),
      { numRuns: 40 },
    );
  });

  it("lays as many chords round a circle as the chord's error allows, and no more", () => {
    // r (1 - cos(pi / n)) <= 0.001 with r = 10: n >= pi / acos(1 - 0.0001) = 222.1; half a circle each: 112 chords.
    const points = flatten(circle(vec(0, 0), 10), 0.001);
    expect(points).toHaveLength(224);
    for (const p of points) expect(Math.hypot(p.x, p.y)).toBeCloseTo(10, 12);
    expect(chordMiss(circle(vec(0, 0), 10), 0.001)).toBeLessThanOrEqual(0.001);
  });

  it("keeps small arcs round: a circle of radius 0.0005 is still a figure", () => {
    expect(flatten(circle(vec(0, 0), 0.0005), 0.001).length).toBeGreaterThanOrEqual(3);
  });

  it("does not repeat the start of a closed path and keeps both ends of an open one", () => {
    expect(flatten(polygon([vec(0, 0), vec(1, 0), vec(0, 1)]))).toEqual([vec(0, 0), vec(1, 0), vec(0, 1)]);
    expect(flatten({ start: vec(1, 0), segments: [arc(vec(0, 1), vec(0, 0), true)], closed: false }, 10)).toEqual([
      vec(1, 0),
      vec(0, 1),
    ]);
    expect(() => flatten(bodyPath(), 0)).toThrow(RangeError);
  });

  it.each(FRAMES)("lays the same chords %s", (_, frame) => {
    const here = flatten(bodyPath());
    const there = flatten(placePath(frame, bodyPath()));
    expect(there).toHaveLength(here.length);
    const sides = (ring: typeof here) => ring.map((p, i) => distance(p, ring[(i + 1) % ring.length]!)).toSorted((a, b) => a - b);
    const other = sides(there);
    for (const [i, side] of sides(here).entries()) expect(other[i]).toBeCloseTo(side, 8);
  });
});
