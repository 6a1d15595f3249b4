import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { clearance } from "../../src/geometry/clearance.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import { intersectPaths, meetLines, rayHits } from "../../src/geometry/intersect.ts";
import { nearestOnPath } from "../../src/geometry/nearest.ts";
import { arc, circle, cubic, line, polygon, polyline, rectangle, segmentPath, type Path } from "../../src/geometry/path.ts";
import { piecesOf, pointAt } from "../../src/geometry/segment.ts";
import { selfCrossings } from "../../src/geometry/self-crossing.ts";
import { scaling, transformPath, transformPoint, transformVector, type Affine } from "../../src/geometry/transform.ts";
import { distance, distanceToSegment, polar, vec, type Vec } from "../../src/geometry/vec.ts";
import { isInside, pathWinding } from "../../src/geometry/winding.ts";
import { FRAMES, placePath } from "./frames.ts";
import { bodyPath } from "./shapes.ts";

const placed = (frame: Affine, points: readonly Vec[]): Vec[] => points.map((p) => transformPoint(frame, p));
const same = (found: readonly Vec[], expected: readonly Vec[], miss = 1e-7): void => {
  expect(found).toHaveLength(expected.length);
  for (const p of expected) expect(Math.min(...found.map((q) => distance(p, q)))).toBeLessThan(miss);
};
const ellipse = transformPath(scaling(20, 8), circle(vec(0, 0), 1));
const coordinate = fc.integer({ min: -5000, max: 5000 }).map((k) => k / 100);
const point = fc.record({ x: coordinate, y: coordinate });

describe.each(FRAMES)("crossings %s", (_, frame) => {
  const meets = (a: Path, b: Path): Vec[] => intersectPaths(placePath(frame, a), placePath(frame, b)).map((m) => m.point);

  it("of lines with lines, circles and curves, worked by hand", () => {
    same(meets(segmentPath(vec(0, 0), vec(4, 4)), segmentPath(vec(0, 4), vec(4, 0))), placed(frame, [vec(2, 2)]));
    // x^2 + y^2 = 25 and y = 3.
    same(meets(segmentPath(vec(-9, 3), vec(9, 3)), circle(vec(0, 0), 5)), placed(frame, [vec(-4, 3), vec(4, 3)]));
    // y = x^2 and y = x / 2: x = 0 and 1/2.
    const parabola: Path = {
      start: vec(-1, 1),
      segments: [cubic(vec(-1 / 3, -1 / 3), vec(1 / 3, -1 / 3), vec(1, 1))],
      closed: false,
    };
    same(meets(segmentPath(vec(-2, -1), vec(2, 1)), parabola), placed(frame, [vec(0, 0), vec(0.5, 0.25)]));
  });

  it("of circles with circles and curves", () => {
    // Radii 5 and 5, centres 6 apart: (3, 4) and (3, -4).
    same(meets(circle(vec(0, 0), 5), circle(vec(6, 0), 5)), placed(frame, [vec(3, 4), vec(3, -4)]));
    // x^2/400 + y^2/64 = 1 and x^2 + y^2 = 100: y^2 = 300 / 5.25 (times 64/64), x^2 = 100 - y^2; the ellipse is good to 0.00001.
    const y = Math.sqrt((64 * 300) / 336);
    const x = Math.sqrt(100 - y * y);
    same(meets(circle(vec(0, 0), 10), ellipse), placed(frame, [vec(x, y), vec(-x, y), vec(x, -y), vec(-x, -y)]), 1e-4);
  });

  it("of curves with curves: an ellipse with itself on end", () => {
    const upright = transformPath(scaling(8, 20), circle(vec(0, 0), 1));
    // By symmetry on the diagonals: x^2 (1/400 + 1/64) = 1.
    const x = 1 / Math.sqrt(1 / 400 + 1 / 64);
    same(meets(ellipse, upright), placed(frame, [vec(x, x), vec(-x, x), vec(x, -x), vec(-x, -x)]), 1e-4);
  });

  it("of a ray with a body: in and out across the waist", () => {
    const path = placePath(frame, bodyPath());
    const hits = rayHits([path], transformPoint(frame, vec(190, -500)), transformVector(frame, vec(0, 3)));
    expect(hits).toHaveLength(2);
    expect(hits[0]).toBeCloseTo(382, 6);
    expect(hits[1]).toBeCloseTo(618, 6);
  });

  it("count how often a path runs round a point", () => {
    const path = placePath(frame, bodyPath());
    expect(pathWinding(path, transformPoint(frame, vec(190, 117.9)))).toBe(1);
    expect(pathWinding(path, transformPoint(frame, vec(190, 118.1)))).toBe(0);
    expect(pathWinding(path, transformPoint(frame, vec(0.001, 0)))).toBe(1);
    const ring = [circle(vec(0, 0), 5), { ...circle(vec(0, 0), 3) }].map((p) => placePath(frame, p));
    expect(isInside(ring, transformPoint(frame, vec(4, 0)))).toBe(true);
    expect(pathWinding(ring[0]!, transformPoint(frame, vec(0, -3)))).toBe(1);
    expect(isInside(ring, transformPoint(frame, vec(0, 5.0001)))).toBe(false);
  });

  it("of a path with itself are found, and none where it is simple", () => {
    expect(selfCrossings(placePath(frame, bodyPath()))).toEqual([]);
    const bowTie = polygon([vec(0, 0), vec(4, 4), vec(4, 0), vec(0, 4)]);
    same(selfCrossings(placePath(frame, bowTie)), placed(frame, [vec(2, 2)]));
    // A cubic's own loop, symmetric about x = 5: y = 3 t (1 - t) 6, x(t) = x(1 - t) = 5 where -30 (1 - t)^2 t ... = 5.
    const loop: Path = { start: vec(0, 0), segments: [cubic(vec(20, 10), vec(-10, 10), vec(10, 0))], closed: false };
    const found = selfCrossings(placePath(frame, loop));
    expect(found).toHaveLength(1);
    // x(t) - 5 = (2 t - 1) (5 - 50 t (1 - t)) up to sign, so t (1 - t) = 1/10 at the crossing and y = 30 t (1 - t) = 3.
    expect(distance(found[0]!, transformPoint(frame, vec(5, 3)))).toBeLessThan(1e-6);
  });

  const gap = (a: Path, b: Path): number => clearance(placePath(frame, a), placePath(frame, b)).distance;

  it("leave a clearance between paths that do not meet", () => {
    expect(gap(circle(vec(0, 0), 5), circle(vec(12, 5), 3))).toBeCloseTo(5, 6);
    expect(gap(circle(vec(0, 0), 5), circle(vec(1, 0), 2))).toBeCloseTo(2, 6);
    expect(gap(rectangle(0, 0, 10, 5), rectangle(13, 9, 20, 12))).toBeCloseTo(5, 9);
    expect(gap(ellipse, segmentPath(vec(-30, 9.5), vec(30, 9.5)))).toBeCloseTo(1.5, 4);
    expect(gap(bodyPath(), circle(vec(190, 0), 100))).toBeCloseTo(18, 6);
    expect(gap(bodyPath(), circle(vec(190, 0), 120))).toBe(0);
  });
});

describe("crossings", () => {
  it("of a level ray through the joint of an arc that ends level with its centre, but for rounding, count once", () => {
    // A box 6 wide whose lower right corner is an arc; the point lies 0.05 within its right side.
    const path: Path = {
      start: vec(-373.6052908651427, 0.17143668240039994),
      segments: [
        arc(vec(-373.6310000000002, 0.2705748052732282), vec(-373.4270000000002, 0.27057480527316746), false),
        line(vec(-373.6310000000002, 6)),
        line(vec(-380, 6)),
        line(vec(-380, 0.17143668240039994)),
        line(vec(-373.6052908651427, 0.17143668240039994)),
      ],
      closed: true,
    };
    expect(pathWinding(path, vec(-373.681, 0.2705748052732193))).toBe(1);
  });

  it("report the shared stretch of lines and of arcs by its ends", () => {
    same(
      intersectPaths(segmentPath(vec(0, 0), vec(10, 0)), segmentPath(vec(15, 0), vec(4, 0))).map((m) => m.point),
      [vec(4, 0), vec(10, 0)],
    );
    const upper: Path = { start: vec(5, 0), segments: [arc(vec(-5, 0), vec(0, 0), true)], closed: false };
    const left: Path = { start: vec(0, 5), segments: [arc(vec(0, -5), vec(0, 0), true)], closed: false };
    same(
      intersectPaths(upper, left).map((m) => m.point),
      [vec(0, 5), vec(-5, 0)],
    );
  });

  it("report a touch once, and a joint of two segments once", () => {
    same(
      intersectPaths(segmentPath(vec(-5, 5), vec(5, 5)), circle(vec(0, 0), 5)).map((m) => m.point),
      [vec(0, 5)],
    );
    same(
      intersectPaths(polyline([vec(-1, 1), vec(0, 0), vec(1, 1)]), segmentPath(vec(-2, 0), vec(2, 0))).map((m) => m.point),
      [vec(0, 0)],
    );
  });

  it("come in order along the first path, with places on both", () => {
    const zigzag = polyline([vec(0, -1), vec(1, 1), vec(2, -1), vec(3, 1)]);
    const found = intersectPaths(segmentPath(vec(0, 0), vec(3, 0)), zigzag);
    expect(found.map((m) => m.point.x)).toEqual([0.5, 1.5, 2.5]);
    for (const m of found) expect(distance(pointAt(piecesOf(zigzag)[m.second]!, m.t), m.point)).toBeLessThan(1e-12);
  });

  it("of random cubics match those of their chords", () => {
    fc.assert(
      fc.property(fc.array(point, { minLength: 8, maxLength: 8 }), (p) => {
        const a: Path = { start: p[0]!, segments: [cubic(p[1]!, p[2]!, p[3]!)], closed: false };
        const b: Path = { start: p[4]!, segments: [cubic(p[5]!, p[6]!, p[7]!)], closed: false };
        const exact = intersectPaths(a, b);
        for (const m of exact) {
          expect(distance(pointAt(piecesOf(a)[0]!, m.s), m.point)).toBeLessThan(1e-8);
          expect(distance(pointAt(piecesOf(b)[0]!, m.t), m.point)).toBeLessThan(1e-8);
        }
        const coarse = intersectPaths(polyline(flatten(a, 0.01)), polyline(flatten(b, 0.01)));
        // Each crossing of the chords stands for one of the curves, unless both run nearly along each other there.
        for (const m of coarse) {
          const away = Math.min(Infinity, ...exact.map((e) => distance(e.point, m.point)));
          const [u, v] = [nearestOnPath(a, m.point), nearestOnPath(b, m.point)].map(({ t }, i) => {
            const piece = piecesOf([a, b][i]!)[0]!;
            const [q, r] = [pointAt(piece, Math.max(0, t - 1e-4)), pointAt(piece, Math.min(1, t + 1e-4))];
            return vec((r.x - q.x) / distance(q, r), (r.y - q.y) / distance(q, r));
          }) as [Vec, Vec];
          if (Math.abs(u.x * v.y - u.y * v.x) > 0.1) expect(away).toBeLessThan(0.3);
        }
      }),
      { numRuns: 30 },
    );
  });

  it("of endless lines", () => {
    expect(meetLines(vec(0, 0), vec(1, 1), vec(4, 0), vec(0, 2))).toEqual(vec(4, 4));
    expect(meetLines(vec(0, 0), vec(1, 1), vec(4, 0), vec(-2, -2))).toBeUndefined();
  });

  it("of a path that runs back on itself are seen", () => {
    expect(selfCrossings(polyline([vec(0, 0), vec(10, 0), vec(5, 0)])).length).toBeGreaterThan(0);
    expect(selfCrossings(rectangle(0, 0, 1, 1))).toEqual([]);
    expect(selfCrossings(circle(vec(0, 0), 1))).toEqual([]);
  });
});

describe("the nearest point", () => {
  it("is never further than any point of the path", () => {
    const path: Path = {
      start: vec(-20, 0),
      segments: [cubic(vec(-10, 40), vec(30, -40), vec(20, 10)), arc(vec(0, 30), vec(0, 10), true), line(vec(-20, 0))],
      closed: true,
    };
    const chords = flatten(path, 1e-4);
    fc.assert(
      fc.property(point, (p) => {
        const found = nearestOnPath(path, p);
        const coarse = Math.min(...chords.map((a, i) => distanceToSegment(p, a, chords[(i + 1) % chords.length]!)));
        expect(Math.abs(found.distance - coarse)).toBeLessThan(2e-4);
        expect(distance(found.point, p)).toBeCloseTo(found.distance, 12);
        expect(distance(pointAt(piecesOf(path)[found.index]!, found.t), found.point)).toBeLessThan(1e-9);
      }),
    );
  });

  it("on a circle lies on the spoke through the point", () => {
    for (const angle of [0, 1, 2, 3, 4, 5, 6]) {
      const near = nearestOnPath(circle(vec(3, 4), 10), polar(vec(3, 4), 12.5, angle));
      expect(near.distance).toBeCloseTo(2.5, 12);
      expect(distance(near.point, polar(vec(3, 4), 10, angle))).toBeLessThan(1e-12);
    }
    expect(nearestOnPath(circle(vec(3, 4), 10), vec(3, 4)).distance).toBeCloseTo(10, 12);
  });
});
