import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { arcRadius } from "../../../src/geometry/arc.ts";
import {
  insertPoint,
  joinPoints,
  removePoints,
  riseThrough,
  scalePoints,
  splitPoint,
  withKind,
} from "../../../src/geometry/drawn/edit.ts";
import { fairRun } from "../../../src/geometry/drawn/fairing.ts";
import { drawOutline } from "../../../src/geometry/drawn/outline.ts";
import { mirroredPoints, outlinePoint, type OutlinePoint } from "../../../src/geometry/drawn/point.ts";
import { flatten } from "../../../src/geometry/flatten.ts";
import { pathArea, pathLength } from "../../../src/geometry/measure.ts";
import { nearestOnPath } from "../../../src/geometry/nearest.ts";
import { curvatureAt, piecesOf, pointAt, tangentAt } from "../../../src/geometry/segment.ts";
import { angleBetween, distance, vec } from "../../../src/geometry/vec.ts";

const rect = (given: Partial<OutlinePoint> = {}): OutlinePoint[] =>
  [
    [0, 0],
    [40, 0],
    [40, 30],
    [0, 30],
  ].map(([x, y]) => outlinePoint(x!, y!, given));

const fairRing = (points: readonly (readonly [number, number])[]): OutlinePoint[] =>
  points.map(([x, y]) => outlinePoint(x, y, { kind: "fair", side: "curve" }));

describe("an outline of points", () => {
  it("with straight sides is the polygon, and rounded corners take (4 - pi) r^2 / 4 each", () => {
    expect(pathArea(drawOutline(rect())!.path)).toBe(1200);
    const rounded = drawOutline(rect({ rounding: 5 }))!;
    expect(rounded.troubles).toEqual([]);
    expect(pathArea(rounded.path)).toBeCloseTo(1200 - (4 - Math.PI) * 25, 9);
    expect(rounded.path.segments.filter(({ kind }) => kind === "arc")).toHaveLength(4);
    // Clipped by 5 along each side: four triangles of 12.5.
    expect(pathArea(drawOutline(rect({ rounding: 5, cut: "clip" }))!.path)).toBeCloseTo(1150, 9);
  });

  it("says which corner finds no room for its rounding, and leaves that sharp", () => {
    const points = rect().with(1, outlinePoint(40, 0, { rounding: 31 }));
    const drawn = drawOutline(points)!;
    expect(drawn.troubles).toEqual([{ what: "rounding", point: 1 }]);
    expect(pathArea(drawn.path)).toBe(1200);
    // Two of 20 have no room together on a side of 30; one has.
    const two = drawOutline(
      rect()
        .with(1, outlinePoint(40, 0, { rounding: 20 }))
        .with(2, outlinePoint(40, 30, { rounding: 19 })),
    )!;
    expect(two.troubles).toEqual([{ what: "rounding", point: 1 }]);
    expect(pathArea(two.path)).toBeCloseTo(1200 - ((4 - Math.PI) / 4) * 361, 9);
  });

  it("has true arcs by radius, by three points and tangent to their neighbours", () => {
    // A stadium: 40 between the centres, radius 15. Area 40 x 30 + pi 225.
    const bow = (given: Partial<OutlinePoint>): OutlinePoint[] =>
      rect()
        .with(1, outlinePoint(40, 0, { side: "arc", ...given }))
        .with(3, outlinePoint(0, 30, { side: "arc", ...given }));
    const area = 1200 + Math.PI * 225;
    expect(pathArea(drawOutline(bow({ radius: 15 }))!.path)).toBeCloseTo(area, 9);
    const rise = riseThrough(vec(40, 0), vec(40 + 15 * Math.cos(1), 15 + 15 * Math.sin(1)), vec(40, 30));
    expect(rise).toBeCloseTo(15, 9);
    expect(pathArea(drawOutline(bow({ rise: 15 }))!.path)).toBeCloseTo(area, 9);
    expect(pathArea(drawOutline(bow({ kind: "fair" }))!.path)).toBeCloseTo(area, 9);
    expect(drawOutline(bow({ radius: 14 }))!.troubles).toEqual([
      { what: "arc", point: 1 },
      { what: "arc", point: 3 },
    ]);
  });

  it("rounds a corner between an arc and a line at a point that both circles give by hand", () => {
    // Half disc of radius 20 over the x axis, corner at (20, 0) rounded by 4 inside: the centre is 4 above the axis and 16 from the
    // middle, at x = sqrt(256 - 16) = 15.491933.
    const half = [outlinePoint(-20, 0), outlinePoint(20, 0, { side: "arc", radius: 20, rounding: 4 })];
    const { path, troubles } = drawOutline(half)!;
    expect(troubles).toEqual([]);
    const round = piecesOf(path).find(
      ({ from, segment }) => segment.kind === "arc" && Math.abs(arcRadius(from, segment) - 4) < 1e-6,
    )!;
    if (round.segment.kind !== "arc") throw new Error("no arc");
    expect(round.segment.centre.x).toBeCloseTo(15.491933, 6);
    expect(round.segment.centre.y).toBeCloseTo(4, 9);
    const joints = piecesOf(path).map((piece, i, all) =>
      angleBetween(tangentAt(piece, 1)!, tangentAt(all[(i + 1) % all.length]!, 0)!),
    );
    expect(joints.filter((turn) => Math.abs(turn) > 1e-6)).toHaveLength(1);
  });

  it("makes a circle of fair points on one, evenly spaced or not, as nearly as cubics can", () => {
    for (const angles of [
      [0, 90, 180, 270],
      [0, 40, 130, 170, 260, 300],
    ]) {
      const { path } = drawOutline(
        fairRing(angles.map((deg) => [10 * Math.cos((deg * Math.PI) / 180), 10 * Math.sin((deg * Math.PI) / 180)])),
      )!;
      // A cubic over 90 degrees misses its circle by 0.000273 r.
      for (const piece of piecesOf(path))
        for (let k = 0; k <= 50; k++) {
          const p = pointAt(piece, k / 50);
          expect(Math.abs(Math.hypot(p.x, p.y) - 10)).toBeLessThan(0.004);
        }
    }
  });

  it("keeps curvature nearly continuous through fair points of an ellipse", () => {
    const ring = Array.from(
      { length: 12 },
      (_, i) => [60 * Math.cos((i * Math.PI) / 6), 30 * Math.sin((i * Math.PI) / 6)] as const,
    );
    const pieces = piecesOf(drawOutline(fairRing(ring))!.path);
    for (const [i, piece] of pieces.entries()) {
      const [a, b] = [curvatureAt(piece, 1), curvatureAt(pieces[(i + 1) % pieces.length]!, 0)];
      expect(Math.abs(a - b) / Math.max(a, b)).toBeLessThan(0.005);
    }
    for (const piece of pieces)
      for (let t = 0; t <= 1; t += 0.1) {
        const p = pointAt(piece, t);
        expect(Math.abs((p.x / 60) ** 2 + (p.y / 30) ** 2 - 1)).toBeLessThan(0.006);
      }
  });

  it("takes up the direction of a straight neighbour at a fair point, and equal handles at an even one", () => {
    const points = [
      outlinePoint(0, 0),
      outlinePoint(40, 0, { kind: "fair", side: "curve" }),
      outlinePoint(70, 20, { kind: "even", side: "curve" }),
      outlinePoint(40, 60, { side: "straight" }),
    ];
    const pieces = piecesOf(drawOutline(points)!.path);
    expect(tangentAt(pieces[1]!, 0)).toEqual({ x: expect.closeTo(1, 9), y: expect.closeTo(0, 9) });
    const [first, second] = [pieces[1]!.segment, pieces[2]!.segment];
    if (first.kind !== "cubic" || second.kind !== "cubic") throw new Error("no cubics");
    expect(distance(first.c2, first.to)).toBeCloseTo(distance(pieces[2]!.from, second.c1), 9);
    expect(angleBetween(tangentAt(pieces[1]!, 1)!, tangentAt(pieces[2]!, 0)!)).toBeCloseTo(0, 9);
  });

  it("mirrors a half about the centre line exactly, arcs, handles and roundings too", () => {
    const half = [
      outlinePoint(0, 21, { rounding: 3 }),
      outlinePoint(-30, 26, { kind: "fair", side: "curve", after: 12, direction: 3 }),
      outlinePoint(-80, 35, { side: "arc", radius: -90 }),
      outlinePoint(-150, 22, { side: "curve", direction: 2.6 }),
      outlinePoint(-165, 0),
    ];
    const path = drawOutline(mirroredPoints(half))!.path;
    for (const p of flatten(path)) expect(nearestOnPath(path, vec(p.x, -p.y)).distance).toBeLessThan(1e-9);
    expect(mirroredPoints(half)).toHaveLength(9);
  });

  it("is finite and closed for any points at all", () => {
    const length = fc.oneof(
      { weight: 9, arbitrary: fc.integer({ min: -30_000, max: 30_000 }).map((n) => n / 100) },
      fc.double({ min: -300, max: 300, noNaN: true }),
    );
    const maybe = (arb: fc.Arbitrary<number>) => fc.option(arb, { nil: undefined });
    const point = fc.record({
      x: fc.oneof(length, fc.constant(0)),
      y: fc.oneof(length, fc.constant(0)),
      kind: fc.constantFrom("corner" as const, "fair" as const, "even" as const),
      side: fc.constantFrom("straight" as const, "curve" as const, "arc" as const),
      rounding: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 60, noNaN: true })),
      cut: fc.constantFrom("round" as const, "clip" as const),
      radius: maybe(length),
      rise: maybe(length),
      direction: maybe(fc.double({ min: -7, max: 7, noNaN: true })),
      arriving: maybe(fc.double({ min: -7, max: 7, noNaN: true })),
      before: maybe(fc.double({ min: 0, max: 200, noNaN: true })),
      after: maybe(fc.double({ min: 0, max: 200, noNaN: true })),
    });
    let drawn = 0;
    fc.assert(
      fc.property(fc.array(point, { minLength: 2, maxLength: 9 }), fc.boolean(), (points, mirrored) => {
        const found = drawOutline(mirrored ? mirroredPoints(points) : points);
        if (!found) return;
        drawn += 1;
        expect(found.path.segments.at(-1)!.to).toEqual(found.path.start);
        expect(Number.isFinite(pathArea(found.path)) && Number.isFinite(pathLength(found.path))).toBe(true);
        for (const { from, segment } of piecesOf(found.path))
          if (segment.kind === "arc")
            expect(Math.abs(distance(from, segment.centre) - distance(segment.to, segment.centre))).toBeLessThan(
              1e-6 * (1 + distance(from, segment.centre)),
            );
      }),
      { numRuns: 1200 },
    );
    expect(drawn).toBeGreaterThan(1000);
  });
});

describe("an edit of the points", () => {
  const curved = fairRing([
    [0, 0],
    [50, -10],
    [70, 30],
    [20, 55],
  ]).with(2, outlinePoint(70, 30, { side: "arc", rise: 9 }));
  const own = (point: OutlinePoint): OutlinePoint => point;

  it("that puts a point in leaves the outline where it was", () => {
    const before = drawOutline(curved)!;
    for (const index of [0, 1, 2, 3]) {
      const inserted = insertPoint(curved, index, before.sides[index]!, 0.37, own);
      expect(inserted).toHaveLength(5);
      const after = drawOutline(inserted)!.path;
      for (const p of flatten(after, 0.01)) {
        const side = nearestOnPath(before.path, p).distance;
        expect(side).toBeLessThan(index === 2 ? 1e-6 : 1.2);
      }
      // On the side itself the curve is the same one.
      const piece = before.sides[index]!;
      for (const t of [0.1, 0.37, 0.8]) expect(nearestOnPath(after, pointAt(piece, t)).distance).toBeLessThan(1e-6);
    }
  });

  it("that takes points out, joins two or draws one apart keeps the others", () => {
    expect(removePoints(curved, new Set([1]))).toEqual([curved[0], curved[2], curved[3]]);
    expect(removePoints(curved, new Set([0, 1, 2]))).toBe(curved);
    const joined = joinPoints(rect(), 1);
    expect(joined.map(({ x, y }) => [x, y])).toEqual([
      [0, 0],
      [40, 15],
      [0, 30],
    ]);
    const split = splitPoint(joined, 1, vec(0, 2), 30, own);
    expect(split.map(({ x, y }) => [x, y])).toEqual(rect().map(({ x, y }) => [x, y]));
  });

  it("changes kinds and scales a selection about a point", () => {
    const kinds = withKind(curved, new Set([2]), "fair");
    expect(kinds[2]!.kind).toBe("fair");
    expect(kinds[0]).toBe(curved[0]);
    const scaled = scalePoints(rect({ rounding: 2 }), new Set([1, 2]), vec(0, 0), 2, 2);
    expect([scaled[1]!.x, scaled[2]!.y, scaled[1]!.rounding]).toEqual([80, 60, 4]);
  });
});

describe("fairing", () => {
  it("moves no point by more than the stated deviation and makes the bend change less", () => {
    // A circle of 100 with a saw of 0.3 on it.
    const rough = Array.from({ length: 30 }, (_, i) => {
      const r = 100 + (i % 2 === 0 ? 0.3 : -0.3);
      return vec(r * Math.cos(i / 20), r * Math.sin(i / 20));
    });
    const fair = fairRun(rough, 0.5);
    expect(fair.moved).toBeLessThanOrEqual(0.5);
    expect(fair.roughAfter).toBeLessThan(fair.roughBefore / 50);
    expect(fair.points[0]).toEqual(rough[0]);
    expect(fair.points.at(-1)).toEqual(rough.at(-1));
    const tight = fairRun(rough, 0.05);
    expect(tight.moved).toBeLessThanOrEqual(0.05);
    expect(tight.moved).toBeGreaterThan(0.045);
    expect(tight.roughAfter).toBeGreaterThan(fair.roughAfter);
  });

  it("leaves a straight run, and fewer than four points, where they are", () => {
    const line = Array.from({ length: 9 }, (_, i) => vec(i * 10, i * 3));
    expect(fairRun(line, 1).moved).toBeLessThan(1e-5);
    expect(fairRun([vec(0, 0), vec(1, 5), vec(2, 0)], 1).moved).toBe(0);
  });
});
