import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { roundedPolygon } from "../../src/geometry/arc.ts";
import { uniteRings } from "../../src/geometry/clipper.ts";
import { fitArc, fitCircle } from "../../src/geometry/fit-arc.ts";
import { fitCubic } from "../../src/geometry/fit-cubic.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import { open } from "../../src/geometry/morphology.ts";
import { nearestOnPath } from "../../src/geometry/nearest.ts";
import { offsetRegion } from "../../src/geometry/offset.ts";
import { pathsOf, regionOf } from "../../src/geometry/outline.ts";
import { asCircle, circle, cubic, polygon, rectangle, type Path } from "../../src/geometry/path.ts";
import { outlinesOf, refitRing } from "../../src/geometry/refit.ts";
import { ringArea, ringsOf, type Region, type Ring } from "../../src/geometry/region.ts";
import { ringIndex } from "../../src/geometry/ring-index.ts";
import { piecesOf, tangentAt } from "../../src/geometry/segment.ts";
import { selfCrossings } from "../../src/geometry/self-crossing.ts";
import { thinRing } from "../../src/geometry/thin.ts";
import { pathArea } from "../../src/geometry/measure.ts";
import { REFIT, THIN } from "../../src/geometry/tolerance.ts";
import { angleBetween, distance, polar, unit, vec } from "../../src/geometry/vec.ts";
import { FRAMES, placePath, placeRing } from "./frames.ts";
import { glyphPaths } from "./glyph.ts";
import { bodyPath, ellipseRing, wavyRing } from "./shapes.ts";

const kinds = (path: Path): string => path.segments.map((s) => s.kind[0]).join("");
const count = (paths: readonly Path[], kind: string): number =>
  paths.flatMap((p) => p.segments).filter((s) => s.kind === kind).length;

/** Greatest distance between a ring and a path, looked at from points of both. */
function apart(ring: Ring, path: Path): number {
  const index = ringIndex([ring], 0.05);
  const fromPath = flatten(path, 0.001).map((p) => index.distanceWithin(p, 0.05) ?? Infinity);
  const fromRing = ring.map((p) => nearestOnPath(path, p).distance);
  return Math.max(...fromPath, ...fromRing);
}

/** Greatest turn, radians, at a joint that is no corner. */
const kinks = (path: Path, corner: number): number => {
  const pieces = piecesOf(path);
  const turns = pieces.map((piece, i) =>
    Math.abs(angleBetween(tangentAt(piece, 1)!, tangentAt(pieces[(i + 1) % pieces.length]!, 0)!)),
  );
  return Math.max(0, ...turns.filter((turn) => turn < corner));
};

describe("thinning", () => {
  it("moves no point further than the tolerance from the ring, and keeps only points of it", () => {
    for (const ring of [wavyRing(30, 4, 7, 3000), ellipseRing(20, 8, 1440), flatten(bodyPath())]) {
      const thin = thinRing(ring);
      expect(thin.length).toBeLessThan(ring.length);
      let worst = 0;
      const known = new Set(ring);
      expect(thin.every((p) => known.has(p))).toBe(true);
      const index = ringIndex([thin], 2 * THIN);
      for (const p of ring) worst = Math.max(worst, index.distanceWithin(p, 2 * THIN) ?? Infinity);
      expect(worst).toBeLessThanOrEqual(THIN);
    }
  });

  it("keeps the ends of straight sides where they run smoothly into arcs", () => {
    for (const radius of [6, 60, 120]) {
      const path = roundedPolygon([vec(0, 0), vec(500, 0), vec(500, 300), vec(0, 300)], [radius, radius, radius, radius])!;
      const thin = thinRing(flatten(path, 1e-5));
      for (const { from, segment } of piecesOf(path)) {
        if (segment.kind !== "line") continue;
        for (const end of [from, segment.to]) expect(Math.min(...thin.map((p) => distance(p, end)))).toBeLessThan(1e-9);
      }
    }
  });

  it("leaves a triangle and a rectangle alone, and a line's doubled points out", () => {
    const square: Ring = [vec(0, 0), vec(1, 0), vec(1, 1), vec(0, 1)];
    expect(thinRing(square)).toBe(square);
    const many = Array.from({ length: 40 }, (_, i) => vec(i, 0));
    expect(thinRing([...many, vec(39, 9), vec(0, 9)])).toHaveLength(4);
  });
});

describe("fitting", () => {
  it("finds the arc that points were taken from, and none where they were not", () => {
    const centre = vec(3, -2);
    for (const [from, sweep] of [
      [0.3, 1.1],
      [2, -3],
      [-1, 3.4],
    ] as const) {
      const points = Array.from({ length: 12 }, (_, i) => polar(centre, 7, from + (sweep * i) / 11));
      const found = fitArc(points, 1e-6)!;
      expect(distance(found.centre, centre)).toBeLessThan(1e-9);
      expect(found.ccw).toBe(sweep > 0);
    }
    expect(fitArc(ellipseRing(20, 8, 100).slice(0, 30), 0.001)).toBeUndefined();
    expect(fitArc([vec(0, 0), vec(1, 0), vec(2, 0)], 0.001)).toBeUndefined();
    expect(fitCircle(ellipseRing(20, 19.99, 100), 0.001)).toBeUndefined();
    expect(fitCircle(ellipseRing(20, 20, 100), 0.001)?.radius).toBeCloseTo(20, 9);
  });

  it("gives a cubic back from points on it", () => {
    const [piece] = piecesOf(bodyPath());
    const points = flatten({ start: piece!.from, segments: [piece!.segment], closed: false }, 0.0005);
    const fitted = fitCubic(points, tangentAt(piece!, 0)!, tangentAt(piece!, 1)!, 0.003)!;
    if (piece!.segment.kind !== "cubic") throw new Error("a cubic was meant");
    expect(distance(fitted[1], piece!.segment.c1)).toBeLessThan(0.05);
    expect(distance(fitted[2], piece!.segment.c2)).toBeLessThan(0.05);
  });

  it("gives none that runs forth and back along its points", () => {
    // Between two arcs of an offset: the least squares want handles four times as long as the way.
    const points = [vec(2.5523, 1.7911), vec(2.26, 1.908), vec(2.1883, 1.9338)];
    const found = fitCubic(points, unit(vec(-1.7152, 0.6859)), unit(vec(-0.5092, 0.1968)), 0.003);
    const way: Path = { start: points[0]!, segments: found ? [cubic(found[1], found[2], found[3])] : [], closed: false };
    const xs = flatten(way, 1e-5).map(({ x }) => x);
    expect(Math.min(...xs)).toBeGreaterThan(2.1883 - 0.003);
    expect(Math.max(...xs)).toBeLessThan(2.5523 + 0.003);
  });

  it("refuses what no cubic can follow", () => {
    const ring = wavyRing(30, 4, 7, 500);
    expect(fitCubic(ring, vec(0, 1), vec(0, 1), 0.003)).toBeUndefined();
  });
});

describe.each(FRAMES)("refitting %s", (_, frame) => {
  const refit = (ring: Ring): Path => refitRing(placeRing(frame, ring));

  it("keeps polygons as they are", () => {
    const star = Array.from({ length: 10 }, (_, i) => polar(vec(0, 0), i % 2 ? 12 : 30, (i * Math.PI) / 5));
    expect(kinds(refit(star))).toBe("llllllllll");
    expect(Math.abs(pathArea(refit(star)) - ringArea(star))).toBeLessThan(1e-6);
    // Corners of only 15 degrees are corners too.
    expect(kinds(refit(ellipseRing(60, 60, 24)))).toBe("l".repeat(24));
  });

  it("finds lines and true arcs again", () => {
    const path = roundedPolygon([vec(0, 0), vec(50, 0), vec(60, 20), vec(0, 20)], [3, 5, 2, 4])!;
    const found = refit(flatten(path));
    expect(count([found], "line")).toBe(4);
    expect(count([found], "arc")).toBe(4);
    expect(count([found], "cubic")).toBe(0);
    const radii = piecesOf(found).flatMap(({ from, segment }) =>
      segment.kind === "arc" ? [distance(from, segment.centre)] : [],
    );
    for (const [i, r] of radii.toSorted((a, b) => a - b).entries()) expect(Math.abs(r - [2, 3, 4, 5][i]!)).toBeLessThan(0.01);
    expect(kinks(found, 0.3)).toBeLessThan(0.02);
  });

  it("finds circles again, holes run clockwise", () => {
    const found = asCircle(refit(flatten(circle(vec(3, 4), 10))))!;
    expect(found.radius).toBeCloseTo(10, 4);
    expect(pathArea(refit(flatten(circle(vec(3, 4), 10)).toReversed()))).toBeLessThan(-300);
  });

  it("keeps within 0.003 of the ring on smooth outlines, in few cubics that meet without a kink", () => {
    for (const [ring, most] of [
      [ellipseRing(20, 8, 720), 14],
      [wavyRing(30, 4, 7, 1000), 70],
      [flatten(bodyPath()), 30],
    ] as const) {
      const placed = placeRing(frame, ring);
      const found = refitRing(placed);
      expect(apart(placed, found)).toBeLessThanOrEqual(REFIT + THIN);
      expect(apart(thinRing(placed), found)).toBeLessThanOrEqual(REFIT);
      expect(found.segments.length).toBeLessThan(most);
      expect(kinks(found, Math.PI)).toBeLessThan(0.01);
      expect(selfCrossings(found)).toEqual([]);
    }
  });

  it("draws a serif A's pocket in lines and arcs, worst miss under 0.01 mm", () => {
    const region = regionOf(glyphPaths("A", 20).map((path) => placePath(frame, path)));
    // The face's A has straight sides throughout; the pocket of a cutter of 0.254 rounds its outward corners.
    const pocket = offsetRegion(open(region, 0.229), 0.025);
    const paths = outlinesOf(pocket).flatMap(pathsOf);
    for (const [i, ring] of ringsOf(pocket).entries()) expect(apart(ring, paths[i]!)).toBeLessThan(0.0038);
    expect(count(paths, "cubic")).toBeLessThanOrEqual(2);
    expect(count(paths, "line")).toBeGreaterThanOrEqual(20);
    expect(paths.flatMap((p) => p.segments).length).toBeLessThanOrEqual(56);
  });
});

describe("refitting", () => {
  it("keeps its bound on letters, and their corners", () => {
    const letters: readonly [string, Region][] = [..."AGR&"].flatMap((letter) =>
      [8, 20].map((em): [string, Region] => [letter, regionOf(glyphPaths(letter, em))]),
    );
    for (const [letter, region] of letters) {
      const source = glyphPaths(letter, 20).flatMap((p) => p.segments).length;
      for (const shape of [region, offsetRegion(region, 0.254), offsetRegion(region, -0.1)]) {
        const paths = outlinesOf(shape).flatMap(pathsOf);
        for (const [i, ring] of ringsOf(shape).entries()) expect(apart(ring, paths[i]!)).toBeLessThanOrEqual(REFIT + THIN);
        expect(paths.flatMap((p) => p.segments).length).toBeLessThan(1.5 * source + 20);
      }
    }
    // The bars of an A end in right angles: they are there to the point.
    const [outer] = outlinesOf(letters[1]![1]);
    const corner = glyphPaths("A", 20)[0]!.start;
    expect(Math.min(...piecesOf(outer!.outer).map(({ from }) => distance(from, corner)))).toBeLessThan(2e-4);
  });

  it("keeps its bound on whatever waves come", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 80, noNaN: true }),
        fc.double({ min: 0, max: 1.5, noNaN: true }),
        fc.integer({ min: 2, max: 12 }),
        fc.integer({ min: 40, max: 900 }),
        (radius, wave, waves, points) => {
          const ring = wavyRing(radius, wave, waves, points);
          const path = refitRing(ring);
          expect(apart(thinRing(ring), path)).toBeLessThanOrEqual(REFIT + 1e-9);
          expect(Math.sign(pathArea(path))).toBe(1);
          expect(path.segments.at(-1)!.to).toEqual(path.start);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("is not led astray by the grid's noise: a rough copy needs about as many segments", () => {
    const noisy = (ring: Ring): Ring =>
      ring.map((p, i) => vec(Math.round(p.x * 1e4) / 1e4 + (i % 3) * 3e-5, Math.round(p.y * 1e4) / 1e4));
    const clean = refitRing(flatten(bodyPath(), 0.0002)).segments.length;
    expect(refitRing(noisy(flatten(bodyPath(), 0.0002))).segments.length).toBeLessThan(clean * 1.5 + 4);
  });

  it("keeps holes with their outers", () => {
    const plate = uniteRings([flatten(rectangle(0, 0, 40, 30)), flatten(circle(vec(20, 15), 8)).toReversed()]);
    const [outline] = outlinesOf(plate);
    expect(kinds(outline!.outer)).toBe("llll");
    expect(asCircle(outline!.holes[0]!)?.radius).toBeCloseTo(8, 3);
    expect(refitRing([vec(0, 0), vec(1, 0), vec(0, 1)])).toEqual(polygon([vec(0, 0), vec(1, 0), vec(0, 1)]));
  });
});
