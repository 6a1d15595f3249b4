import { describe, expect, it } from "vitest";
import { openArcs } from "../../src/geometry/arc-morphology.ts";
import { offsetArcs } from "../../src/geometry/arc-offset.ts";
import { arcOutlinesOf } from "../../src/geometry/arc-ring.ts";
import { uniteRings } from "../../src/geometry/clipper.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import { narrowest } from "../../src/geometry/narrowest.ts";
import type { Outline } from "../../src/geometry/outline.ts";
import { circle, polygon, rectangle, type Path } from "../../src/geometry/path.ts";
import { reversePath } from "../../src/geometry/segment.ts";
import { distance, lerp, polar, vec, type Vec } from "../../src/geometry/vec.ts";
import { transformPoint } from "../../src/geometry/transform.ts";
import { FRAMES, placePath, placeRegion } from "./frames.ts";

const solid = (outer: Path): Outline => ({ outer, holes: [] });

describe.each(FRAMES)("the narrowest place %s", (_, frame) => {
  const at = (x: number, y: number): Vec => transformPoint(frame, vec(x, y));
  const place = (outer: Path, ...holes: Path[]): Outline => ({
    outer: placePath(frame, outer),
    holes: holes.map((hole) => placePath(frame, reversePath(hole))),
  });

  it("is the short side of a rectangle and the diameter of a disc", () => {
    expect(narrowest([place(rectangle(0, 0, 5, 0.46))], "inside", 9)!.width).toBeCloseTo(0.46, 6);
    expect(narrowest([place(circle(vec(1, 2), 0.7))], "inside", 9)!.width).toBeCloseTo(1.4, 5);
  });

  it("is where two circles come nearest: the wall of a ring off centre, and the room between two discs", () => {
    // The inner circle of radius 2, moved by 0.6 in one of radius 3: the wall is 3 - 2 - 0.6 there and 1.6 across.
    const ring = narrowest([place(circle(vec(0, 0), 3), circle(vec(0.6, 0), 2))], "inside", 9)!;
    expect(ring.width).toBeCloseTo(0.4, 6);
    expect(distance(lerp(...ring.between, 0.5), at(2.8, 0))).toBeLessThan(1e-3);
    const discs = [place(circle(vec(0, 0), 1)), place(circle(vec(2.4, 0), 1))];
    const room = narrowest(discs, "outside", 9)!;
    expect(room.width).toBeCloseTo(0.4, 6);
    expect(distance(lerp(...room.between, 0.5), at(1.2, 0))).toBeLessThan(1e-3);
  });

  it("is the neck between two notches' points, which face each other with nothing but corners", () => {
    const hourglass = polygon([vec(0, 0), vec(2, 0), vec(1.2, 2), vec(2, 4), vec(0, 4), vec(0.5, 2)]);
    const neck = narrowest([place(hourglass)], "inside", 9)!;
    expect(neck.width).toBeCloseTo(0.7, 6);
    expect(distance(lerp(...neck.between, 0.5), at(0.85, 2))).toBeLessThan(1e-6);
  });

  it("is a slit in a part and a counter in it, from the outside", () => {
    const slit = polygon([vec(0, 0), vec(6, 0), vec(6, 2), vec(2, 2), vec(2, 2.3), vec(6, 2.3), vec(6, 4.3), vec(0, 4.3)]);
    expect(narrowest([place(slit)], "outside", 9)!.width).toBeCloseTo(0.3, 6);
    expect(narrowest([place(rectangle(0, 0, 9, 9), rectangle(2, 2, 5, 2.8))], "outside", 9)!.width).toBeCloseTo(0.8, 6);
  });

  it("is of a triangle, which has no neck, the diameter of its incircle; points and corners do not count", () => {
    // 3-4-5: the incircle has radius (3 + 4 - 5) / 2.
    expect(narrowest([place(polygon([vec(0, 0), vec(4, 0), vec(0, 3)]))], "inside", 9)!.width).toBeCloseTo(2, 3);
    const hole = narrowest([place(rectangle(-3, -3, 9, 9), polygon([vec(0, 0), vec(4, 0), vec(0, 3)]))], "outside", 9)!;
    expect(hole.width).toBeCloseTo(2, 3);
    const star = Array.from({ length: 10 }, (__, i) => polar(vec(0, 0), i % 2 === 0 ? 5 : 2, (i * Math.PI) / 5));
    // The core of a star is its inscribed circle through the inner corners.
    expect(narrowest([place(polygon(star))], "inside", 20)!.width).toBeGreaterThan(2);
  });

  it("is undefined where there is none below what is asked for", () => {
    expect(narrowest([place(rectangle(0, 0, 5, 2))], "inside", 1.99)).toBeUndefined();
    expect(narrowest([place(rectangle(0, 0, 5, 2))], "outside", 100)).toBeUndefined();
    expect(narrowest([], "inside", 1)).toBeUndefined();
  });

  it("is where an opening by a larger disc breaks the shape: a dumbbell", () => {
    const dumbbell = arcOutlinesOf(
      placeRegion(
        frame,
        uniteRings([
          flatten(circle(vec(0, 0), 3)),
          flatten(circle(vec(9, 0), 3)),
          flatten(polygon([vec(0, -1), vec(9, -0.4), vec(9, 0.4), vec(0, 1)])),
        ]),
      ),
    );
    const { width } = narrowest(dumbbell, "inside", 9)!;
    expect(openArcs(dumbbell, width / 2 - 0.002)).toHaveLength(1);
    expect(offsetArcs(dumbbell, -width / 2 - 0.002)).toHaveLength(2);
  });
});

it("throws on a cubic and knows outlines that touch nothing", () => {
  const odd = solid({
    start: vec(0, 0),
    segments: [{ kind: "cubic", c1: vec(1, 1), c2: vec(2, 1), to: vec(0, 0) }],
    closed: true,
  });
  expect(() => narrowest([odd], "inside", 1)).toThrow(RangeError);
});
