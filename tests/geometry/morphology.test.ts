import { describe, expect, it } from "vitest";
import { difference, intersection, offsetRings, union, uniteRings } from "../../src/geometry/clipper.ts";
import { close, closeParts, dilate, erode, open } from "../../src/geometry/morphology.ts";
import { regionOf } from "../../src/geometry/outline.ts";
import { circle, polygon, rectangle } from "../../src/geometry/path.ts";
import { countsOf, regionArea, regionBounds, type Region } from "../../src/geometry/region.ts";
import { polar, vec } from "../../src/geometry/vec.ts";
import { FRAMES, placePath, placeRegion } from "./frames.ts";
import { glyphPaths } from "./glyph.ts";
import { jtsOffset } from "./jts.ts";

const R = 0.254;
const ell = polygon([vec(0, 0), vec(6, 0), vec(6, 2), vec(2, 2), vec(2, 6), vec(0, 6)]);
/** What of a lies outside b by more than the chords account for. */
const excess = (a: Region, b: Region): number => regionArea(offsetRings(difference(a, b), -0.003));

describe.each(FRAMES)("filters by a disc %s", (_, frame) => {
  it("round corners by the book: opening takes (1 - pi/4) r^2 off a right angle, closing adds it inside one", () => {
    const region = regionOf([placePath(frame, ell)]);
    const share = (1 - Math.PI / 4) * 1;
    // Radius 1 on the L: five outward corners for the opening (no place is thinner than 2), one inward for the closing.
    expect(Math.abs(regionArea(open(region, 0.9)) - (20 - 5 * share * 0.81))).toBeLessThan(0.02);
    expect(Math.abs(regionArea(close(region, 1)) - (20 + share))).toBeLessThan(0.02);
  });

  it("agree with JTS step by step", () => {
    const region = regionOf(glyphPaths("R", 12).map((path) => placePath(frame, path)));
    expect(Math.abs(regionArea(erode(region, 0.2)) - jtsOffset(region, -0.2).getArea())).toBeLessThan(0.03);
    expect(Math.abs(regionArea(dilate(region, 0.2)) - jtsOffset(region, 0.2).getArea())).toBeLessThan(0.03);
  });
});

describe.each([
  // r (1 / sin(theta / 2) - 1), r = 0.254.
  [60, 0.254],
  [90, 0.1052],
  [120, 0.0393],
])("a corner of %d degrees", (degrees, off) => {
  const half = (degrees * Math.PI) / 360;
  const wedge = regionOf([polygon([vec(0, 0), polar(vec(0, 0), 10, -half), polar(vec(0, 0), 10, half)])]);

  it(`loses ${off} of its tip to a disc of 0.254`, () => {
    expect(Math.abs(regionBounds(open(wedge, R)).minX - off)).toBeLessThan(0.002);
    expect(off).toBeCloseTo(R * (1 / Math.sin(half) - 1), 4);
  });

  it(`is filled by as much from outside`, () => {
    const plate = difference(regionOf([rectangle(-5, -20, 15, 20)]), wedge);
    const filled = close(plate, R);
    const left = difference(regionOf([rectangle(-5, -20, 15, 20)]), filled);
    expect(Math.abs(regionBounds(left).minX - off)).toBeLessThan(0.002);
  });
});

describe("filters by a disc", () => {
  const letters = [..."ARg&"].map((letter) => regionOf(glyphPaths(letter, 10)));

  it("keep their order: eroded in opened in the region in closed in dilated", () => {
    for (const region of letters) {
      expect(excess(erode(region, R), open(region, R))).toBe(0);
      expect(excess(open(region, R), region)).toBe(0);
      expect(excess(region, close(region, R))).toBe(0);
      expect(excess(close(region, R), dilate(region, R))).toBe(0);
    }
  });

  it("do nothing the second time", () => {
    for (const region of letters) {
      const opened = open(region, R);
      const again = open(opened, R);
      expect(excess(opened, again) + excess(again, opened)).toBe(0);
      const closed = close(region, R);
      const twice = close(closed, R);
      expect(excess(closed, twice) + excess(twice, closed)).toBe(0);
    }
  });

  it("drop strokes thinner than the disc and fill slits narrower than it", () => {
    const flag = union(regionOf([rectangle(0, 0, 3, 3)]), regionOf([rectangle(3, 1, 9, 1.4)]));
    // The disc bows into the stroke's mouth, 0.4 wide, by a segment of r^2 asin(c/2r) - (c/2) sqrt(r^2 - c^2/4).
    const mouth = R * R * Math.asin(0.2 / R) - 0.2 * Math.sqrt(R * R - 0.04);
    expect(Math.abs(regionArea(open(flag, R)) - (9 - 4 * (1 - Math.PI / 4) * R * R + mouth))).toBeLessThan(0.01);
    expect(countsOf(open(flag, 0.19))).toEqual({ parts: 1, holes: 0 });
    const slit = difference(regionOf([rectangle(0, 0, 9, 4)]), regionOf([rectangle(3, 1, 6, 1.3)]));
    expect(countsOf(close(slit, R))).toEqual({ parts: 1, holes: 0 });
    expect(countsOf(close(slit, 0.1))).toEqual({ parts: 1, holes: 1 });
  });

  it("join near parts, unless each part is closed on its own", () => {
    const two = regionOf([circle(vec(0, 0), 1), circle(vec(2.3, 0), 1)]);
    expect(countsOf(close(two, R)).parts).toBe(1);
    expect(countsOf(closeParts(two, R)).parts).toBe(2);
    expect(Math.abs(regionArea(closeParts(two, R)) - regionArea(two))).toBeLessThan(0.01);
  });

  it("keep an island in its moat apart from the ring round it", () => {
    const target = union(
      difference(regionOf([circle(vec(0, 0), 10)]), regionOf([circle(vec(0, 0), 7)])),
      regionOf([circle(vec(0, 0), 6)]),
    );
    expect(countsOf(dilate(target, 0.4))).toEqual({ parts: 2, holes: 1 });
    expect(countsOf(dilate(target, 0.6))).toEqual({ parts: 1, holes: 0 });
    expect(countsOf(erode(target, 0.4))).toEqual({ parts: 2, holes: 1 });
  });

  it("leave all as it is at radius 0, and refuse a radius below", () => {
    const region = uniteRings([[vec(0, 0), vec(4, 0), vec(0, 4)]]);
    expect(regionArea(open(region, 0))).toBeCloseTo(8, 9);
    expect(dilate([], 1)).toEqual([]);
    expect(closeParts([], 1)).toEqual([]);
    expect(() => erode(region, -1)).toThrow(RangeError);
    expect(() => dilate(region, NaN)).toThrow(RangeError);
  });

  it("place letters without changing them (the frames of these tests)", () => {
    for (const [, frame] of FRAMES) {
      const placed = placeRegion(frame, letters[0]!);
      expect(regionArea(placed)).toBeCloseTo(regionArea(letters[0]!), 6);
      expect(regionArea(intersection(placed, placed))).toBeCloseTo(regionArea(letters[0]!), 2);
    }
  });
});
