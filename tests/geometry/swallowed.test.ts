import { describe, expect, it } from "vitest";
import { roundedPolygon } from "../../src/geometry/arc.ts";
import { difference } from "../../src/geometry/clipper.ts";
import { offsetRegion } from "../../src/geometry/offset.ts";
import { regionOf } from "../../src/geometry/outline.ts";
import { circle, polygon, rectangle, type Path } from "../../src/geometry/path.ts";
import type { Region } from "../../src/geometry/region.ts";
import { scaling, transformPath, transformPoint, type Affine } from "../../src/geometry/transform.ts";
import { distance, vec } from "../../src/geometry/vec.ts";
import { swallowed, type Swallowed } from "../../src/geometry/swallowed.ts";
import { FRAMES, placePath } from "./frames.ts";
import { bodyPath } from "./shapes.ts";

const move = (region: Region, delta: number): Swallowed => swallowed(region, delta, offsetRegion(region, delta));
const lengths = (found: Swallowed, kind: string): number[] =>
  found.runs.filter((run) => run.kind === kind).map((run) => run.length);
const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
const place = (frame: Affine, ...paths: Path[]): Region => regionOf(paths.map((path) => placePath(frame, path)));
const ellipse = (a: number, b: number): Path => transformPath(scaling(a, b), circle(vec(0, 0), 1));

describe.each(FRAMES)("what an offset swallows %s", (_, frame) => {
  it("is nothing on an outline whose radii exceed the move", () => {
    const clean = move(place(frame, ellipse(20, 8)), -2.413);
    expect(clean.runs).toEqual([]);
    expect([clean.partsBefore, clean.partsAfter, clean.splitParts, clean.vanishedParts]).toEqual([1, 1, 0, 0]);
    expect(move(place(frame, bodyPath()), -2.413).runs.filter((run) => run.kind !== "corner")).toEqual([]);
  });

  it("is two tight ends of an ellipse 40 x 10, whose end radius is 1.25", () => {
    const found = move(place(frame, ellipse(20, 5)), -2.413);
    expect(found.runs.map((run) => run.kind)).toEqual(["tight", "tight"]);
    for (const run of found.runs) {
      const middle = run.points[Math.floor(run.points.length / 2)]!;
      const ends = [vec(20, 0), vec(-20, 0)].map((p) => distance(middle, transformPoint(frame, p)));
      expect(Math.min(...ends)).toBeLessThan(0.2);
    }
  });

  it("is the neck of a dumbbell, narrow, and the split is told", () => {
    const found = move(place(frame, circle(vec(0, 0), 10), circle(vec(30, 0), 10), rectangle(0, -2, 30, 2)), -2.413);
    expect(found.runs.map((run) => run.kind)).toEqual(["narrow", "narrow"]);
    // The neck's sides run between the circles: 30 - 2 sqrt(100 - 4) = 10.404 each.
    for (const run of found.runs) expect(Math.abs(run.length - (30 - 2 * Math.sqrt(96)))).toBeLessThan(0.1);
    expect([found.partsAfter, found.splitParts, found.vanishedParts]).toEqual([2, 1, 0]);
  });

  it("is only the corners' own share on a rectangle: d off either side of each", () => {
    const found = move(place(frame, rectangle(0, 0, 40, 20)), -2.413);
    expect(found.runs.map((run) => run.kind)).toEqual(["corner", "corner", "corner", "corner"]);
    for (const run of found.runs) expect(Math.abs(run.length - 2 * 2.413)).toBeLessThan(0.03);
  });
});

describe("what an offset swallows", () => {
  it("is all of a strip narrower than the move from both sides", () => {
    const found = move(place(FRAMES[0]![1], rectangle(0, 0, 4.8, 20)), -2.413);
    expect(found.runs).toHaveLength(1);
    expect(found.runs[0]!.kind).toBe("narrow");
    expect(found.runs[0]!.length).toBeCloseTo(49.6, 9);
    expect([found.partsAfter, found.vanishedParts, found.splitParts]).toEqual([0, 1, 0]);
  });

  it("counts outward moves by the hollows: tight inner bends, mouths that close, holes that fill", () => {
    // A slot with round ends of radius 1 cut into a plate, grown by 1.5.
    const plate = regionOf([rectangle(0, 0, 40, 20)]);
    const slot = regionOf([roundedPolygon([vec(10, 9), vec(30, 9), vec(30, 11), vec(10, 11)], [1, 1, 1, 1])!]);
    const filled = move(difference(plate, slot), 1.5);
    expect([filled.holesBefore, filled.holesAfter, filled.closedHoles]).toEqual([1, 0, 1]);
    expect(filled.runs).toHaveLength(1);
    expect(filled.runs[0]!.kind).toBe("tight");
    const kept = move(difference(plate, slot), 0.5);
    expect(kept.runs).toEqual([]);
    expect(kept.closedHoles).toBe(0);
    const notch = move(
      regionOf([polygon([vec(0, 0), vec(20, 0), vec(20, 10), vec(11, 10), vec(11, 4), vec(9, 4), vec(9, 10), vec(0, 10)])]),
      1.2,
    );
    expect(sum(lengths(notch, "narrow"))).toBeGreaterThan(13);
    // The outward corners of the plate lose nothing when they grow.
    expect(move(plate, 3).runs).toEqual([]);
  });

  it("is tight where a small fillet sits between long sides", () => {
    const found = move(regionOf([roundedPolygon([vec(0, 0), vec(60, 0), vec(60, 40), vec(0, 40)], [1, 5, 5, 5])!]), -2.413);
    expect(found.runs.map((run) => run.kind)).toEqual(["tight"]);
    // The fillet's quarter, pi / 2, and what the mitre takes beyond it: 2 (2.413 - 1).
    expect(Math.abs(found.runs[0]!.length - (Math.PI / 2 + 2 * 1.413))).toBeLessThan(0.1);
  });

  it("cannot be asked of no move", () => {
    expect(() => swallowed([], 0, [])).toThrow(RangeError);
  });
});
