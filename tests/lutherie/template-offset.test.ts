import * as fc from "fast-check";
import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import type Geometry from "jsts/org/locationtech/jts/geom/Geometry.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import BufferOp from "jsts/org/locationtech/jts/operation/buffer/BufferOp.js";
import OverlayOp from "jsts/org/locationtech/jts/operation/overlay/OverlayOp.js";
import { describe, expect, it } from "vitest";
import {
  bearingForLedge,
  cutBand,
  gapFromOneTemplate,
  ledgeWidth,
  pieceGuideFor,
  templateOffset,
  type CutShape,
  type GuidedCutter,
  type TemplateKind,
} from "../../src/lutherie/template-offset.ts";

const bush = (guide: number, bit: number): GuidedCutter => ({ by: "bush", guide, bit });
const bearing = (guide: number, bit: number): GuidedCutter => ({ by: "bearing", guide, bit });
const offsetOf = (cutter: GuidedCutter, cut: CutShape, template: TemplateKind): number => {
  const answer = templateOffset(cutter, cut, template);
  if (!answer.ok) throw new Error(answer.reason);
  return answer.offset;
};

describe("templateOffset", () => {
  it("works 7.9375 with 3.175 by hand: near side (7.9375 - 3.175)/2 = 2.38125, window corner at least 7.9375/2 = 3.96875", () => {
    expect(cutBand(bush(7.9375, 3.175))).toEqual({ near: 2.38125, centre: 3.96875, far: 5.55625 });
    const answer = templateOffset(bush(7.9375, 3.175), "blind-recess", "inside");
    expect(answer).toMatchObject({ ok: true, offset: 2.38125, leastTemplateRadius: 3.96875 });
  });

  it("works a pocket of 40 with corners of 1.5 through 15.9/3 and 10/3: window 52.9 with corners 7.95, inlay piece 39.9", () => {
    const answer = templateOffset(bush(15.9, 3), "blind-recess", "inside");
    expect(answer.ok && 40 + 2 * answer.offset).toBeCloseTo(52.9, 12);
    expect(answer.ok && 1.5 + answer.offset).toBeCloseTo(7.95, 12);
    expect(answer.ok && answer.leastOutwardRadius).toBe(1.5);
    expect(52.9 - 2 * offsetOf(bush(10, 3), "piece", "inside")).toBeCloseTo(39.9, 12);
  });

  it("refuses an outside template for a blind recess and allows it for an opening", () => {
    expect(templateOffset(bush(10, 3), "blind-recess", "outside")).toMatchObject({ ok: false });
    expect(templateOffset(bush(10, 3), "opening", "outside")).toMatchObject({ ok: true, offset: -6.5 });
    expect(templateOffset(bush(10, 3), "piece", "outside")).toMatchObject({ ok: true, offset: -3.5 });
  });

  it("leaves the line where it is for a bearing of the bit's own size", () => {
    for (const template of ["inside", "outside"] as const) {
      const cut = template === "inside" ? "blind-recess" : "piece";
      expect(Math.abs(offsetOf(bearing(12.7, 12.7), cut, template))).toBe(0);
    }
  });

  it("cuts a ledge of 2.413 with a 19.05 bit on a 14.224 bearing, and finds the bearing back", () => {
    expect(ledgeWidth(14.224, 19.05)).toBeCloseTo(2.413, 12);
    expect(bearingForLedge(2.413, 19.05)).toBeCloseTo(14.224, 12);
    expect(bearingForLedge(10, 19.05)).toBeUndefined();
    // The same ledge seen as a cut: the bit reaches that far past the template's edge.
    expect(cutBand(bearing(14.224, 19.05)).near).toBeCloseTo(-2.413, 12);
  });

  it("refuses a bit that does not pass through its bush, and what has no size", () => {
    expect(() => cutBand(bush(3, 3))).toThrow(RangeError);
    expect(() => cutBand(bush(3, 0))).toThrow(RangeError);
    expect(() => templateOffset(bush(Number.NaN, 3), "piece", "inside")).toThrow(RangeError);
    expect(() => ledgeWidth(19.05, 19.05)).toThrow(RangeError);
    expect(() => bearingForLedge(0, 19.05)).toThrow(RangeError);
  });
});

describe("one template for both halves", () => {
  it.each([
    [bush(14.2875, 3.175), bush(7.9375, 3.175), 0],
    [bush(15.9, 3), bush(10, 3), 0.05],
    [bush(17, 3), bush(10, 3), -0.5],
  ])("leaves the worked gap through a window", (recess, piece, gap) => {
    expect(gapFromOneTemplate(recess, piece, "inside")).toBeCloseTo(gap, 12);
  });

  it("keeps C2 - D2 = C1 + D1 - 2g round an island: 10/3 and 15.9/3 give (13 - 12.9)/2 = 0.05", () => {
    expect(gapFromOneTemplate(bush(10, 3), bush(15.9, 3), "outside")).toBeCloseTo(0.05, 12);
  });

  it("finds the bush for the piece that gives the gap asked, and none where it would be narrower than its bit", () => {
    const size = fc.double({ min: 0.5, max: 20, noNaN: true });
    fc.assert(
      fc.property(
        size,
        size,
        size,
        fc.double({ min: -0.2, max: 0.3, noNaN: true }),
        fc.constantFrom<TemplateKind>("inside", "outside"),
        (more, bit, pieceBit, gap, template) => {
          const recess = bush(bit + more, bit);
          const guide = pieceGuideFor(recess, pieceBit, gap, template);
          if (guide === undefined) {
            // With the narrowest bush, its bit's own diameter, the gap already exceeds (window) or falls short of (island) the one asked.
            const edge = bearing(pieceBit, pieceBit);
            const reached = gapFromOneTemplate(recess, edge, template);
            expect(template === "inside" ? reached >= gap - 1e-9 : reached <= gap + 1e-9).toBe(true);
          } else {
            expect(gapFromOneTemplate(recess, bush(guide, pieceBit), template)).toBeCloseTo(gap, 9);
          }
        },
      ),
    );
  });

  it("refuses a piece's bit of no size and a gap that is no number", () => {
    expect(() => pieceGuideFor(bush(10, 3), 0, 0, "inside")).toThrow(RangeError);
    expect(() => pieceGuideFor(bush(10, 3), 3, Number.NaN, "inside")).toThrow(RangeError);
  });
});

// The cut is rehearsed with JTS buffers (an independent library): the guide's centre runs where its disc fits beside the
// template, the bit's disc sweeps along.
const factory = new GeometryFactory();
const grown = (shape: Geometry, by: number): Geometry => BufferOp.bufferOp(shape, by, 32) as Geometry;
/** An L of 80 by 80 with legs of 45 and 40: five outward corners and an inward one, rounded in steps of 3 degrees. */
function rounded(outward: number, inward: number): Geometry {
  const corners: [number, number, number, number, number][] = [
    // x, y of the corner, direction to the fillet's centre, angle at which the fillet starts
    [0, 0, 1, 1, 180],
    [80, 0, -1, 1, 270],
    [80, 40, -1, -1, 0],
    [45, 40, 1, 1, 270],
    [45, 80, -1, -1, 0],
    [0, 80, 1, -1, 90],
  ];
  const ring = corners.flatMap(([x, y, dx, dy, from], index) => {
    const turn = index === 3 ? -1 : 1;
    const radius = turn < 0 ? inward : outward;
    return Array.from({ length: 31 }, (_, i) => {
      const angle = ((from + turn * 3 * i) * Math.PI) / 180;
      return new Coordinate(x + radius * (dx + Math.cos(angle)), y + radius * (dy + Math.sin(angle)));
    });
  });
  return factory.createPolygon(factory.createLinearRing([...ring, ring[0]!]));
}
/** The shape that comes out of a cut guided by the template of `edge`. */
function rehearse(cutter: GuidedCutter, cut: CutShape, template: TemplateKind, edge: Geometry): Geometry {
  const made = grown(edge, offsetOf(cutter, cut, template));
  const [guide, bit] = [cutter.guide / 2, cutter.bit / 2];
  // In a window the guide's centre may be anywhere `guide` from its edge; the bit clears a recess, or goes once round a piece.
  if (template === "inside") return grown(grown(made, -guide), cut === "piece" ? -bit : bit);
  // Round an island the centre keeps out of what the guide's disc would overlap; the sweep has an inner and an outer side.
  return grown(grown(made, guide), cut === "piece" ? -bit : bit);
}
const misfit = (a: Geometry, b: Geometry): number => (OverlayOp.symDifference(a, b) as Geometry).getArea();

describe("corners that a guided cut can make (rehearsed with JTS)", { timeout: 60_000 }, () => {
  const cases: [CutShape, TemplateKind][] = [
    ["blind-recess", "inside"],
    ["piece", "inside"],
    ["piece", "outside"],
    ["opening", "outside"],
  ];
  const cutter = bush(18, 8);

  it.each(cases)("cuts a %s by an %s template true when its corners keep the limits told", (cut, template) => {
    const answer = templateOffset(cutter, cut, template);
    if (!answer.ok) throw new Error(answer.reason);
    const edge = rounded(answer.leastOutwardRadius + 0.01, answer.leastInwardRadius + 0.01);
    expect(misfit(rehearse(cutter, cut, template, edge), edge)).toBeLessThan(0.5);
  });

  it.each(cases)("fails a %s by an %s template as soon as a limited corner is 1 mm sharper", (cut, template) => {
    const answer = templateOffset(cutter, cut, template);
    if (!answer.ok) throw new Error(answer.reason);
    const { leastOutwardRadius: outward, leastInwardRadius: inward } = answer;
    // A sharper corner of 90 degrees leaves (1 - pi/4)(r² - (r - 1)²) unmade: 0.2146 (2r - 1), at r = 4 above 1.5 mm².
    if (outward > 0) {
      const edge = rounded(outward - 1, inward + 0.01);
      expect(misfit(rehearse(cutter, cut, template, edge), edge)).toBeGreaterThan(1);
    }
    if (inward > 0) {
      const edge = rounded(outward + 0.01, inward - 1);
      expect(misfit(rehearse(cutter, cut, template, edge), edge)).toBeGreaterThan(1);
    }
  });
});
