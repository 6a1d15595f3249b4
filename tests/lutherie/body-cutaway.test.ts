import * as fc from "fast-check";
import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import IsValidOp from "jsts/org/locationtech/jts/operation/valid/IsValidOp.js";
import { describe, expect, it } from "vitest";
import { flatten } from "../../src/geometry/flatten.ts";
import { pathArea, pathBounds } from "../../src/geometry/measure.ts";
import { curvatureAt, piecesOf, tangentAt } from "../../src/geometry/segment.ts";
import { angleBetween, scale } from "../../src/geometry/vec.ts";
import { cutawayHalf, cutawayRefusal, type Cutaway } from "../../src/lutherie/body-cutaway.ts";
import { halfOutline, wholeOutline } from "../../src/lutherie/body-outline.ts";
import { smoothRuns, unrollSide } from "../../src/lutherie/unrolled-side.ts";
import { SMALL } from "./small-body.ts";

const ROUNDED: Cutaway = {
  kind: "rounded",
  hornAt: 25,
  hornOut: 95,
  depth: 95,
  neckOut: 28,
  fullness: 0.5,
  tipFall: 0.5,
  tipAngle: 0.7,
};
const POINTED: Cutaway = { ...ROUNDED, kind: "pointed", hornAt: 15, hornOut: 105 };

const share = fc.double({ min: 0.05, max: 0.95, noNaN: true });
const cutaways = fc
  .record({
    kind: fc.constantFrom("rounded" as const, "pointed" as const),
    a: share,
    b: share,
    c: share,
    d: share,
    fullness: share,
    fall: share,
    tip: share,
  })
  .map((r): Cutaway => {
    const hornAt = 90 * r.a;
    const hornOut = 20 + 122 * r.b;
    const tipFall = 1.2 * r.fall;
    return {
      kind: r.kind,
      hornAt,
      hornOut,
      depth: hornAt + (170 - hornAt) * r.c,
      neckOut: hornOut * r.d,
      fullness: r.fullness,
      tipFall,
      tipAngle: (tipFall + 1.2) * r.tip,
    };
  });
const factory = new GeometryFactory();

describe("cutawayHalf", () => {
  it("keeps one curvature round a rounded horn and through the bout, upright at the horn and at the neck", () => {
    fc.assert(
      fc.property(cutaways, (cut) => {
        if (cut.kind !== "rounded") return;
        const [, , toUpper, toHorn, hollow] = piecesOf(cutawayHalf(SMALL, cut));
        expect(curvatureAt(toUpper!, 1) / curvatureAt(toHorn!, 0)).toBeCloseTo(1, 6);
        expect(curvatureAt(toHorn!, 1) / curvatureAt(hollow!, 0)).toBeCloseTo(1, 6);
        expect(tangentAt(toHorn!, 1)!.y).toBeCloseTo(-1, 9);
        expect(tangentAt(hollow!, 1)!.y).toBeCloseTo(-1, 9);
      }),
    );
  });

  it("gives a pointed horn the tip angle and the fall asked", () => {
    fc.assert(
      fc.property(cutaways, (cut) => {
        if (cut.kind !== "pointed") return;
        const [, , toUpper, toTip, hollow] = piecesOf(cutawayHalf(SMALL, cut));
        const back = scale(tangentAt(toTip!, 1)!, -1);
        expect(Math.atan2(back.y, back.x)).toBeCloseTo(cut.tipFall, 9);
        expect(angleBetween(tangentAt(hollow!, 0)!, back)).toBeCloseTo(cut.tipAngle, 9);
        expect(curvatureAt(toUpper!, 1) / curvatureAt(toTip!, 0)).toBeCloseTo(1, 6);
      }),
    );
  });

  it("never reaches nearer to the neck end than its horn, nor outside the body's own box, and ends on the neck's side", () => {
    fc.assert(
      fc.property(cutaways, (cut) => {
        const half = cutawayHalf(SMALL, cut);
        const { minX, maxX, minY, maxY } = pathBounds(half);
        expect([minX, maxX, minY, maxY]).toEqual([0, 490, 0, expect.closeTo(195, 6)]);
        const curves = { ...half, segments: half.segments.slice(0, -2) };
        expect(pathBounds(curves).minX).toBeGreaterThanOrEqual(cut.hornAt - 1e-9);
        expect(curves.segments.at(-1)!.to).toEqual({ x: cut.depth, y: cut.neckOut });
      }),
    );
  });

  it("takes away only from the treble side: JTS finds the whole valid and its area as ours", () => {
    for (const cut of [ROUNDED, POINTED]) {
      const whole = wholeOutline(cutawayHalf(SMALL, cut), halfOutline(SMALL));
      const ring = flatten(whole, 1e-4);
      const polygon = factory.createPolygon(
        factory.createLinearRing([...ring, ring[0]!].map(({ x, y }) => new Coordinate(x, y))),
      );
      expect(new IsValidOp(polygon).isValid()).toBe(true);
      expect(Math.abs(pathArea(whole) - polygon.getArea())).toBeLessThan(0.2);
      expect(pathArea(whole)).toBeLessThan(pathArea(wholeOutline(halfOutline(SMALL), halfOutline(SMALL))));
    }
  });

  it("is one side to bend up to the neck when rounded and two when pointed", () => {
    const runs = (cut: Cutaway): number => smoothRuns(cutawayHalf(SMALL, cut)).length;
    // The last two runs are the straight stretch along the neck and the end of the body.
    expect([runs(ROUNDED), runs(POINTED)]).toEqual([3, 4]);
    const [outer, hollow] = smoothRuns(cutawayHalf(SMALL, POINTED));
    const flat = { inset: 0, top: () => 0, back: () => 95 };
    expect(unrollSide({ outline: outer!, ...flat }).length).toBeGreaterThan(400);
    expect(unrollSide({ outline: hollow!, ...flat }).length).toBeGreaterThan(100);
  });
});

describe("cutawayRefusal", () => {
  it.each([
    [{ hornAt: 95 }, "horn must lie"],
    [{ depth: 20 }, "between its horn and the waist"],
    [{ depth: 190 }, "between its horn and the waist"],
    [{ neckOut: 95 }, "farther out"],
    [{ hornOut: 143 }, "inside the upper bout"],
    [{ fullness: 0 }, "fullness"],
    [{ hornAt: Number.NaN }, "number"],
  ])("names what is wrong with %o", (wrong, words) => {
    expect(cutawayRefusal(SMALL, { ...ROUNDED, ...wrong })).toContain(words);
    expect(() => cutawayHalf(SMALL, { ...ROUNDED, ...wrong })).toThrow(RangeError);
  });

  it("passes on what is wrong with the body, and a point that does not turn inwards", () => {
    expect(cutawayRefusal({ ...SMALL, waist: 300 }, ROUNDED)).toContain("waist");
    expect(cutawayRefusal(SMALL, { ...POINTED, tipAngle: 2.2 })).toContain("point");
    expect(cutawayRefusal(SMALL, { ...ROUNDED, tipAngle: 2.2 })).toBeUndefined();
  });
});
