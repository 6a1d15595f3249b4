import { describe, expect, it } from "vitest";
import {
  arcAsCubics,
  arcOfRadius,
  arcOfRise,
  arcRadius,
  arcSweep,
  arcThrough,
  fillet,
  roundedPolygon,
} from "../../src/geometry/arc.ts";
import { cubicPoint, cubicPoints } from "../../src/geometry/bezier.ts";
import { pathArea, pathLength } from "../../src/geometry/measure.ts";
import { arc } from "../../src/geometry/path.ts";
import { pointAt, tangentAt } from "../../src/geometry/segment.ts";
import { distance, dot, leftOf, sub, unit, vec } from "../../src/geometry/vec.ts";

describe("arcs", () => {
  it("run the way they say: a quarter counter-clockwise, three quarters clockwise", () => {
    expect(arcSweep(vec(1, 0), arc(vec(0, 1), vec(0, 0), true))).toBeCloseTo(Math.PI / 2, 14);
    expect(arcSweep(vec(1, 0), arc(vec(0, 1), vec(0, 0), false))).toBeCloseTo((-3 * Math.PI) / 2, 14);
  });

  it("never take ends that rounding has swapped for a full turn", () => {
    const a = arc(vec(Math.cos(-1e-12), Math.sin(-1e-12)), vec(0, 0), true);
    expect(arcSweep(vec(1, 0), a)).toBe(0);
  });

  it("go through three points, either way round", () => {
    // The circle of radius 5 about (2, 1): (7, 1), (5, 5), (-1, 5) by the 3-4-5 triangle.
    const over = arcThrough(vec(7, 1), vec(5, 5), vec(-1, 5));
    expect(over?.centre.x).toBeCloseTo(2, 12);
    expect(over?.centre.y).toBeCloseTo(1, 12);
    expect(over?.ccw).toBe(true);
    expect(arcThrough(vec(-1, 5), vec(5, 5), vec(7, 1))?.ccw).toBe(false);
    expect(arcThrough(vec(0, 0), vec(1, 1), vec(2, 2))).toBeUndefined();
  });

  it("come from two ends and a radius in all four ways, and not at all where the radius is too small", () => {
    // Chord 8, radius 5: the centre lies 3 off the chord.
    const heights = [true, false].flatMap((ccw) =>
      [false, true].map((large) => arcOfRadius(vec(0, 0), vec(8, 0), 5, ccw, large)),
    );
    expect(heights.map((a) => Math.round((a?.centre.y ?? NaN) * 1e9) / 1e9)).toEqual([3, -3, -3, 3]);
    for (const a of heights) expect(arcRadius(vec(0, 0), a!)).toBeCloseTo(5, 12);
    expect(Math.abs(arcSweep(vec(0, 0), heights[1]!))).toBeGreaterThan(Math.PI);
    expect(arcOfRadius(vec(0, 0), vec(8, 0), 3.9, true)).toBeUndefined();
    expect(arcOfRadius(vec(1, 1), vec(1, 1), 3, true)).toBeUndefined();
  });

  it("come from a chord and a rise: r = (c^2/4 + h^2) / 2h", () => {
    // Chord 8, rise 2: r = (16 + 4) / 4 = 5.
    const a = arcOfRise(vec(0, 0), vec(8, 0), 2);
    expect(a.kind === "arc" && arcRadius(vec(0, 0), a)).toBeCloseTo(5, 12);
    expect(pointAt({ from: vec(0, 0), segment: a }, 0.5).y).toBeCloseTo(-2, 12);
    expect(pointAt({ from: vec(0, 0), segment: arcOfRise(vec(0, 0), vec(8, 0), -2) }, 0.5).y).toBeCloseTo(2, 12);
    // A rise of more than half the chord: chord 6, rise 9: r = (9 + 81) / 18 = 5.
    const most = arcOfRise(vec(0, 0), vec(6, 0), 9);
    expect(pointAt({ from: vec(0, 0), segment: most }, 0.5).y).toBeCloseTo(-9, 12);
    expect(arcOfRise(vec(0, 0), vec(6, 0), 0).kind).toBe("line");
  });
});

describe("fillets", () => {
  it("touch both sides and take radius / tan(half the angle) off each", () => {
    // A corner of 60 degrees: 2 / tan 30 = 3.4641.
    const corner = vec(1, 2);
    const before = vec(11, 2);
    const after = vec(1 + 10 * Math.cos(Math.PI / 3), 2 + 10 * Math.sin(Math.PI / 3));
    for (const [p, q] of [
      [before, after],
      [after, before],
    ] as const) {
      const f = fillet(p, corner, q, 2)!;
      expect(f.taken).toBeCloseTo(2 / Math.tan(Math.PI / 6), 12);
      expect(distance(f.from, f.arc.centre)).toBeCloseTo(2, 12);
      expect(distance(f.arc.to, f.arc.centre)).toBeCloseTo(2, 12);
      expect(dot(sub(f.from, f.arc.centre), sub(corner, p))).toBeCloseTo(0, 10);
      expect(dot(sub(f.arc.to, f.arc.centre), sub(q, corner))).toBeCloseTo(0, 10);
      // The arc leaves along the side.
      const way = tangentAt({ from: f.from, segment: f.arc }, 0)!;
      expect(dot(way, unit(sub(corner, p)))).toBeCloseTo(1, 12);
      expect(Math.abs(arcSweep(f.from, f.arc))).toBeCloseTo((2 * Math.PI) / 3, 12);
    }
  });

  it("are refused where a side is too short or there is no corner", () => {
    expect(fillet(vec(1, 0), vec(0, 0), vec(0, 1), 1.01)).toBeUndefined();
    expect(fillet(vec(1, 0), vec(0, 0), vec(0, 1), 1)).toBeDefined();
    expect(fillet(vec(-1, 0), vec(0, 0), vec(1, 0), 0.1)).toBeUndefined();
  });

  it("round a polygon: a rectangle 50 by 20 with radius 3 loses (4 - pi) 9 of its area", () => {
    const corners = [vec(0, 0), vec(50, 0), vec(50, 20), vec(0, 20)];
    const path = roundedPolygon(corners, [3, 3, 3, 3])!;
    expect(path.segments.map((s) => s.kind).toSorted()).toEqual(["arc", "arc", "arc", "arc", "line", "line", "line", "line"]);
    expect(pathArea(path)).toBeCloseTo(1000 - (4 - Math.PI) * 9, 9);
    expect(pathLength(path)).toBeCloseTo(140 - 24 + 6 * Math.PI, 9);
    // Both ends fully round: no straight side is left there.
    expect(pathArea(roundedPolygon(corners, [10, 10, 10, 10])!)).toBeCloseTo(30 * 20 + Math.PI * 100, 9);
    expect(roundedPolygon(corners, [10, 10, 10.1, 0])).toBeUndefined();
    expect(pathArea(roundedPolygon(corners, [0, 0, 0, 0])!)).toBeCloseTo(1000, 9);
  });
});

describe("arcs as cubics", () => {
  it("keep within the tolerance they are asked for", () => {
    const from = vec(100, 0);
    const a = arc(vec(0, -100), vec(0, 0), true);
    for (const tolerance of [1, 1e-3, 1e-6]) {
      const cubics = arcAsCubics(from, a, tolerance);
      let start = from;
      let worst = 0;
      for (const c of cubics) {
        for (let t = 0; t <= 1; t += 1 / 64)
          worst = Math.max(worst, Math.abs(distance(cubicPoint(cubicPoints(start, c), t), a.centre) - 100));
        start = c.to;
      }
      expect(worst).toBeLessThanOrEqual(tolerance);
      expect(start).toBe(a.to);
    }
    expect(arcAsCubics(from, a, 1)).toHaveLength(3);
  });

  it("leave square to the spoke", () => {
    const [first] = arcAsCubics(vec(5, 0), arc(vec(-5, 0), vec(0, 0), true));
    expect(dot(unit(sub(first!.c1, vec(5, 0))), leftOf(vec(1, 0)))).toBeCloseTo(1, 14);
  });
});
