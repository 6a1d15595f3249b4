import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cover } from "../../src/geometry/cover.ts";
import { regionOf } from "../../src/geometry/outline.ts";
import { circle, polygon, rectangle, type Path } from "../../src/geometry/path.ts";
import { vec } from "../../src/geometry/vec.ts";
import { FRAMES, placePath } from "./frames.ts";
import { jtsLeft } from "./jts.ts";

const solid = (outer: Path) => [{ outer, holes: [] }];

describe("whether one outline covers another", () => {
  describe.each(FRAMES)("%s", (_, frame) => {
    const place = (path: Path) => placePath(frame, path);

    it("tells the least margin where it does", () => {
      // By hand: 3 mm on the short sides, 5 mm on the long ones.
      const found = cover(solid(place(rectangle(0, 0, 100, 40))), solid(place(rectangle(3, 5, 97, 35))))!;
      expect(found.bare).toEqual([]);
      expect(found.margin).toBeCloseTo(3, 6);
    });

    it("tells every place that shows, by how much, the farthest first", () => {
      // 4 mm out on the right, 2 mm on the left.
      const found = cover(solid(place(rectangle(0, 0, 100, 40))), solid(place(rectangle(-2, 10, 104, 30))))!;
      expect(found.bare.map(({ out }) => out)).toEqual([expect.closeTo(4, 3), expect.closeTo(2, 3)]);
      expect(found.bare.map(({ area }) => area)).toEqual([expect.closeTo(80, 2), expect.closeTo(40, 2)]);
      expect(found.margin).toBeCloseTo(-4, 3);
    });

    it("knows the curve of a round scar", () => {
      // A disc of radius 20 under a square of 36: it stands out by 2 on four sides.
      const found = cover(solid(place(rectangle(-18, -18, 18, 18))), solid(place(circle(vec(0, 0), 20))))!;
      expect(found.bare).toHaveLength(4);
      for (const { out } of found.bare) expect(out).toBeCloseTo(2, 2);
    });
  });

  it("leaves bare what the JTS Topology Suite finds left over, for any two five-cornered outlines", () => {
    const five = fc
      .array(fc.record({ r: fc.double({ min: 20, max: 60, noNaN: true }) }), { minLength: 5, maxLength: 5 })
      .map((list) =>
        polygon(list.map(({ r }, i) => vec(r * Math.cos((i * 2 * Math.PI) / 5), r * Math.sin((i * 2 * Math.PI) / 5)))),
      );
    fc.assert(
      fc.property(five, five, (over, under) => {
        const found = cover(solid(over), solid(under))!;
        const left = jtsLeft(regionOf([under]), regionOf([over]));
        const bare = found.bare.reduce((sum, { area }) => sum + area, 0);
        // Slivers thinner than 0.004 mm are left out.
        expect(Math.abs(bare - left)).toBeLessThan(0.004 * 400);
        expect(found.margin < 0).toBe(found.bare.length > 0);
      }),
      { numRuns: 200 },
    );
  });

  it("has nothing to say of no outline", () => {
    expect(cover([], solid(circle(vec(0, 0), 1)))).toBeUndefined();
    expect(cover(solid(circle(vec(0, 0), 1)), [])).toBeUndefined();
  });
});
