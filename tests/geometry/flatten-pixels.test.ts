import { describe, expect, it } from "vitest";
import { mappedPixels } from "../../src/geometry/flatten-pixels.ts";
import { homographyThrough, projected } from "../../src/geometry/homography.ts";
import { flatGrid, planeOf } from "../../src/geometry/picture-plane.ts";
import { transformPoint } from "../../src/geometry/transform.ts";
import { distance, vec } from "../../src/geometry/vec.ts";

/** A picture whose red is the column and whose green is the row. */
function ramp(width: number, height: number) {
  const data = new Uint8ClampedArray(width * height * 4);
  for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) data.set([x, y, 0, 255], 4 * (y * width + x));
  return { width, height, data };
}

describe("a picture drawn anew", () => {
  it("is the same where nothing is changed, and the mean of two pixels half way between them", () => {
    const source = ramp(20, 10);
    expect(mappedPixels(source, [1, 0, 0, 0, 1, 0, 0, 0, 1], 20, 10)).toEqual(source.data);
    const shifted = mappedPixels(source, [1, 0, 0.5, 0, 1, 0, 0, 0, 1], 19, 10);
    // Between columns 4 and 5, of which red is the number: 4.5, which rounds to even.
    expect(shifted[4 * 4]).toBe(4);
    expect(shifted[4 * 5]).toBe(6);
  });

  it("takes every pixel from where the map says, and is clear beyond the photograph", () => {
    const source = ramp(200, 150);
    const map = homographyThrough(
      [vec(0, 0), vec(60, 0), vec(60, 40), vec(0, 40)],
      [vec(30, 20), vec(180, 30), vec(190, 160), vec(20, 120)],
    )!;
    const out = mappedPixels(source, map, 60, 40);
    for (const [x, y] of [
      [3, 3],
      [30, 20],
      [50, 10],
      [10, 35],
    ] as const) {
      const from = projected(map, vec(x + 0.5, y + 0.5))!;
      expect(Math.abs(out[4 * (60 * y + x)]! - (from.x - 0.5))).toBeLessThanOrEqual(0.51);
      expect(Math.abs(out[4 * (60 * y + x) + 1]! - (from.y - 0.5))).toBeLessThanOrEqual(0.51);
    }
    // Its lower right comes from below the photograph.
    expect(out[4 * (60 * 39 + 59) + 3]).toBe(0);
  });

  it("lies where its plane says, all of what was photographed near the rectangle in it", () => {
    const scale = {
      by: "rectangle",
      corners: [vec(900, 700), vec(3100, 800), vec(3300, 2300), vec(700, 2200)],
      across: 297,
      down: 210,
    } as const;
    const grid = flatGrid({ width: 4000, height: 3000 }, scale, 12_000_000)!;
    expect(grid.width * grid.height).toBeLessThanOrEqual(12_010_000);
    const plane = planeOf(scale)!;
    for (const p of [vec(100, 100), vec(grid.width / 2, grid.height / 2), vec(grid.width - 200, 300)]) {
      const there = projected(plane, projected(grid.toSource, p)!)!;
      expect(distance(there, transformPoint(grid.toPlane, p))).toBeLessThan(1e-6);
    }
    for (const corner of scale.corners) {
      const mm = projected(plane, corner)!;
      const px = vec((mm.x - grid.toPlane.e) / grid.toPlane.a, (mm.y - grid.toPlane.f) / grid.toPlane.d);
      expect(px.x > 0 && px.x < grid.width && px.y > 0 && px.y < grid.height).toBe(true);
    }
  });
});
