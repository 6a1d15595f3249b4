import { describe, expect, it } from "vitest";
import { closeArcsApart, openArcs } from "../../src/geometry/arc-morphology.ts";
import { boundsMeet } from "../../src/geometry/bounds.ts";
import { pathArea, pathBounds } from "../../src/geometry/measure.ts";
import type { Outline } from "../../src/geometry/outline.ts";
import { transformPath, translation } from "../../src/geometry/transform.ts";
import { sub, vec } from "../../src/geometry/vec.ts";
import { COUPON_GAPS, fitCoupon } from "../../src/lutherie/inlay-coupon.ts";
import { pairFit } from "../../src/lutherie/inlay-fit.ts";

const area = (outlines: readonly Outline[]): number => outlines.reduce((sum, { outer }) => sum + pathArea(outer), 0);

describe.each([
  [0.254, 0.254],
  [1.5, 0.5],
  [0.25, 3],
  [0, 0],
])("a coupon for cutters of radius %f and %f", (pocketRadius, pieceRadius) => {
  const { pocket, pieces, bounds } = fitCoupon(pocketRadius, pieceRadius, COUPON_GAPS);

  it("has a piece for every gap, which leaves that gap all round in the pocket", () => {
    expect(pieces.map(({ number, gap }) => [number, gap])).toEqual([
      [1, 0],
      [2, 0.02],
      [3, 0.04],
      [4, 0.06],
      [5, 0.08],
      [6, 0.1],
      [7, 0.12],
    ]);
    // The pocket's first corner stands over that of the first piece, which has no gap.
    const home = pathBounds(pocket[0]!.outer);
    for (const { gap, outline } of pieces) {
      const box = pathBounds(outline[0]!.outer);
      const back = translation(sub(vec(home.minX + gap, home.minY + gap), vec(box.minX, box.minY)));
      const inPlace = outline.map(({ outer }) => ({ outer: transformPath(back, outer), holes: [] }));
      const fit = pairFit(pocket, inPlace, 1)!;
      expect(fit.minGap).toBeCloseTo(gap, 6);
      // A knife leaves square corners in both, which stand off by the diagonal.
      expect(fit.maxGap).toBeCloseTo(pocketRadius === 0 ? gap * Math.SQRT2 : gap, 6);
    }
  });

  it("can be cut as drawn", () => {
    expect(area(openArcs(pocket, pocketRadius))).toBeCloseTo(area(pocket), 6);
    for (const { outline } of pieces)
      expect(area(closeArcsApart(outline, 0, pieceRadius, []).closed)).toBeCloseTo(area(outline), 6);
  });

  it("is laid out with room for the cutter between the parts, numbers below them, all within its bounds", () => {
    const boxes = [pocket, ...pieces.map(({ outline }) => outline)].map((outlines) => pathBounds(outlines[0]!.outer));
    for (const [i, box] of boxes.entries()) {
      for (const other of boxes.slice(0, i)) expect(boundsMeet(box, other, 2 * Math.max(pocketRadius, pieceRadius))).toBe(false);
      expect(box.minX).toBeGreaterThan(bounds.minX - 1e-6);
      expect(box.maxY).toBeLessThan(bounds.maxY + 1e-6);
    }
    for (const [i, { label }] of pieces.entries()) {
      expect(label.y).toBeLessThan(boxes[i + 1]!.minY);
      expect(label.y).toBeGreaterThan(bounds.minY);
    }
  });
});

it("refuses a gap wider than the pieces' cutter can give back", () => {
  expect(() => fitCoupon(1, 0.1, [0.12])).toThrow(RangeError);
  expect(() => fitCoupon(1, 1, [-0.01])).toThrow(RangeError);
});
