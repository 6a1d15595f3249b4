import * as fc from "fast-check";
import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import DistanceOp from "jsts/org/locationtech/jts/operation/distance/DistanceOp.js";
import { describe, expect, it } from "vitest";
import { flatten } from "../../src/geometry/flatten.ts";
import { distance, vec } from "../../src/geometry/vec.ts";
import { sectionFromContour } from "../../src/lutherie/neck-contour.ts";
import { facetAt } from "../../src/lutherie/neck-facets.ts";
import {
  exponentFromHalfDepth,
  fractionAtHalfDepth,
  NECK_SHAPES,
  pointAtHeight,
  sectionArea,
  sectionBetween,
  sectionPath,
  type NeckSection,
  type NeckStation,
} from "../../src/lutherie/neck-section.ts";
import { channelWalls, wallAt } from "../../src/lutherie/neck-walls.ts";

const even = (halfWidth: number, depth: number, exponent: number, lean = 0): NeckSection => ({
  halfWidth,
  depth,
  lean,
  bassExponent: exponent,
  trebleExponent: exponent,
});
const radians = (degrees: number): number => (degrees * Math.PI) / 180;

const exponents = fc.double({ min: 1, max: 8, noNaN: true });
const sections = fc
  .record({
    halfWidth: fc.double({ min: 15, max: 40, noNaN: true }),
    depth: fc.double({ min: 8, max: 30, noNaN: true }),
    share: fc.double({ min: -0.5, max: 0.5, noNaN: true }),
    bassExponent: exponents,
    trebleExponent: exponents,
  })
  .map(({ halfWidth, depth, share, bassExponent, trebleExponent }) => ({
    halfWidth,
    depth,
    lean: share * halfWidth,
    bassExponent,
    trebleExponent,
  }));

/** The curve as a dense polyline by height (our paths go by angle): |x - lean| = a (1 - (|y|/d)^p)^(1/p), y spaced closely at the ends. */
function dense(section: NeckSection, steps = 4000): { x: number; y: number }[] {
  const side = (sign: 1 | -1): { x: number; y: number }[] => {
    const a = section.halfWidth - sign * section.lean;
    const p = sign < 0 ? section.bassExponent : section.trebleExponent;
    return Array.from({ length: steps + 1 }, (_, i) => {
      const s = Math.sin((Math.PI / 2) * (i / steps)) ** 2;
      return { x: section.lean + sign * a * (1 - s ** p) ** (1 / p), y: -section.depth * s };
    });
  };
  return [...side(-1), ...side(1).toReversed()];
}

const factory = new GeometryFactory();
const lineString = (points: readonly { x: number; y: number }[]) =>
  factory.createLineString(points.map(({ x, y }) => new Coordinate(x, y)));

describe("shoulders", () => {
  it("gives exponent 2.00 for 0.866 and 2.25 for 0.90 of the width half way down", () => {
    // (1 - 2^-2)^(1/2) = sqrt(3)/2 = 0.8660; (1 - 2^-2.25)^(1/2.25) = 0.78978^0.44444 = 0.90046
    expect(exponentFromHalfDepth(0.866)).toBeCloseTo(2, 2);
    expect(exponentFromHalfDepth(0.9)).toBeCloseTo(2.25, 2);
    expect(exponentFromHalfDepth(Math.sqrt(3) / 2)).toBeCloseTo(2, 10);
    expect(exponentFromHalfDepth(0.5)).toBeCloseTo(1, 10);
  });

  it("finds every exponent back and has none for what no neck is", () => {
    fc.assert(
      fc.property(exponents, (p) => {
        expect(exponentFromHalfDepth(fractionAtHalfDepth(p))!).toBeCloseTo(p, 6);
      }),
    );
    for (const fraction of [0.49, 1, Number.NaN]) expect(exponentFromHalfDepth(fraction)).toBeUndefined();
    expect(() => fractionAtHalfDepth(0.9)).toThrow(RangeError);
  });

  it("names V, soft V, C, D and U from lean to full", () => {
    const values = [NECK_SHAPES.V, NECK_SHAPES["soft V"], NECK_SHAPES.C, NECK_SHAPES.D, NECK_SHAPES.U];
    expect(values).toEqual(values.toSorted((a, b) => a - b));
    expect(NECK_SHAPES.C).toBe(2);
  });

  it("measures the same fraction on the section itself", () => {
    const d = even(22, 15, NECK_SHAPES.D);
    expect(pointAtHeight(d, -7.5, 1).x / 22).toBeCloseTo(fractionAtHalfDepth(NECK_SHAPES.D), 12);
    expect(() => pointAtHeight(d, 1, 1)).toThrow(RangeError);
  });
});

describe("section", { timeout: 60_000 }, () => {
  it("has the area of a half ellipse, a triangle and, as the shoulders fill, a rectangle", () => {
    expect(sectionArea(even(22, 15, 2))).toBeCloseTo((Math.PI * 22 * 15) / 2, 7);
    expect(sectionArea(even(22, 15, 2, 6))).toBeCloseTo((Math.PI * 22 * 15) / 2, 7);
    expect(sectionArea(even(22, 15, 1))).toBeCloseTo(22 * 15, 7);
    expect(sectionArea(even(22, 15, 8))).toBeGreaterThan(0.98 * 2 * 22 * 15 - 10);
  });

  it("has the area that the shoelace formula gives for a dense polyline laid out by height", () => {
    fc.assert(
      fc.property(sections, (section) => {
        const ring = dense(section);
        let twice = 0;
        ring.forEach((p, i) => {
          const q = ring[(i + 1) % ring.length]!;
          twice += p.x * q.y - q.x * p.y;
        });
        expect(Math.abs(sectionArea(section) / (Math.abs(twice) / 2) - 1)).toBeLessThan(2e-5);
      }),
      { numRuns: 30 },
    );
  });

  it("draws a round neck as two true arcs and flat flanks as two straight lines", () => {
    const round = sectionPath(even(20, 20, 2));
    expect(round.segments.map(({ kind }) => kind)).toEqual(["arc", "arc"]);
    const flat = sectionPath(even(20, 15, 1, 3));
    expect(flat).toEqual({
      start: vec(-20, 0),
      segments: [
        { kind: "line", to: vec(3, -15) },
        { kind: "line", to: vec(20, 0) },
      ],
      closed: false,
    });
  });

  it("draws every section within 0.002 mm of its formula, from edge to edge over the back", () => {
    fc.assert(
      fc.property(sections, (section) => {
        const path = sectionPath(section, 1e-3);
        const drawn = flatten(path, 5e-4);
        expect([drawn[0], drawn.at(-1)]).toEqual([vec(-section.halfWidth, 0), vec(section.halfWidth, 0)]);
        for (const p of drawn.filter((_, i) => i % 5 === 0)) {
          const below = vec(p.x, Math.min(p.y, 0));
          expect(distance(p, wallAt(section, below).to)).toBeLessThan(2e-3);
        }
        expect(path.segments.length).toBeLessThan(60);
      }),
      { numRuns: 40 },
    );
  });

  it("refuses what has no size, leans out of itself or has impossible shoulders", () => {
    for (const bad of [even(0, 15, 2), even(22, Number.NaN, 2), even(22, 15, 0.5), even(22, 15, 9), even(22, 15, 2, 22)]) {
      expect(() => sectionPath(bad)).toThrow(RangeError);
      expect(() => sectionArea(bad)).toThrow(RangeError);
    }
  });
});

describe("sectionBetween", () => {
  const first: NeckStation = { x: 36, ...even(22, 15, 2) };
  const tenth: NeckStation = { x: 285, ...even(27, 17, 2.4, 1) };

  it("is each station at its own place and half way between in the middle", () => {
    expect(sectionBetween(first, tenth, 36)).toEqual(even(22, 15, 2));
    const middle = sectionBetween(first, tenth, 160.5);
    expect([middle.halfWidth, middle.depth, middle.lean, middle.bassExponent]).toEqual([24.5, 16, 0.5, 2.2]);
  });

  it("carries the taper on to the nut but not the shoulders", () => {
    const nut = sectionBetween(first, tenth, 0);
    // 22 - 36 x 5/249 and 15 - 36 x 2/249
    expect(nut.halfWidth).toBeCloseTo(22 - 180 / 249, 12);
    expect(nut.depth).toBeCloseTo(15 - 72 / 249, 12);
    expect([nut.bassExponent, nut.lean]).toEqual([2, 0]);
  });

  it("keeps a plain cylinder a cylinder and a cone a cone exactly", () => {
    const cylinder = sectionBetween({ x: 0, ...even(20, 20, 2) }, { x: 300, ...even(20, 20, 2) }, 171.3);
    expect(cylinder).toEqual(even(20, 20, 2));
    expect(wallAt(cylinder, vec(3, -4)).distance).toBeCloseTo(15, 9);
    const cone = (x: number): NeckSection => sectionBetween({ x: 0, ...even(20, 20, 2) }, { x: 300, ...even(26, 26, 2) }, x);
    for (const x of [-50, 75, 150, 400]) {
      const radius = 20 + 0.02 * x;
      expect(cone(x).depth).toBeCloseTo(radius, 12);
      expect(sectionArea(cone(x))).toBeCloseTo((Math.PI * radius ** 2) / 2, 6);
      // Facet marks run along straight lines on a cone's blank: r tan(22.5°) from the centre line at every station.
      expect(facetAt(cone(x), radians(45), 1).onBack).toBeCloseTo(radius * Math.tan(radians(22.5)), 9);
    }
  });

  it("refuses one station twice and a place where the neck has tapered away", () => {
    expect(() => sectionBetween(first, { ...tenth, x: 36 }, 40)).toThrow(RangeError);
    expect(() => sectionBetween(first, tenth, -5000)).toThrow(RangeError);
    expect(() => sectionBetween(first, tenth, Number.NaN)).toThrow(RangeError);
  });
});

describe("walls", { timeout: 60_000 }, () => {
  it("works the round neck by hand: corner (3.175, -9.5) in a half circle of 20 leaves 20 - sqrt(3.175² + 9.5²) = 9.983", () => {
    const { behind } = channelWalls(even(20, 20, 2), { middle: 0, width: 6.35, depth: 9.5 });
    expect(behind.distance).toBeCloseTo(20 - Math.hypot(3.175, 9.5), 9);
    expect(Math.abs(behind.from.x)).toBe(3.175);
  });

  it("works a flat flank by hand: to the line from (20, 0) to (0, -15) the point (4, -6) is (15·4 + 20·6 - 300)/25 = 4.8 away", () => {
    expect(wallAt(even(20, 15, 1), vec(4, -6)).distance).toBeCloseTo(4.8, 9);
  });

  it("shows a corner that is nearer to the back than the channel's middle is, as a V neck has", () => {
    const neck = even(21, 14.5, NECK_SHAPES.V);
    const { behind } = channelWalls(neck, { middle: 0, width: 6.35, depth: 10 });
    expect(behind.distance).toBeLessThan(14.5 - 10);
    expect(behind.distance).toBeGreaterThan(0);
  });

  it("goes below zero where the channel breaks through, by as much as the corner stands out", () => {
    expect(wallAt(even(20, 20, 2), vec(0, -21)).distance).toBeCloseTo(-1, 9);
    expect(channelWalls(even(20, 20, 2), { middle: 12, width: 6.35, depth: 16 }).behind.distance).toBeCloseTo(
      20 - Math.hypot(15.175, 16),
      9,
    );
  });

  it("agrees with the distance that JTS finds between the whole channel and a dense polyline of the section", () => {
    const channels = fc.record({
      middle: fc.double({ min: -8, max: 8, noNaN: true }),
      width: fc.double({ min: 2, max: 8, noNaN: true }),
      depth: fc.double({ min: 3, max: 12, noNaN: true }),
    });
    fc.assert(
      fc.property(sections, channels, (section, channel) => {
        const { behind, beside } = channelWalls(section, channel);
        const [left, right] = [channel.middle - channel.width / 2, channel.middle + channel.width / 2];
        const box = [vec(left, 0), vec(left, -channel.depth), vec(right, -channel.depth), vec(right, 0)];
        const apart = DistanceOp.distance(lineString(box), lineString(dense(section, 1500))) as number;
        const least = Math.min(behind.distance, beside.distance);
        if (least > 0) expect(Math.abs(least - apart)).toBeLessThan(2e-3);
        else expect(apart).toBeLessThan(2e-3);
      }),
      { numRuns: 60 },
    );
  });

  it("refuses a point over the glue plane and a channel without size", () => {
    expect(() => wallAt(even(20, 15, 2), vec(0, 1))).toThrow(RangeError);
    expect(() => wallAt(even(20, 15, 2), vec(Number.NaN, -1))).toThrow(RangeError);
    expect(() => channelWalls(even(20, 15, 2), { middle: 0, width: 0, depth: 5 })).toThrow(RangeError);
  });
});

describe("facets", { timeout: 60_000 }, () => {
  it("marks a round neck of radius 20 at 45 degrees 20 tan(22.5°) = 8.284 from the centre line and from the glue plane", () => {
    const facet = facetAt(even(20, 20, 2), radians(45), 1);
    expect(facet.onBack).toBeCloseTo(20 * Math.tan(radians(22.5)), 12);
    expect(facet.onSide).toBeCloseTo(20 * Math.tan(radians(22.5)), 12);
    expect(facet.touch.x).toBeCloseTo(20 * Math.SQRT1_2, 12);
  });

  it("works an ellipse by hand: support sqrt((a sin)² + (d cos)²), 22 by 15 at 30 degrees is sqrt(121 + 168.75) = 17.0220", () => {
    const facet = facetAt(even(22, 15, 2), radians(30), -1, { halfWidth: 24, depth: 18 });
    expect(facet.onBack).toBeCloseTo((17.0220445 - 18 * Math.cos(radians(30))) / 0.5, 5);
    expect(facet.onSide).toBeCloseTo((17.0220445 - 24 * 0.5) / Math.cos(radians(30)), 5);
    expect(facet.touch.x).toBeLessThan(0);
  });

  it("lies along a flat flank: tan = depth over half width, from the glue plane at the edge to the centre line on the back", () => {
    const facet = facetAt(even(20, 15, 1), Math.atan2(15, 20), 1);
    expect(facet.onSide).toBeCloseTo(0, 12);
    expect(facet.onBack).toBeCloseTo(0, 12);
  });

  it("touches every section and never cuts into it (dense polyline laid out by height)", () => {
    fc.assert(
      fc.property(
        sections,
        fc.double({ min: 0.05, max: 1.5, noNaN: true }),
        fc.constantFrom<1 | -1>(1, -1),
        (section, angle, sign) => {
          const { touch } = facetAt(section, angle, sign);
          const [across, down] = [Math.sin(angle), Math.cos(angle)];
          const reach = ({ x, y }: { x: number; y: number }): number => sign * x * across - y * down;
          const curve = dense(section);
          const greatest = Math.max(...curve.filter(({ x }) => sign * (x - section.lean) >= 0).map(reach));
          expect(reach(touch) - greatest).toBeGreaterThan(-1e-9);
          expect(reach(touch) - greatest).toBeLessThan(2e-3);
          expect(Math.abs(wallAt(section, touch).distance)).toBeLessThan(1e-5);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("has no mark where a steep facet passes the blank's back beyond its edge", () => {
    expect(facetAt(even(20, 20, 2), radians(60), 1, { halfWidth: 22, depth: 45 }).onBack).toBeUndefined();
  });

  it("refuses the back and the side themselves and a blank smaller than the neck", () => {
    for (const angle of [0, Math.PI / 2, Number.NaN]) expect(() => facetAt(even(20, 20, 2), angle, 1)).toThrow(RangeError);
    expect(() => facetAt(even(20, 20, 2), 1, 1, { halfWidth: 19, depth: 20 })).toThrow(RangeError);
  });
});

describe("sectionFromContour", { timeout: 60_000 }, () => {
  it("finds the shoulders back from points of a lopsided neck, within the reading of a gauge", () => {
    const truth: NeckSection = { halfWidth: 22, depth: 15, lean: 1, bassExponent: 2.3, trebleExponent: 1.8 };
    // Every 40th point of the dense curve, moved by up to 0.1 mm in a fixed pattern.
    const points = dense(truth, 400)
      .filter((_, i) => i % 40 === 20)
      .map(({ x, y }, i) => vec(x, Math.min(y + 0.1 * Math.sin(i * 2.4), 0)));
    const fitted = sectionFromContour(points, truth)!;
    expect(Math.abs(fitted.section.bassExponent - 2.3)).toBeLessThan(0.08);
    expect(Math.abs(fitted.section.trebleExponent - 1.8)).toBeLessThan(0.08);
    expect(fitted.rms).toBeLessThan(0.1);
    expect(fitted.worst).toBeGreaterThanOrEqual(fitted.rms);
  });

  it("finds them exactly from exact points, and not at all with a bare side", () => {
    const truth = even(22, 15, 2.6);
    const points = dense(truth, 200).filter((_, i) => i % 25 === 12);
    expect(sectionFromContour(points, truth)!.section.bassExponent).toBeCloseTo(2.6, 4);
    expect(
      sectionFromContour(
        points.filter(({ x }) => x > 0),
        truth,
      ),
    ).toBeUndefined();
  });
});
