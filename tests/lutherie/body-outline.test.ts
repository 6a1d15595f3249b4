import * as fc from "fast-check";
import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import { describe, expect, it } from "vitest";
import { flatten } from "../../src/geometry/flatten.ts";
import { pathArea, pathBounds, pathLength } from "../../src/geometry/measure.ts";
import { curvatureAt, piecesOf, tangentAt } from "../../src/geometry/segment.ts";
import {
  bodyRefusal,
  halfOutline,
  halfWidthAt,
  outlineNodes,
  wholeOutline,
  type BodySizes,
} from "../../src/lutherie/body-outline.ts";
import { SMALL } from "./small-body.ts";

const share = fc.double({ min: 0.05, max: 0.95, noNaN: true });
/** Any accepted body: stations and widths as shares of what is left. */
const bodies = fc
  .record({
    a: share,
    b: share,
    c: share,
    upper: share,
    waist: share,
    neck: share,
    tail: share,
    f1: share,
    f2: share,
    f3: share,
    f4: share,
    f5: share,
  })
  .map((r): BodySizes => {
    const [length, lowerBout] = [490, 390];
    const lowerBoutAt = length * (0.3 + 0.65 * r.a);
    const waistAt = lowerBoutAt * r.b;
    const upperBout = 150 + 250 * r.upper;
    return {
      length,
      lowerBout,
      lowerBoutAt,
      waistAt,
      upperBoutAt: waistAt * r.c,
      upperBout,
      waist: Math.min(upperBout, lowerBout) * r.waist,
      neckFlat: upperBout * r.neck,
      tailFlat: lowerBout * r.tail,
      shoulderFullness: r.f1,
      upperFullness: r.f2,
      waistFullness: r.f3,
      lowerFullness: r.f4,
      tailFullness: r.f5,
    };
  });

const factory = new GeometryFactory();

describe("halfOutline", () => {
  it("passes the given widths at the given stations, level there and upright at both ends", () => {
    const half = halfOutline(SMALL);
    expect(half.start).toEqual({ x: 490, y: 0 });
    expect(half.segments.at(-1)!.to).toEqual({ x: 0, y: 0 });
    expect(half.segments.slice(0, 3).map(({ to }) => to)).toEqual([
      { x: 360, y: 195 },
      { x: 190, y: 120 },
      { x: 90, y: 142.5 },
    ]);
    const pieces = piecesOf(half);
    for (const piece of pieces.slice(0, 3)) expect(tangentAt(piece, 1)!.x).toBeCloseTo(-1, 12);
    expect(tangentAt(pieces[0]!, 0)!.y).toBeCloseTo(1, 12);
    expect(tangentAt(pieces[3]!, 1)!.y).toBeCloseTo(-1, 12);
  });

  it("has one curvature on both sides of every bout and of the waist, that of the node's radius", () => {
    fc.assert(
      fc.property(bodies, (sizes) => {
        const pieces = piecesOf(halfOutline(sizes)).filter(({ segment }) => segment.kind === "cubic");
        const { lower, waist, upper } = outlineNodes(sizes);
        [lower, waist, upper].forEach(({ radius }, i) => {
          const bend = (i === 1 ? -1 : 1) / radius;
          expect(curvatureAt(pieces[i]!, 1) / bend).toBeCloseTo(1, 8);
          expect(curvatureAt(pieces[i + 1]!, 0) / bend).toBeCloseTo(1, 8);
        });
      }),
    );
  });

  it("never runs back along the body and never exceeds its own measures", () => {
    fc.assert(
      fc.property(bodies, (sizes) => {
        expect(bodyRefusal(sizes)).toBeUndefined();
        const points = flatten(halfOutline(sizes), 0.05);
        points.slice(1).forEach((p, i) => expect(p.x).toBeLessThanOrEqual(points[i]!.x + 1e-9));
        const { minX, maxX, minY, maxY } = pathBounds(halfOutline(sizes));
        for (const off of [minX, maxX - 490, minY]) expect(off).toBeCloseTo(0, 9);
        expect(maxY).toBeCloseTo(Math.max(sizes.lowerBout, sizes.upperBout) / 2, 9);
      }),
    );
  });
});

describe("the whole body", () => {
  const whole = wholeOutline(halfOutline(SMALL), halfOutline(SMALL));
  const ring = flatten(whole, 1e-4);

  it("has the area that JTS measures on a fine polygon and that Simpson's rule gives from the half widths", () => {
    const coordinates = [...ring, ring[0]!].map(({ x, y }) => new Coordinate(x, y));
    const polygon = factory.createPolygon(factory.createLinearRing(coordinates));
    expect(pathArea(whole)).toBeGreaterThan(0);
    expect(Math.abs(pathArea(whole) - polygon.getArea())).toBeLessThan(0.2);
    expect(Math.abs(pathLength(whole) - polygon.getLength())).toBeLessThan(0.01);
    // By x = sin²: the ends are steep there.
    const n = 4000;
    let sum = 0;
    for (let i = 0; i <= n; i += 1) {
      const u = (Math.PI / 2) * (i / n);
      const weight = i === 0 || i === n ? 1 : i % 2 ? 4 : 2;
      sum += weight * halfWidthAt(SMALL, 490 * Math.sin(u) ** 2) * 490 * Math.sin(2 * u);
    }
    expect(Math.abs(pathArea(whole) - (2 * sum * Math.PI) / (6 * n))).toBeLessThan(0.5);
  });

  it("is closed, runs counter-clockwise and is its own mirror image", () => {
    expect(whole.closed).toBe(true);
    expect(whole.segments.at(-1)!.to).toEqual(whole.start);
    const half = halfOutline(SMALL);
    expect(pathLength(whole)).toBeCloseTo(2 * pathLength(half), 6);
    expect(pathBounds(whole).minY).toBeCloseTo(-195, 9);
  });

  it("gives the half width at any place, the measures at theirs", () => {
    for (const [x, half] of [
      [90, 142.5],
      [190, 120],
      [360, 195],
      [0, 30],
      [490, 0],
    ] as const)
      expect(halfWidthAt(SMALL, x)).toBeCloseTo(half, 9);
    expect(halfWidthAt({ ...SMALL, tailFlat: 80 }, 490)).toBe(40);
    expect(() => halfWidthAt(SMALL, -1)).toThrow(RangeError);
    expect(() => halfWidthAt(SMALL, Number.NaN)).toThrow(RangeError);
  });
});

describe("bodyRefusal", () => {
  it.each([
    [{ waistAt: 400 }, "follow one another"],
    [{ lowerBoutAt: 490 }, "follow one another"],
    [{ waist: 285 }, "waist"],
    [{ neckFlat: 285 }, "neck"],
    [{ tailFlat: -1 }, "tail"],
    [{ waistFullness: 1 }, "fullness"],
    [{ length: Number.NaN }, "number"],
  ])("names what is wrong with %o", (wrong, word) => {
    expect(bodyRefusal({ ...SMALL, ...wrong })).toContain(word);
    expect(() => halfOutline({ ...SMALL, ...wrong })).toThrow(RangeError);
  });
});
