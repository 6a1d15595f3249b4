import { describe, expect, it } from "vitest";
import { pathArea, pathBounds } from "../../src/geometry/measure.ts";
import { pathsOf, type Outline } from "../../src/geometry/outline.ts";
import { polygon, polyline } from "../../src/geometry/path.ts";
import { vec } from "../../src/geometry/vec.ts";
import { border, drawn, lozenge, ring, spot, star } from "../../src/lettering/ornaments.ts";

const areaOf = (outline: Outline): number => pathsOf(outline).reduce((sum, path) => sum + pathArea(path), 0);
const value = <T>(result: { ok: true; value: T } | { ok: false; error: { message: string } }): T => {
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
};

describe("ornaments", () => {
  it("have the areas of their formulas", () => {
    expect(areaOf(spot(6))).toBeCloseTo(9 * Math.PI, 9);
    expect(areaOf(value(ring(10, 1)))).toBeCloseTo(Math.PI * (25 - 16), 9);
    // A rectangle loses (4 - pi) r^2 at its corners.
    const rounded = (x: number, y: number, r: number): number => x * y - (4 - Math.PI) * r * r;
    expect(areaOf(value(border(40, 20, 4, 1.5)))).toBeCloseTo(rounded(40, 20, 4) - rounded(37, 17, 2.5), 9);
    expect(areaOf(value(border(40, 20, 1, 1.5)))).toBeCloseTo(rounded(40, 20, 1) - 37 * 17, 9);
    expect(areaOf(value(border(40, 20, 0, 1.5)))).toBeCloseTo(800 - 37 * 17, 9);
    // 2 n triangles with the sides R, r and the angle pi / n between them.
    expect(areaOf(star(5, 12, 5))).toBeCloseTo(5 * 6 * 2.5 * Math.sin(Math.PI / 5), 9);
    expect(areaOf(lozenge(8, 5))).toBeCloseTo(20, 9);
  });

  it("stand about the origin, a star with a point up", () => {
    for (const outline of [spot(6), value(ring(6, 1)), value(border(6, 6, 1, 1)), lozenge(6, 6), star(4, 6, 3)])
      for (const [side, size] of Object.entries(pathBounds(outline.outer))) expect(Math.abs(size), side).toBeCloseTo(3, 9);
    expect(pathBounds(star(5, 12, 5).outer).maxY).toBeCloseTo(6, 12);
  });

  it("are refused where nothing would be left within, or corners find no room", () => {
    for (const result of [ring(10, 5), border(40, 20, 0, 10), border(40, 20, 11, 1)]) expect(result.ok).toBe(false);
  });

  it("may be drawn: what closed paths cover, once", () => {
    const square = (x: number): ReturnType<typeof polygon> => polygon([vec(x, 0), vec(x + 4, 0), vec(x + 4, 4), vec(x, 4)]);
    const [joined, ...others] = value(drawn([square(0), square(2)]));
    expect(others).toEqual([]);
    expect(areaOf(joined!)).toBeCloseTo(24, 3);
    expect(drawn([polyline([vec(0, 0), vec(1, 0), vec(1, 1)])])).toMatchObject({
      ok: false,
      error: { message: "The drawn outline is not closed" },
    });
    expect(drawn([polygon([vec(0, 0), vec(1, 0), vec(2, 0)])])).toMatchObject({ ok: false });
  });
});
