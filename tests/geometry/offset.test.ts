import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { roundedPolygon } from "../../src/geometry/arc.ts";
import { uniteRings } from "../../src/geometry/clipper.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import { pathArea } from "../../src/geometry/measure.ts";
import { nearestOnPath } from "../../src/geometry/nearest.ts";
import { offsetOutlines, offsetPath, offsetRegion } from "../../src/geometry/offset.ts";
import { pathsOf, regionOf, type Outline } from "../../src/geometry/outline.ts";
import { asCircle, circle, cubic, line, polygon, rectangle, type Path } from "../../src/geometry/path.ts";
import { regionArea, ringArea } from "../../src/geometry/region.ts";
import { reversePath } from "../../src/geometry/segment.ts";
import { selfCrossings } from "../../src/geometry/self-crossing.ts";
import { scaling, transformPath, transformPoint } from "../../src/geometry/transform.ts";
import { add, distance, lerp, polar, scale, sub, vec, type Vec } from "../../src/geometry/vec.ts";
import { FRAMES, placePath } from "./frames.ts";
import { edgesApart, jtsCounts, jtsOffset, type Jts } from "./jts.ts";
import { bodyPath } from "./shapes.ts";

const kinds = (path: Path): string => path.segments.map((s) => s.kind[0]).join("");
/** Whether nothing is left but what one may count and the other not, or nothing at all. */
const areHairs = (ours: readonly Outline[], theirs: Jts): boolean =>
  theirs.getArea() + regionArea(regionOf(ours.flatMap(pathsOf))) < 0.01;

/** A closed wave of cubics through points at these distances from the origin, with a corner at the first if asked for. */
function wave(reaches: readonly number[], corner: boolean): Path {
  const at = (i: number): Vec => polar(vec(0, 0), reaches[i % reaches.length]!, (2 * Math.PI * i) / reaches.length);
  const last = reaches.length - 1;
  const handle = (i: number): Vec => scale(sub(at(i + 1), at(i + last)), 1 / 6);
  const segments = reaches.map((_, i) =>
    corner && i === 0
      ? cubic(lerp(at(0), at(1), 1 / 3), sub(at(1), handle(1)), at(1))
      : cubic(add(at(i), handle(i)), sub(at(i + 1), handle((i + 1) % reaches.length)), at(i + 1)),
  );
  return { start: at(0), segments, closed: true };
}
const rounded = roundedPolygon([vec(0, 0), vec(50, 0), vec(60, 20), vec(0, 20)], [3, 5, 2, 4])!;

describe.each(FRAMES)("an offset %s", (_, frame) => {
  const one = (path: Path, delta: number, join: "round" | "miter" = "round"): Path => {
    const outlines = offsetPath(placePath(frame, path), delta, join);
    expect(outlines).toHaveLength(1);
    expect(outlines[0]!.holes).toEqual([]);
    return outlines[0]!.outer;
  };

  it("of a circle is a circle, to rounding", () => {
    for (const delta of [-2.413, 2.413]) {
      const found = asCircle(one(circle(vec(3, 4), 10), delta))!;
      expect(found.radius).toBeCloseTo(10 + delta, 9);
      expect(distance(found.centre, transformPoint(frame, vec(3, 4)))).toBeLessThan(1e-9);
    }
    expect(offsetPath(placePath(frame, circle(vec(3, 4), 2)), -2.001)).toEqual([]);
  });

  it("of straight sides is straight and exact: mitred by formula, rounded by true arcs", () => {
    expect(kinds(one(rectangle(0, 0, 50, 20), -2.413))).toBe("llll");
    expect(pathArea(one(rectangle(0, 0, 50, 20), -2.413))).toBeCloseTo(45.174 * 15.174, 7);
    expect(pathArea(one(rectangle(0, 0, 50, 20), 2.413, "miter"))).toBeCloseTo(54.826 * 24.826, 7);
    expect(kinds(one(rectangle(0, 0, 50, 20), 2.413))).toBe("lalalala");
    // A + d L + pi d^2 for a convex shape (Steiner's formula).
    expect(pathArea(one(rectangle(0, 0, 50, 20), 2.413))).toBeCloseTo(1000 + 2.413 * 140 + Math.PI * 2.413 ** 2, 7);
  });

  it("of lines and arcs keeps their centres, and drops the arcs it uses up", () => {
    const out = one(rounded, 1.5);
    expect(kinds(out).split("").toSorted().join("")).toBe("aaaallll");
    expect(
      out.segments
        .flatMap((s) => (s.kind === "arc" ? [nearestOnPath(out, s.centre).distance] : []))
        .map((r) => Math.round(r * 1e6) / 1e6)
        .toSorted(),
    ).toEqual([3.5, 4.5, 5.5, 6.5]);
    const inside = one(rounded, -2.5);
    expect(kinds(inside).split("").toSorted().join("")).toBe("aaallll");
    // Every point of the moved edge stands at the distance.
    const edge = placePath(frame, rounded);
    for (const p of flatten(inside, 0.01)) expect(nearestOnPath(edge, p).distance).toBeCloseTo(2.5, 9);
  });

  it("of a body is within 0.01 mm of the distance everywhere, in few segments", () => {
    const edge = placePath(frame, bodyPath());
    for (const delta of [-2.413, 2.413, 10]) {
      const found = one(bodyPath(), delta);
      for (const p of flatten(found, 0.02))
        expect(Math.abs(nearestOnPath(edge, p).distance - Math.abs(delta))).toBeLessThan(0.006);
      expect(found.segments.length).toBeLessThan(50);
    }
  });

  it("agrees with JTS on the flattened shape", () => {
    const region = regionOf([placePath(frame, bodyPath())]);
    for (const delta of [-6, 3]) {
      const theirs = jtsOffset(region, delta);
      const ours = offsetRegion(region, delta);
      expect(edgesApart(ours, theirs)).toBeLessThan(0.0045);
      expect(Math.abs(regionArea(ours) - theirs.getArea())).toBeLessThan(0.001 * 1500);
    }
  });
});

describe("an offset", () => {
  it("does not mind which way the path is run", () => {
    expect(pathArea(offsetPath(reversePath(rounded), -1)[0]!.outer)).toBeCloseTo(pathArea(offsetPath(rounded, -1)[0]!.outer), 6);
    expect(asCircle(offsetPath(reversePath(circle(vec(0, 0), 5)), -1)[0]!.outer)?.radius).toBeCloseTo(4, 12);
  });

  it("moves holes the other way: a ring grows on both sides", () => {
    const [ring] = offsetOutlines([{ outer: circle(vec(0, 0), 50), holes: [circle(vec(0, 0), 20)] }], 2);
    expect(asCircle(ring!.outer)?.radius).toBeCloseTo(52, 12);
    expect(asCircle(ring!.holes[0]!)?.radius).toBeCloseTo(18, 12);
    expect(pathArea(ring!.holes[0]!)).toBeLessThan(0);
    expect(offsetOutlines([{ outer: circle(vec(0, 0), 50), holes: [circle(vec(0, 0), 20)] }], -15.001)).toEqual([]);
  });

  it("never takes a formula's word where far edges have met", () => {
    // A dumbbell whose neck of 4 closes: two parts, no lines left between them.
    const dumbbell = polygon([
      vec(0, -10),
      vec(20, -10),
      vec(20, -2),
      vec(40, -2),
      vec(40, -10),
      vec(60, -10),
      vec(60, 10),
      vec(40, 10),
      vec(40, 2),
      vec(20, 2),
      vec(20, 10),
      vec(0, 10),
    ]);
    const parts = offsetPath(dumbbell, -2.413);
    expect(parts).toHaveLength(2);
    // Each a square of 20 with 2.413 off all round, but for what the throat opens: round to the corners of the neck.
    for (const { outer } of parts) expect(pathArea(outer)).toBeGreaterThan(15.174 ** 2);
    // A C whose mouth of 2 closes when grown by 2 keeps a hole.
    const mouth = polygon([
      vec(0, 0),
      vec(30, 0),
      vec(30, 9),
      vec(25, 9),
      vec(25, 5),
      vec(5, 5),
      vec(5, 25),
      vec(25, 25),
      vec(25, 11),
      vec(30, 11),
      vec(30, 30),
      vec(0, 30),
    ]);
    const [closed] = offsetPath(mouth, 2, "miter");
    expect(closed!.holes).toHaveLength(1);
    expect(pathArea(closed!.outer)).toBeCloseTo(34 * 34, 6);
  });

  it("unites outlines that overlap or grow into each other", () => {
    const grown = offsetOutlines(
      [circle(vec(0, 0), 5), circle(vec(11, 0), 5)].map((outer) => ({ outer, holes: [] })),
      1,
    );
    expect(grown).toHaveLength(1);
    // Two circles of 6, centres 11 apart: 2 pi 36 - lens, lens = 2 r^2 acos(d / 2r) - (d / 2) sqrt(4 r^2 - d^2).
    const lens = 72 * Math.acos(11 / 12) - 5.5 * Math.sqrt(144 - 121);
    expect(Math.abs(pathArea(grown[0]!.outer) - (72 * Math.PI - lens))).toBeLessThan(0.1);
    expect(kinds(grown[0]!.outer)).toMatch(/^a+$/);
  });

  it("follows Steiner's formula on a smooth outline: the ellipse 40 x 16 in by 2.413 holds 298.823", () => {
    const [inside] = offsetPath(transformPath(scaling(20, 8), circle(vec(0, 0), 1)), -2.413);
    expect(Math.abs(pathArea(inside!.outer) - 298.823)).toBeLessThan(0.05);
    expect(inside!.outer.segments.length).toBeLessThan(16);
  });

  it("of whatever polygon with rounded corners agrees with JTS on the flattened shape", () => {
    const shape = fc
      .array(fc.record({ reach: fc.integer({ min: 12, max: 40 }), rounded: fc.integer({ min: 0, max: 6 }) }), {
        minLength: 3,
        maxLength: 9,
      })
      .map((corners) => {
        const points = corners.map(({ reach }, i) => polar(vec(0, 0), reach, (2 * Math.PI * i) / corners.length));
        return roundedPolygon(
          points,
          corners.map(({ rounded }) => rounded),
        );
      });
    let byFormula = 0;
    fc.assert(
      fc.property(shape, fc.integer({ min: -60, max: 60 }), (path, tenths) => {
        fc.pre(path !== undefined && tenths !== 0);
        const region = regionOf([path]);
        const outlines = offsetPath(path, tenths / 10);
        const theirs = jtsOffset(region, tenths / 10);
        if (areHairs(outlines, theirs)) return;
        const ours = outlines.map(({ outer, holes }) => ({ outer: flatten(outer), holes: holes.map((hole) => flatten(hole)) }));
        expect(jtsCounts(theirs).parts).toBe(outlines.length);
        expect(edgesApart(ours, theirs)).toBeLessThan(0.008);
        if (outlines.every(({ outer }) => !kinds(outer).includes("c"))) byFormula++;
      }),
      { numRuns: 60 },
    );
    expect(byFormula).toBeGreaterThan(30);
  });

  it("of whatever wave of cubics, with a corner or without, agrees with JTS on the flattened shape", () => {
    const shape = fc.record({
      reaches: fc.array(fc.integer({ min: 12, max: 40 }), { minLength: 4, maxLength: 9 }),
      corner: fc.boolean(),
    });
    let whole = 0;
    fc.assert(
      fc.property(shape, fc.integer({ min: -80, max: 80 }), ({ reaches, corner }, tenths) => {
        fc.pre(tenths !== 0);
        const path = wave(reaches, corner);
        fc.pre(selfCrossings(path).length === 0);
        const outlines = offsetPath(path, tenths / 10);
        const theirs = jtsOffset(regionOf([path]), tenths / 10);
        if (areHairs(outlines, theirs)) return;
        expect(jtsCounts(theirs).parts).toBe(outlines.length);
        expect(edgesApart(regionOf(outlines.flatMap(pathsOf)), theirs)).toBeLessThan(0.008);
        if (outlines.length === 1 && selfCrossings(outlines[0]!.outer).length === 0) whole++;
      }),
      { numRuns: 80 },
    );
    expect(whole).toBeGreaterThan(40);
  });

  it("of a path that crosses itself is that of what it covers, however it is run there", () => {
    // A fishtail at the left: it is run round the other way, and counts as covered.
    const crossing: Path = {
      start: vec(15.4, 14.8),
      segments: [
        line(vec(17.8, -5.4)),
        cubic(vec(5.7, -5.6), vec(-6.5, -8.1), vec(-19.7, -8.9)),
        cubic(vec(-7.8, -3.8), vec(6, 3.9), vec(18.6, 8.9)),
        cubic(vec(11.1, 10.6), vec(1.8, 12.2), vec(-5.6, 14.4)),
        cubic(vec(1.2, 15.4), vec(11.5, 18.1), vec(15.4, 14.8)),
      ],
      closed: true,
    };
    expect(selfCrossings(crossing).length).toBeGreaterThan(0);
    for (const delta of [-1, 0.7, 1.2]) {
      const outlines = offsetPath(crossing, delta);
      const theirs = jtsOffset(uniteRings([flatten(crossing)]), delta);
      expect(jtsCounts(theirs).parts).toBe(outlines.length);
      expect(Math.abs(regionArea(regionOf(outlines.flatMap(pathsOf))) - theirs.getArea())).toBeLessThan(0.3);
    }
  });

  it("refuses an open path and a distance that is no number", () => {
    expect(() => offsetPath({ ...rounded, closed: false }, 1)).toThrow(RangeError);
    expect(() => offsetPath(rounded, NaN)).toThrow(RangeError);
    expect(offsetRegion([], 1)).toEqual([]);
    expect(ringArea(flatten(offsetPath(rounded, 0)[0]!.outer))).toBeCloseTo(ringArea(flatten(rounded)), 2);
  });
});
