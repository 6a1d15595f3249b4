/** What the passes cover is measured by JTS (the npm package jsts): each pass as a line, grown by the cutter's radius. */
import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import BufferOp from "jsts/org/locationtech/jts/operation/buffer/BufferOp.js";
import { describe, expect, it } from "vitest";
import { arcOutlinesOf, regionOfArcs } from "../../src/geometry/arc-ring.ts";
import { uniteRings } from "../../src/geometry/clipper.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import { pathArea } from "../../src/geometry/measure.ts";
import type { Outline } from "../../src/geometry/outline.ts";
import { endOf, rectangle } from "../../src/geometry/path.ts";
import { regionArea } from "../../src/geometry/region.ts";
import { distance, vec } from "../../src/geometry/vec.ts";
import { clearPocket, type Clearing, type Pass } from "../../src/lutherie/inlay-clearing.ts";
import { inlayPair } from "../../src/lutherie/inlay-pair.ts";
import { jtsLeft, type Jts } from "../geometry/jts.ts";
import { faceById } from "../lettering/font-files.ts";
import { set } from "../lettering/spec.ts";

const factory = new GeometryFactory();

/** All that a cutter sweeps, grown by `more`. */
function swept(passes: readonly Pass[], radius: number, more = 0): Jts {
  const lines = passes.map(({ path }) => {
    const points = flatten(path, 0.0005);
    return factory.createLineString((path.closed ? [...points, points[0]!] : points).map(({ x, y }) => new Coordinate(x, y)));
  });
  return BufferOp.bufferOp(factory.createMultiLineString(lines), radius + more, 32) as unknown as Jts;
}

/** Both together; JTS joins what it buffers more surely than what it overlays. */
const together = (a: Jts, b: Jts): Jts =>
  BufferOp.bufferOp(factory.createGeometryCollection([a, b] as never), 1e-4, 32) as unknown as Jts;

const single = (radius: number, step: number): Clearing => ({ cutter: { radius, step }, first: undefined, travel: "against" });
const outlineOf = (outer: Outline["outer"]): Outline => ({ outer, holes: [] });

/** The pockets of letters, which their cutter reaches into every corner. */
function pocketsOf(text: string, capHeight: number, radius: number): readonly Outline[] {
  const { region } = set(faceById("cormorant-garamond"), text, { size: { by: "cap-height", value: capHeight } });
  return inlayPair(region, { pocketRadius: radius, pieceRadius: radius, gap: 0.05, share: 0.5, pieces: "apart", mend: "cut" })
    .curves.pocket;
}

/** Edges are held against each other this far apart, which is more than chords miss arcs by: edges on top of each other JTS cannot overlay. */
const OFF = 0.002;
/** Slivers that JTS may leave, mm2. */
const NOTHING = 1e-6;

describe("one cutter", () => {
  it.each(["R", "g", "&8"])("clears the pocket of %s to its edge and never leaves it", (text) => {
    const radius = 0.25;
    const pocket = pocketsOf(text, 20, radius);
    const { passes, unreached, missed } = clearPocket(pocket, single(radius, radius));
    const region = regionOfArcs(pocket, 0.0002);
    expect(jtsLeft(region, swept(passes, radius, OFF))).toBeLessThan(NOTHING);
    expect(jtsLeft(swept(passes, radius, -OFF), region)).toBeLessThan(NOTHING);
    expect([unreached, missed]).toEqual([[], []]);
  });

  it("misses what the formula says where the step exceeds the radius, and JTS finds as much", () => {
    // A strip of (2 step - 2 r) is left about the middle of a square of side 2 (r + step) + a, a above 0 and below 2 step.
    const pocket = [outlineOf(rectangle(0, 0, 20, 12))];
    const { passes, missed } = clearPocket(pocket, single(1, 1.7));
    const left = jtsLeft(regionOfArcs(pocket), swept(passes, 1));
    // The corners of the pocket itself, 4 (1 - pi / 4) r^2, are out of reach and counted apart.
    expect(regionArea(missed) + (4 - Math.PI)).toBeCloseTo(left, 2);
  });

  it("tells the corners that it cannot reach, (4 - pi) r^2 of a rectangle, and strips too narrow for it", () => {
    const rectangles = [outlineOf(rectangle(0, 0, 20, 12)), outlineOf(rectangle(30, 0, 31, 12))];
    const { unreached, passes } = clearPocket(rectangles, single(1, 0.8));
    expect(regionArea(unreached)).toBeCloseTo(4 - Math.PI + 12, 2);
    expect(passes.every(({ part }) => part === 0)).toBe(true);
  });

  it("goes from the middle out, and round islands too, the wall on the side that was asked for", () => {
    const ring = uniteRings([
      [vec(0, 0), vec(20, 0), vec(20, 20), vec(0, 20)],
      [vec(6, 14), vec(14, 14), vec(14, 6), vec(6, 6)],
    ]);
    for (const travel of ["against", "with"] as const) {
      const { passes } = clearPocket(arcOutlinesOf(ring), { cutter: { radius: 1, step: 1 }, first: undefined, travel });
      const levels = passes.map(({ level }) => level);
      expect(levels).toEqual(levels.toSorted((a, b) => b - a));
      // A cutter turning clockwise meets the wall with its turning where the wall is on its right: round the outside counter-clockwise.
      const wall = passes.filter(({ level }) => level === 0).map(({ path }) => pathArea(path));
      expect(wall.map(Math.sign).toSorted()).toEqual([-1, 1]);
      const outer = wall.reduce((a, b) => (Math.abs(a) > Math.abs(b) ? a : b));
      expect(outer > 0).toBe(travel === "with");
    }
  });

  it("is as long as area and perimeter say, within a tenth", () => {
    const { length, estimate } = clearPocket([outlineOf(rectangle(0, 0, 60, 40))], single(1, 0.9));
    expect(Math.abs(length / estimate - 1)).toBeLessThan(0.1);
  });
});

describe("two cutters", () => {
  it.each([
    ["R", 0, 0.2],
    ["R", 0.05, 0.2],
    ["&", 0, 0.1],
    ["g", 0.1, 0.25],
  ])("clear the pocket of %s together (allowance %f, step %f) and never leave it", (text, allowance, step) => {
    const [small, large] = [0.25, 0.6];
    const pocket = pocketsOf(text, 24, small);
    const { passes, missed } = clearPocket(pocket, {
      cutter: { radius: small, step },
      first: { radius: large, step: large * 0.8, allowance },
      travel: "against",
    });
    const [first, second] = [passes.filter(({ by }) => by === "first"), passes.filter(({ by }) => by === "cutter")];
    expect(first.length).toBeGreaterThan(0);
    const region = regionOfArcs(pocket, 0.0002);
    expect(jtsLeft(region, together(swept(first, large, OFF), swept(second, small, OFF)))).toBeLessThan(NOTHING);
    expect(jtsLeft(swept(second, small, -OFF), region)).toBeLessThan(NOTHING);
    // The large one keeps off the wall by the allowance.
    expect(jtsLeft(swept(first, large, allowance - OFF), region)).toBeLessThan(NOTHING);
    expect(missed).toEqual([]);
    // The small one does no more than it must: without the large one it would go further.
    const alone = clearPocket(pocket, single(small, step)).length;
    expect(second.reduce((sum, { path }) => sum + lengthOf(path), 0)).toBeLessThan(0.95 * alone);
    expect(passes.indexOf(second[0]!)).toBeGreaterThanOrEqual(
      passes.filter(({ by, part }) => by === "first" && part === 0).length,
    );
  });

  it("leaves corners to the small one as open runs", () => {
    const { passes } = clearPocket([outlineOf(rectangle(0, 0, 20, 12))], {
      cutter: { radius: 0.5, step: 0.5 },
      first: { radius: 2, step: 2, allowance: 0 },
      travel: "with",
    });
    const runs = passes.filter(({ by }) => by === "cutter");
    expect(runs.filter(({ level }) => level === 0)).toHaveLength(4);
    for (const { path } of runs) {
      expect(path.closed).toBe(false);
      const corner = [vec(0, 0), vec(20, 0), vec(20, 12), vec(0, 12)].map((p) => distance(p, path.start));
      expect(Math.min(...corner)).toBeLessThan(3);
      expect(distance(endOf(path), path.start)).toBeGreaterThan(0);
    }
  });
});

describe("what is asked for wrongly", () => {
  const pocket = [outlineOf(rectangle(0, 0, 20, 12))];
  it.each([
    [{ ...single(0, 1) }],
    [{ ...single(1, 0) }],
    [{ ...single(1, 2.1) }],
    [{ ...single(1, 1), first: { radius: 1, step: 1, allowance: 0 } }],
    [{ ...single(1, 1), first: { radius: 2, step: 1, allowance: -0.1 } }],
  ] as [Clearing][])("throws: %j", (clearing) => {
    expect(() => clearPocket(pocket, clearing)).toThrow(RangeError);
  });
});

const lengthOf = (path: Pass["path"]): number => {
  const points = flatten(path, 0.001);
  const all = path.closed ? [...points, points[0]!] : points;
  return all.slice(1).reduce((sum, p, i) => sum + distance(p, all[i]!), 0);
};
