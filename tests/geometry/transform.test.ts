import { describe, expect, it } from "vitest";
import { pathArea, pathLength } from "../../src/geometry/measure.ts";
import { nearestOnPath } from "../../src/geometry/nearest.ts";
import { circle, rectangle } from "../../src/geometry/path.ts";
import { roundedPolygon } from "../../src/geometry/arc.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import {
  compose,
  determinant,
  inverse,
  isSimilarity,
  mirroring,
  rotation,
  scaling,
  transformPath,
  transformPoint,
  transformVector,
  translation,
} from "../../src/geometry/transform.ts";
import { distance, vec } from "../../src/geometry/vec.ts";
import { bodyPath } from "./shapes.ts";

const near = (a: { x: number; y: number }, x: number, y: number) => expect(distance(a, vec(x, y))).toBeLessThan(1e-12);

describe("maps of the plane", () => {
  it("turn counter-clockwise, mirror in a line, scale about a point", () => {
    near(transformPoint(rotation(Math.PI / 2), vec(1, 0)), 0, 1);
    near(transformPoint(rotation(Math.PI / 2, vec(1, 1)), vec(2, 1)), 1, 2);
    near(transformPoint(mirroring(vec(0, 1), vec(1, 0)), vec(5, 3)), 5, -1);
    near(transformPoint(mirroring(vec(0, 0), vec(1, 1)), vec(5, 3)), 3, 5);
    near(transformPoint(scaling(2, 3, vec(1, 1)), vec(2, 2)), 3, 4);
    near(transformVector(translation(vec(9, 9)), vec(1, 2)), 1, 2);
  });

  it("compose in reading order and undo", () => {
    const m = compose(rotation(Math.PI / 2), translation(vec(10, 0)), scaling(2));
    near(transformPoint(m, vec(1, 0)), 20, 2);
    near(transformPoint(compose(m, inverse(m)), vec(3, 4)), 3, 4);
    expect(() => inverse(scaling(1, 0))).toThrow(RangeError);
  });

  it("know which of them keep circles", () => {
    expect(isSimilarity(compose(rotation(1), scaling(3), mirroring(vec(1, 2), vec(3, 1))))).toBe(true);
    expect(isSimilarity(scaling(1, 1.001))).toBe(false);
  });

  it("keep arcs under a similarity and flip their sense under a mirror", () => {
    const path = roundedPolygon([vec(0, 0), vec(50, 0), vec(60, 20), vec(0, 20)], [3, 5, 2, 4])!;
    const m = compose(mirroring(vec(1, 2), vec(3, 1)), scaling(1.5), translation(vec(4000, 0)));
    const placed = transformPath(m, path);
    expect(placed.segments.map((s) => s.kind)).toEqual(path.segments.map((s) => s.kind));
    expect(placed.segments.every((s) => s.kind !== "arc" || !s.ccw)).toBe(true);
    expect(pathArea(placed)).toBeCloseTo(-2.25 * pathArea(path), 7);
    expect(pathLength(placed)).toBeCloseTo(1.5 * pathLength(path), 8);
  });

  it("make an ellipse of a circle: area pi a b, points on it within 0.00001 mm", () => {
    const ellipse = transformPath(scaling(20, 8), circle(vec(0, 0), 1));
    expect(ellipse.segments.every((s) => s.kind === "cubic")).toBe(true);
    expect(pathArea(ellipse)).toBeCloseTo(Math.PI * 160, 3);
    for (let angle = 0; angle < 6.28; angle += 0.1)
      expect(nearestOnPath(ellipse, vec(20 * Math.cos(angle), 8 * Math.sin(angle))).distance).toBeLessThan(1e-5);
  });

  it("change areas by their determinant", () => {
    const m = compose(scaling(2, -3), rotation(0.3));
    expect(determinant(m)).toBeCloseTo(-6, 12);
    expect(pathArea(transformPath(m, bodyPath()))).toBeCloseTo(-6 * pathArea(bodyPath()), 5);
    expect(flatten(transformPath(m, rectangle(0, 0, 1, 1)))).toHaveLength(4);
  });
});
