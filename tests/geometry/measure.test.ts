import { describe, expect, it } from "vitest";
import { arcOfRise } from "../../src/geometry/arc.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import {
  pathArea,
  pathBetween,
  pathBounds,
  pathCentroid,
  pathLength,
  pathsBounds,
  stationAt,
} from "../../src/geometry/measure.ts";
import { arc, circle, cubic, line, polygon, rectangle, type Path } from "../../src/geometry/path.ts";
import { ringArea, ringCentroid, ringLength, ringWinding } from "../../src/geometry/region.ts";
import { reversePath } from "../../src/geometry/segment.ts";
import { transformPoint } from "../../src/geometry/transform.ts";
import { distance, vec } from "../../src/geometry/vec.ts";
import { FRAMES, placePath, placeRing } from "./frames.ts";
import { bodyPath } from "./shapes.ts";

/** A half disc of radius 6 on the x axis. */
const halfDisc: Path = { start: vec(6, 0), segments: [arc(vec(-6, 0), vec(0, 0), true), line(vec(6, 0))], closed: true };
/** The area under y = x^2 from 0 to 1, a parabola being a cubic. */
const parabola: Path = {
  start: vec(0, 0),
  segments: [line(vec(1, 0)), line(vec(1, 1)), cubic(vec(2 / 3, 1 / 3), vec(1 / 3, 0), vec(0, 0))],
  closed: true,
};

describe.each(FRAMES)("measures %s", (_, frame) => {
  it("have the textbook areas and centroids of half a disc and a parabola", () => {
    expect(pathArea(placePath(frame, halfDisc))).toBeCloseTo(18 * Math.PI, 8);
    // 4 r / (3 pi) off the diameter.
    expect(distance(pathCentroid(placePath(frame, halfDisc)), transformPoint(frame, vec(0, 8 / Math.PI)))).toBeLessThan(1e-8);
    expect(pathArea(placePath(frame, parabola))).toBeCloseTo(1 / 3, 8);
    expect(distance(pathCentroid(placePath(frame, parabola)), transformPoint(frame, vec(3 / 4, 3 / 10)))).toBeLessThan(1e-8);
  });

  it("agree with the same shape flattened", () => {
    const path = placePath(frame, bodyPath());
    const ring = flatten(path, 1e-5);
    expect(Math.abs(pathArea(path) - ringArea(ring))).toBeLessThan(1e-5 * ringLength(ring));
    expect(Math.abs(pathLength(path) - ringLength(ring))).toBeLessThan(1e-3);
    expect(distance(pathCentroid(path), ringCentroid(ring))).toBeLessThan(1e-4);
    const box = pathBounds(path);
    expect(Math.abs(box.minX - Math.min(...ring.map((p) => p.x)))).toBeLessThan(1e-4);
    expect(Math.abs(box.maxY - Math.max(...ring.map((p) => p.y)))).toBeLessThan(1e-4);
  });

  it("of rings do not lose digits", () => {
    const ring = placeRing(frame, [vec(0, 0), vec(3, 0), vec(3, 4)]);
    expect(ringArea(ring)).toBeCloseTo(6, 9);
    expect(distance(ringCentroid(ring), transformPoint(frame, vec(2, 4 / 3)))).toBeLessThan(1e-9);
    expect(ringWinding(ring, transformPoint(frame, vec(2, 1)))).toBe(1);
    expect(ringWinding(ring.toReversed(), transformPoint(frame, vec(2, 1)))).toBe(-1);
    expect(ringWinding(ring, transformPoint(frame, vec(1, 2)))).toBe(0);
  });
});

describe("measures", () => {
  it("change the area's sign with the way round, and nothing else", () => {
    expect(pathArea(reversePath(bodyPath()))).toBeCloseTo(-pathArea(bodyPath()), 7);
    expect(pathLength(reversePath(bodyPath()))).toBeCloseTo(pathLength(bodyPath()), 7);
    expect(pathArea(circle(vec(7, 7), 2))).toBeCloseTo(4 * Math.PI, 12);
  });

  it("refuse what has none: area of an open path, centroid of no area, box of nothing", () => {
    const open: Path = { start: vec(0, 0), segments: [line(vec(1, 0)), line(vec(1, 1))], closed: false };
    expect(() => pathArea(open)).toThrow(RangeError);
    expect(() => pathCentroid(polygon([vec(0, 0), vec(1, 0), vec(2, 0)]))).toThrow(RangeError);
    expect(() => pathsBounds([])).toThrow(RangeError);
  });

  it("box an arc over its rise, not over its ends alone", () => {
    const bow: Path = { start: vec(0, 0), segments: [arcOfRise(vec(0, 0), vec(56, 0), 1.3)], closed: false };
    expect(pathBounds(bow).minY).toBeCloseTo(-1.3, 12);
    expect(pathsBounds([bow, rectangle(0, 0, 1, 9)])).toEqual({ ...pathBounds(bow), maxY: 9 });
  });
});

describe("stations along a path", () => {
  it("stand where the length says, on lines, arcs and cubics alike", () => {
    const path: Path = {
      start: vec(0, 0),
      segments: [line(vec(10, 0)), arc(vec(14, 4), vec(10, 4), true), cubic(vec(14, 10), vec(20, 12), vec(30, 12))],
      closed: false,
    };
    expect(stationAt(path, 5)?.point).toEqual(vec(5, 0));
    const onArc = stationAt(path, 10 + Math.PI)!;
    expect(distance(onArc.point, vec(10 + 4 * Math.SQRT1_2, 4 - 4 * Math.SQRT1_2))).toBeLessThan(1e-9);
    expect(distance(onArc.tangent, vec(Math.SQRT1_2, Math.SQRT1_2))).toBeLessThan(1e-9);
    const total = pathLength(path);
    for (let s = 0.5; s < total; s += 1.7) expect(pathLength(pathBetween(path, 0, s)!)).toBeCloseTo(s, 7);
    expect(stationAt(path, total)?.point).toEqual(vec(30, 12));
    expect(stationAt(path, total + 1e-3)).toBeUndefined();
    expect(stationAt(path, -1)).toBeUndefined();
  });

  it("cut a path between two lengths", () => {
    const part = pathBetween(rectangle(0, 0, 10, 5), 8, 17)!;
    expect(part).toEqual({ start: vec(8, 0), segments: [line(vec(10, 0)), line(vec(10, 5)), line(vec(8, 5))], closed: false });
    expect(pathBetween(rectangle(0, 0, 10, 5), 8, 8)).toBeUndefined();
    expect(pathBetween(rectangle(0, 0, 10, 5), 8, 31)).toBeUndefined();
  });
});
