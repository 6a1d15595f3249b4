/** Held against the overlays of JTS (the npm package jsts) on the same outlines in chords within 0.0001 mm. */
import { describe, expect, it } from "vitest";
import { openArcs } from "../../src/geometry/arc-morphology.ts";
import { arcsApart, withoutArcs } from "../../src/geometry/arc-overlay.ts";
import { arcOutlinesOf, regionOfArcs } from "../../src/geometry/arc-ring.ts";
import { pathArea } from "../../src/geometry/measure.ts";
import { pathsOf, type Outline } from "../../src/geometry/outline.ts";
import { circle, rectangle } from "../../src/geometry/path.ts";
import { reversePath } from "../../src/geometry/segment.ts";
import { rotation, transformPath, translation, type Affine } from "../../src/geometry/transform.ts";
import { vec } from "../../src/geometry/vec.ts";
import { faceById } from "../lettering/font-files.ts";
import { set } from "../lettering/spec.ts";
import { jtsLeft } from "./jts.ts";

const letter = (text: string): Outline[] =>
  arcOutlinesOf(set(faceById("cormorant-garamond"), text, { size: { by: "cap-height", value: 12 } }).region);
const moved = (outlines: readonly Outline[], by: Affine): Outline[] =>
  outlines.map(({ outer, holes }) => ({
    outer: transformPath(by, outer),
    holes: holes.map((hole) => transformPath(by, hole)),
  }));
const area = (outlines: readonly Outline[]): number => outlines.flatMap(pathsOf).reduce((sum, path) => sum + pathArea(path), 0);
const left = (a: readonly Outline[], b: readonly Outline[]): number => jtsLeft(regionOfArcs(a, 1e-4), regionOfArcs(b, 1e-4));

describe("what only one of two outlines has", () => {
  it.each(["R", "&", "8"])("%s beside itself moved and turned", (text) => {
    const a = letter(text);
    for (const by of [translation(vec(0.3, -0.2)), rotation(0.4)]) {
      const b = moved(a, by);
      const { onlyInA, onlyInB } = arcsApart(a, b)!;
      expect(area(onlyInA)).toBeCloseTo(left(a, b), 2);
      expect(area(onlyInB)).toBeCloseTo(left(b, a), 2);
      expect(area(withoutArcs(a, b)!)).toBeCloseTo(left(a, b), 2);
    }
  });

  it("are the tips that an opening takes away, each on its own, and nothing of what it leaves", () => {
    const a = letter("R");
    const b = openArcs(a, 0.2);
    const { onlyInA, onlyInB } = arcsApart(a, b)!;
    expect(area(onlyInA)).toBeCloseTo(area(a) - area(b), 6);
    expect(onlyInA.length).toBeGreaterThan(3);
    expect(area(onlyInB)).toBeLessThan(1e-5);
  });

  it("is a ring between two circles, and nothing between an outline and itself", () => {
    const disc = (radius: number): Outline => ({ outer: circle(vec(0, 0), radius), holes: [] });
    const { onlyInA, onlyInB } = arcsApart([disc(3)], [disc(2)])!;
    expect(onlyInA).toHaveLength(1);
    expect(onlyInA[0]!.holes).toHaveLength(1);
    expect(area(onlyInA)).toBeCloseTo(5 * Math.PI, 9);
    expect(onlyInB).toEqual([]);
    const ring: Outline = { outer: circle(vec(0, 0), 3), holes: [reversePath(circle(vec(0, 0), 2))] };
    expect(arcsApart([ring], [ring])).toEqual({ onlyInA: [], onlyInB: [] });
    expect(area(withoutArcs([disc(3)], [disc(2)])!)).toBeCloseTo(5 * Math.PI, 9);
  });

  it("ends at the farthest place of an arc, wherever along the arc that lies", () => {
    // A bar 1 wide from well within the disc to beyond it. Its inner end stands shortly before the disc's edge.
    const bar: Outline = { outer: rectangle(9.85, -0.5, 14, 0.5), holes: [] };
    for (const turn of [0, Math.PI / 16, 0.3]) {
      const disc: Outline = { outer: transformPath(rotation(turn), circle(vec(0, 0), 10)), holes: [] };
      // What the disc has of it: the integral of sqrt(100 - y2) - 9.85 over its width.
      const within = 100 * Math.asin(0.05) + 0.5 * Math.sqrt(99.75) - 9.85;
      expect(area(withoutArcs([bar], [disc])!)).toBeCloseTo(4.15 - within, 8);
    }
  });
});
