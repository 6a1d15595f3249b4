import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { closeArcsApart, openArcs } from "../../src/geometry/arc-morphology.ts";
import { offsetArcs } from "../../src/geometry/arc-offset.ts";
import { arcOutlinesOf, arcRing, regionOfArcs } from "../../src/geometry/arc-ring.ts";
import { roundedPolygon } from "../../src/geometry/arc.ts";
import { uniteRings } from "../../src/geometry/clipper.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import { pathArea } from "../../src/geometry/measure.ts";
import { nearestOnPath } from "../../src/geometry/nearest.ts";
import { pathsOf, type Outline } from "../../src/geometry/outline.ts";
import { asCircle, circle, cubic, polygon, rectangle, type Path } from "../../src/geometry/path.ts";
import { countsOf, regionArea, regionPerimeter, ringsOf, type Ring } from "../../src/geometry/region.ts";
import { ringIndex } from "../../src/geometry/ring-index.ts";
import { polar, vec } from "../../src/geometry/vec.ts";
import { FRAMES, placePath, placeRegion } from "./frames.ts";
import { jtsCounts, jtsOffset } from "./jts.ts";
import { bodyPath, wavyRing } from "./shapes.ts";

const solid = (outer: Path): Outline => ({ outer, holes: [] });
const areaOf = (outlines: readonly Outline[]): number => outlines.flatMap(pathsOf).reduce((sum, path) => sum + pathArea(path), 0);

describe.each(FRAMES)("lines and arcs moved, %s", (_, frame) => {
  const place = (path: Path): Outline => solid(placePath(frame, path));

  it("gives the areas of the closed forms", () => {
    const box = [place(rectangle(0, 0, 50, 20))];
    // A convex shape grows by d L + pi d^2 (Steiner); moved in, a rectangle stays one.
    expect(areaOf(offsetArcs(box, 2.413))).toBeCloseTo(1000 + 2.413 * 140 + Math.PI * 2.413 ** 2, 6);
    expect(areaOf(offsetArcs(box, -2.413))).toBeCloseTo(45.174 * 15.174, 6);
    // Opening takes (4 - pi) r^2 from the four corners.
    expect(areaOf(openArcs(box, 3))).toBeCloseTo(1000 - (4 - Math.PI) * 9, 6);
    // Closing adds (1 - pi / 4) r^2 in the one inward corner of an L.
    const ell = [place(polygon([vec(0, 0), vec(6, 0), vec(6, 2), vec(2, 2), vec(2, 6), vec(0, 6)]))];
    expect(areaOf(closeArcsApart(ell, 0, 0.229, []).closed)).toBeCloseTo(20 + (1 - Math.PI / 4) * 0.229 ** 2, 8);
    expect(offsetArcs(box, -10.001)).toEqual([]);
  });

  it("keeps every point of the moved edge at the distance, arcs as arcs", () => {
    const rounded = placePath(frame, roundedPolygon([vec(0, 0), vec(50, 0), vec(60, 20), vec(0, 20)], [3, 5, 2, 4])!);
    for (const delta of [-2.5, -1, 1.5, 6])
      for (const p of offsetArcs([solid(rounded)], delta)
        .flatMap(pathsOf)
        .flatMap((path) => flatten(path, 0.01)))
        expect(nearestOnPath(rounded, p).distance).toBeCloseTo(Math.abs(delta), 7);
  });

  it("opens and closes two discs near to each other by the closed form", () => {
    // Discs of radius 1 at a distance of 2.4: the closing disc of radius b touches both, its centre at height sqrt((1 + b)^2 - 1.2^2).
    const b = 0.229;
    const height = Math.sqrt((1 + b) ** 2 - 1.2 ** 2);
    const angle = Math.atan2(1.2, height);
    // Kite of the four centres less two sectors of each kind.
    const bridge = 1.2 * height * 2 - 2 * (Math.PI / 2 - angle) - 2 * angle * b * b;
    const discs = [place(circle(vec(0, 0), 1)), place(circle(vec(2.4, 0), 1))];
    const closed = closeArcsApart(discs, 0, b, []).closed;
    expect(closed).toHaveLength(1);
    expect(areaOf(closed)).toBeCloseTo(2 * Math.PI + bridge, 6);
    // The bridge is thinner than the disc, so that opening cuts it again; the rest stays (an independent computation: 6.3092).
    const opened = openArcs(closed, b);
    expect(opened).toHaveLength(2);
    expect(Math.abs(areaOf(opened) - 6.3092)).toBeLessThan(0.005);
  });

  it("cuts a shape in two at a neck, and joins two at a slit", () => {
    const dumbbell = placeRegion(
      frame,
      uniteRings([
        flatten(circle(vec(0, 0), 10)),
        flatten(circle(vec(30, 0), 10)),
        [vec(0, -2), vec(30, -2), vec(30, 2), vec(0, 2)],
      ]),
    );
    expect(offsetArcs(arcOutlinesOf(dumbbell), -1.9)).toHaveLength(1);
    expect(offsetArcs(arcOutlinesOf(dumbbell), -2.413)).toHaveLength(2);
    const pair = [place(rectangle(0, 0, 4, 10)), place(rectangle(4.3, 0, 8.3, 10))];
    expect(offsetArcs(pair, 0.14)).toHaveLength(2);
    expect(offsetArcs(pair, 0.16)).toHaveLength(1);
  });
});

describe("against JTS", () => {
  it("agrees on crooked shapes with holes in area, and every point keeps its distance", () => {
    const crooked = fc
      .tuple(
        fc.array(fc.double({ min: 2, max: 10, noNaN: true }), { minLength: 5, maxLength: 14 }),
        fc.array(fc.double({ min: 0.3, max: 1.6, noNaN: true }), { minLength: 3, maxLength: 8 }),
        fc.boolean(),
      )
      .map(([outer, inner, round]): Ring[] => {
        const star = (radii: readonly number[], way: 1 | -1): Ring =>
          radii.map((r, i) => polar(vec(0, 0), r, (way * 2 * Math.PI * i) / radii.length));
        const body = star(outer, 1);
        return [round ? smooth(body) : body, star(inner, -1)];
      });
    fc.assert(
      fc.property(crooked, fc.integer({ min: 1, max: 1200 }), fc.constantFrom(-1, 1), (rings, microns, way) => {
        const delta = (way * microns) / 1000;
        const region = uniteRings(rings);
        const ours = offsetArcs(arcOutlinesOf(region), delta);
        const theirs = jtsOffset(region, delta);
        // Flattening took 0.001 of the given ring, arcs another 0.0005; JTS's own chords miss by 0.0002. Edges that meet at a flat angle cross
        // somewhere along it, so that areas are compared, and each point by its distance from the given edge.
        const moved = regionOfArcs(ours);
        expect(Math.abs(areaOf(ours) - theirs.getArea())).toBeLessThan(
          0.003 * (regionPerimeter(moved) + regionPerimeter(region)) + 0.02,
        );
        const index = ringIndex(ringsOf(region), 2);
        for (const p of ringsOf(moved).flat())
          expect(Math.abs(index.distanceWithin(p, 2)! - Math.abs(delta))).toBeLessThan(0.0025);
      }),
      { numRuns: 150 },
    );
  });

  it("agrees on a body's outline and on waves", () => {
    const shapes = [uniteRings([flatten(bodyPath())]), uniteRings([wavyRing(20, 1.5, 9, 3000)])];
    for (const region of shapes)
      for (const delta of [-6, -2.413, 1, 4]) {
        const ours = offsetArcs(arcOutlinesOf(region), delta);
        const theirs = jtsOffset(region, delta);
        expect(countsOf(regionOfArcs(ours))).toEqual(jtsCounts(theirs));
        expect(Math.abs(areaOf(ours) - theirs.getArea())).toBeLessThan(0.001 * regionOfArcs(ours).length * 2000);
      }
  });
});

/** A closed curve through the points, flattened. */
function smooth(points: Ring): Ring {
  const n = points.length;
  const at = (i: number): Ring[number] => points[((i % n) + n) % n]!;
  const segments = points.map((p, i) => {
    const [before, next, after] = [at(i - 1), at(i + 1), at(i + 2)];
    return cubic(
      vec(p.x + (next.x - before.x) / 8, p.y + (next.y - before.y) / 8),
      vec(next.x - (after.x - p.x) / 8, next.y - (after.y - p.y) / 8),
      next,
    );
  });
  return flatten({ start: points[0]!, segments, closed: true });
}

describe("a ring in lines and arcs", () => {
  it("is a circle where the ring stands round one, and keeps straight sides and corners", () => {
    expect(asCircle(arcRing(flatten(circle(vec(3, 4), 7))))!.radius).toBeCloseTo(7, 4);
    const corners = polygon([vec(0, 0), vec(6, 0), vec(6, 2), vec(2, 2), vec(2, 6), vec(0, 6)]);
    expect(arcRing(flatten(corners)).segments).toEqual(corners.segments);
  });

  it("keeps the area of a flattened curve better than its chords do", () => {
    const body = bodyPath();
    const region = uniteRings([flatten(body)]);
    const chords = Math.abs(regionArea(region) - pathArea(body));
    const arcs = Math.abs(areaOf(arcOutlinesOf(region)) - pathArea(body));
    expect(arcs).toBeLessThan(chords / 3);
    for (const p of ringsOf(region).flat())
      expect(nearestOnPath(arcOutlinesOf(region)[0]!.outer, p).distance).toBeLessThan(0.00051);
  });
});
