import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Drawing, Shape } from "../../../src/drawing/drawing.ts";
import { circle, cubic, polygon, segmentPath, type Path } from "../../../src/geometry/path.ts";
import { piecesOf, pointAt } from "../../../src/geometry/segment.ts";
import { distance, vec } from "../../../src/geometry/vec.ts";
import { pickShape } from "../../../src/ui/board/pick.ts";
import { indexShapes } from "../../../src/ui/board/shape-index.ts";

const shape = (id: string, path: Path, more: Partial<Shape> = {}): Shape => ({
  id,
  role: "cut",
  line: "narrow",
  path,
  name: id,
  ...more,
});
const drawing = (...shapes: Shape[]): Drawing => ({ layers: [{ name: "a", shapes }], dimensions: [] });
const pick = (d: Drawing, x: number, y: number, pxPerMm = 2) => pickShape(indexShapes(d), vec(x, y), pxPerMm)?.shape.id;

describe("picking", () => {
  const upright = drawing(
    shape("fret-1", segmentPath(vec(10, -20), vec(10, 20))),
    shape("fret-2", segmentPath(vec(20, -20), vec(20, 20))),
  );

  it("takes the nearest line within 6 px and none beyond", () => {
    // 2 px a mm: 6 px are 3 mm.
    expect(pick(upright, 12.9, 0)).toBe("fret-1");
    expect(pick(upright, 13.1, 0)).toBeUndefined();
    expect(pick(upright, 17.2, 0)).toBe("fret-2");
  });

  it("reaches by px and not by mm", () => {
    expect(pick(upright, 10.5, 0, 10)).toBe("fret-1");
    expect(pick(upright, 11, 0, 10)).toBeUndefined();
    expect(pick(upright, 13.5, 0, 0.5)).toBe("fret-1");
  });

  it("takes the upper of two that lie on each other, though the lower one is a hair nearer", () => {
    const both = drawing(
      shape("under", segmentPath(vec(10, -20), vec(10, 20))),
      shape("over", segmentPath(vec(10.1, -20), vec(10.1, 20))),
    );
    expect(pick(both, 9.9, 0)).toBe("over");
  });

  it("takes a small shape from its line, not from the area about it", () => {
    const dots = drawing(
      shape("board", polygon([vec(-50, -50), vec(50, -50), vec(50, 50), vec(-50, 50)])),
      shape("dot", circle(vec(0, 0), 3)),
    );
    expect(pick(dots, 0, 0)).toBe("dot");
    expect(pick(dots, 0, 20)).toBeUndefined();
    expect(pick(dots, 0, 49)).toBe("board");
  });

  it("takes a shape by the edge of its hole", () => {
    const ring = drawing(shape("ring", circle(vec(0, 0), 30), { holes: [circle(vec(0, 0), 20)] }));
    expect(pick(ring, 19, 0)).toBe("ring");
    expect(pick(ring, 25, 0)).toBeUndefined();
  });

  it("agrees with a search over 400 points of every curve", () => {
    const number = fc.double({ min: -40, max: 40, noNaN: true });
    const point = fc.record({ x: number, y: number });
    const curve = fc
      .tuple(point, point, point, point)
      .map(([a, b, c, d]): Path => ({ start: a, segments: [cubic(b, c, d)], closed: false }));
    fc.assert(
      fc.property(fc.array(curve, { minLength: 1, maxLength: 4 }), point, (curves, at) => {
        const index = indexShapes(drawing(...curves.map((path, i) => shape(`${i}`, path))));
        const far = curves.map((path) =>
          Math.min(...Array.from({ length: 401 }, (_, i) => distance(at, pointAt(piecesOf(path)[0]!, i / 400)))),
        );
        const least = Math.min(...far);
        const found = pickShape(index, at, 1, 6)?.shape.id;
        // The search is coarse by half a step of 1/400 of a curve of at most 400 mm.
        if (least < 5) expect(far[Number(found)]).toBeLessThan(least + 1.6);
        if (least > 6.6) expect(found).toBeUndefined();
      }),
    );
  });
});
