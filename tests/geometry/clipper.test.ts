import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { difference, exclusive, intersection, offsetRings, uniteRings, union } from "../../src/geometry/clipper.ts";
import { polygon } from "../../src/geometry/path.ts";
import { countsOf, regionArea, ringArea, type Region, type Ring } from "../../src/geometry/region.ts";
import { selfCrossings } from "../../src/geometry/self-crossing.ts";
import { transformPoint } from "../../src/geometry/transform.ts";
import { add, distance, polar, vec, type Vec } from "../../src/geometry/vec.ts";
import { FRAMES, placeRegion, placeRing } from "./frames.ts";
import { edgesApart, jtsCounts, jtsDifference, jtsExclusive, jtsIntersection, jtsOffset, jtsUnion } from "./jts.ts";
import { ellipseRing, wavyRing } from "./shapes.ts";

const square = (x: number, y: number, size: number): Ring => [
  vec(x, y),
  vec(x + size, y),
  vec(x + size, y + size),
  vec(x, y + size),
];

/** What of a lies outside b, by more than the chords of round joins can account for. */
const excess = (a: Region, b: Region): number => regionArea(offsetRings(difference(a, b), -0.002));

describe.each(FRAMES)("clipping %s", (_, frame) => {
  const place = (ring: Ring): Ring => placeRing(frame, ring);

  it("unites what overlaps, and keeps the hole that three bars and a fourth enclose", () => {
    const bars = [
      [vec(0, 0), vec(10, 0), vec(10, 2), vec(0, 2)],
      [vec(0, 8), vec(10, 8), vec(10, 10), vec(0, 10)],
      [vec(0, 0), vec(2, 0), vec(2, 10), vec(0, 10)],
      [vec(8, 0), vec(10, 0), vec(10, 10), vec(8, 10)],
    ];
    const frameRegion = uniteRings(bars.map(place));
    expect(countsOf(frameRegion)).toEqual({ parts: 1, holes: 1 });
    expect(regionArea(frameRegion)).toBeCloseTo(64, 2);
  });

  it("winds outers counter-clockwise and holes clockwise, islands in holes being parts of their own", () => {
    const nested = difference(union(uniteRings([place(square(0, 0, 10))])), uniteRings([place(square(2, 2, 6))]));
    const withIsland = union(nested, uniteRings([place(square(4, 4, 2))]));
    expect(countsOf(withIsland)).toEqual({ parts: 2, holes: 1 });
    expect(regionArea(withIsland)).toBeCloseTo(68, 2);
    for (const { outer, holes } of withIsland) {
      expect(ringArea(outer)).toBeGreaterThan(0);
      for (const hole of holes) expect(ringArea(hole)).toBeLessThan(0);
    }
  });

  it("gives the textbook areas of two squares that overlap by a quarter", () => {
    const a = uniteRings([place(square(0, 0, 4))]);
    const b = uniteRings([place(square(2, 2, 4))]);
    expect(regionArea(union(a, b))).toBeCloseTo(28, 2);
    expect(regionArea(intersection(a, b))).toBeCloseTo(4, 2);
    expect(regionArea(difference(a, b))).toBeCloseTo(12, 2);
    expect(regionArea(exclusive(a, b))).toBeCloseTo(24, 2);
    expect(difference(a, a)).toEqual([]);
  });

  it("agrees with JTS on curved shapes: areas within 0.03 mm2, counts the same", () => {
    const a = uniteRings([place(wavyRing(30, 4, 7, 500))]);
    const b = uniteRings([place(ellipseRing(45, 14, 400))]);
    for (const [ours, theirs] of [
      [union(a, b), jtsUnion(a, b)],
      [difference(a, b), jtsDifference(a, b)],
      [intersection(a, b), jtsIntersection(a, b)],
      [exclusive(a, b), jtsExclusive(a, b)],
    ] as const) {
      expect(Math.abs(regionArea(ours) - theirs.getArea())).toBeLessThan(0.03);
      expect(edgesApart(ours, theirs)).toBeLessThan(0.0045);
    }
    expect(countsOf(difference(a, b))).toEqual(jtsCounts(jtsDifference(a, b)));
    expect(countsOf(difference(b, a))).toEqual(jtsCounts(jtsDifference(b, a)));
  });

  it("moves edges as JTS does: areas within 0.03 mm2, edges within 0.0045 mm", () => {
    const shapes: Region[] = [
      uniteRings([place(wavyRing(30, 4, 7, 700))]),
      difference(uniteRings([place(ellipseRing(45, 20, 600))]), uniteRings([place(ellipseRing(9, 9, 200))])),
    ];
    for (const shape of shapes)
      for (const delta of [-2.413, -0.254, 0.254, 2.413]) {
        const ours = offsetRings(shape, delta);
        const theirs = jtsOffset(shape, delta);
        expect(Math.abs(regionArea(ours) - theirs.getArea())).toBeLessThan(0.03);
        expect(edgesApart(ours, theirs)).toBeLessThan(0.0045);
        expect(countsOf(ours)).toEqual(jtsCounts(theirs));
      }
  });

  it("carries mitres on to their points: the corner of 10 degrees that the library alone would square off", () => {
    const tip = Math.tan((5 * Math.PI) / 180);
    const wedge = uniteRings([place([vec(0, 0), vec(40, -40 * tip), vec(40, 40 * tip)])]);
    const grown = offsetRings(wedge, 1, "miter");
    // The tip moves out by 1 / sin 5 deg = 11.4737.
    const at = transformPoint(frame, vec(-1 / Math.sin((5 * Math.PI) / 180), 0));
    expect(Math.min(...grown[0]!.outer.map((p) => distance(p, at)))).toBeLessThan(0.003);
    expect(grown[0]!.outer).toHaveLength(3);
  });
});

describe("clipping", () => {
  it("comes out the same far away, point by point, since the grid goes with the shape", () => {
    const ring = wavyRing(30, 4, 7, 500);
    const [here] = offsetRings(uniteRings([ring]), -1);
    for (const by of [vec(300.00003, 300), vec(5000.12347, -5000.00004), vec(60_000.00001, 0)]) {
      const [there] = offsetRings(uniteRings([ring.map((p) => add(p, by))]), -1);
      expect(there!.outer).toHaveLength(here!.outer.length);
      for (const [i, p] of here!.outer.entries()) expect(distance(there!.outer[i]!, add(p, by))).toBeLessThan(1e-8);
    }
  });

  it("refuses what is not a number instead of giving nothing", () => {
    for (const bad of [NaN, Infinity, -Infinity]) {
      expect(() => uniteRings([[vec(0, 0), vec(bad, 0), vec(1, 1)]])).toThrow(/clipping: a point stands at/);
      expect(() => offsetRings(uniteRings([square(0, 0, 1)]), bad)).toThrow(RangeError);
    }
  });

  it("throws where the library would call alert", () => {
    // Past 4.5e15 units the library gives up.
    expect(() => uniteRings([square(0, 0, 1e12)])).toThrow(/clipping: /);
  });

  it("refuses to move rings that run the wrong way round", () => {
    const clockwise: Region = [{ outer: square(0, 0, 4).toReversed(), holes: [] }];
    expect(() => offsetRings(clockwise, 1)).toThrow(/wrong way/);
    const hole: Region = [{ outer: square(0, 0, 9), holes: [square(2, 2, 3)] }];
    expect(() => offsetRings(hole, 1)).toThrow(/wrong way/);
  });

  it("makes sense of rings of opposite winding, which the library's offset alone turns to junk", () => {
    const both = uniteRings([square(0, 0, 10), square(20, 0, 10).toReversed()]);
    expect(regionArea(offsetRings(both, -1))).toBeCloseTo(128, 3);
    expect(regionArea(offsetRings(uniteRings([square(0, 0, 10), square(5, 5, 10)]), 1, "miter"))).toBeCloseTo(
      12 * 12 * 2 - 7 * 7,
      3,
    );
  });

  it("gives nothing back for nothing, and the region itself for no move", () => {
    expect(uniteRings([])).toEqual([]);
    expect(uniteRings([[vec(0, 0), vec(1, 0)]])).toEqual([]);
    expect(offsetRings([], 1)).toEqual([]);
    const region = uniteRings([square(0, 0, 1)]);
    expect(offsetRings(region, 0)).toBe(region);
    expect(offsetRings(region, -0.5001)).toEqual([]);
  });

  it("drops specks no wider than the grid", () => {
    expect(uniteRings([square(0, 0, 5), square(8, 8, 0.00004)])).toHaveLength(1);
    expect(uniteRings([[vec(0, 0), vec(50, 0), vec(50, 0.0001), vec(0, 0.0001)]])).toEqual([]);
  });

  it("inset never grows and outset never shrinks, and out then in holds what was there", () => {
    const shape = fc
      .record({
        radius: fc.double({ min: 5, max: 60, noNaN: true }),
        wave: fc.double({ min: 0, max: 4, noNaN: true }),
        count: fc.integer({ min: 2, max: 9 }),
        cut: fc.double({ min: 1, max: 20, noNaN: true }),
      })
      .map(({ radius, wave, count, cut }) =>
        difference(uniteRings([wavyRing(radius, wave, count, 160)]), uniteRings([square(radius - cut, -cut / 2, cut)])),
      );
    fc.assert(
      fc.property(shape, fc.double({ min: 0.05, max: 4, noNaN: true }), (region, d) => {
        expect(excess(offsetRings(region, -d), region)).toBe(0);
        expect(excess(region, offsetRings(region, d))).toBe(0);
        expect(excess(region, offsetRings(offsetRings(region, d), -d))).toBe(0);
        expect(excess(offsetRings(offsetRings(region, -d), d), region)).toBe(0);
      }),
      { numRuns: 40 },
    );
  });

  it("keeps round joins within 0.001 of the true arc", () => {
    for (const delta of [0.254, 2.413, 20, 150]) {
      for (const { x, y } of offsetRings(uniteRings([square(0, 0, 1)]), delta)[0]!.outer.flatMap((p, i, ring) => {
        const q = ring[(i + 1) % ring.length]!;
        return [p, vec((p.x + q.x) / 2, (p.y + q.y) / 2)];
      })) {
        const away = Math.hypot(Math.max(0, -x, x - 1), Math.max(0, -y, y - 1));
        expect(Math.abs(away - delta)).toBeLessThan(0.001 + 1e-4);
      }
    }
  });

  it("rounds the tip of a notch, whatever side too short for the grid lies there", () => {
    const notched = (half: number, tip: readonly Vec[]): Ring => [
      vec(0, 0),
      vec(60, 0),
      vec(60, 40),
      vec(30 + half, 40),
      ...tip,
      vec(30 - half, 40),
      vec(0, 40),
    ];
    let simple = 0;
    const area = (ring: Ring): number => regionArea(offsetRings([{ outer: ring, holes: [] }], -2));
    fc.assert(
      fc.property(
        fc.integer({ min: 300, max: 5000 }).map((um) => um / 1000),
        fc.integer({ min: 0, max: 6283 }).map((milli) => milli / 1000),
        fc.constantFrom(1e-4, 2e-4, 4e-4),
        fc.integer({ min: 30_000, max: 31_000 }).map((um) => um / 1000),
        (half, angle, side, x) => {
          const tip = vec(x, 20);
          const short = notched(half, [tip, add(tip, polar(vec(0, 0), side, angle))]);
          if (selfCrossings(polygon(short)).length > 0) return;
          simple++;
          expect(Math.abs(area(short) - area(notched(half, [tip])))).toBeLessThan(0.1);
        },
      ),
      { numRuns: 1000 },
    );
    expect(simple).toBeGreaterThan(200);
  });

  it("places regions without changing them (the frames of these tests)", () => {
    const region = difference(uniteRings([square(0, 0, 9)]), uniteRings([square(2, 2, 3)]));
    for (const [, frame] of FRAMES) expect(regionArea(placeRegion(frame, region))).toBeCloseTo(72, 6);
  });
});
