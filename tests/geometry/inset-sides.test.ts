import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { offsetRings, uniteRings } from "../../src/geometry/clipper.ts";
import { insetSides, type InsetSides } from "../../src/geometry/inset-sides.ts";
import { regionArea, ringArea, type Ring } from "../../src/geometry/region.ts";
import { transformPoint } from "../../src/geometry/transform.ts";
import { distance, distanceToSegment, polar, vec } from "../../src/geometry/vec.ts";
import { FRAMES, placeRing } from "./frames.ts";

/** A fingerboard from the nut at x = 0: nut end, bass side, far end, treble side. */
const board = (nut: number, end: number, length: number): Ring => [
  vec(0, nut / 2),
  vec(0, -nut / 2),
  vec(length, -end / 2),
  vec(length, end / 2),
];
const moved = (result: InsetSides): Ring => {
  if (!result.ok) throw new Error(result.reason);
  return result.ring;
};

describe("sides moved in", () => {
  // w - 2 t / cos(alpha), tan(alpha) = (57 - 43) / (2 x 470): cos = 0.99988911, 2 x 2.413 / cos = 4.82653522.
  it("leave 38.17346 at the nut and 52.17346 at the end of a board 43 / 57 / 470 bound with 2.413", () => {
    const ring = moved(insetSides(board(43, 57, 470), [0, 2.413, 0, 2.413]));
    expect(distance(ring[0]!, ring[1]!)).toBeCloseTo(38.1734648, 7);
    expect(distance(ring[2]!, ring[3]!)).toBeCloseTo(52.1734648, 7);
    expect(ring[2]!.x).toBe(470);
  });

  // 2 e tan(alpha) = 2 x 2.413 x 7 / 470 = 0.07188 less again.
  it("leave 52.10159 at the end if the end is bound too", () => {
    const ring = moved(insetSides(board(43, 57, 470), [0, 2.413, 2.413, 2.413]));
    expect(distance(ring[0]!, ring[1]!)).toBeCloseTo(38.1734648, 7);
    expect(distance(ring[2]!, ring[3]!)).toBeCloseTo(52.1734648 - (2 * 2.413 * 7) / 470, 6);
    expect(distance(ring[2]!, ring[3]!)).toBeCloseTo(52.10159, 5);
    expect(ring[2]!.x).toBeCloseTo(467.587, 12);
  });

  // tan(alpha) = 60 / 400 = 0.15, cos = 0.98893635: 4.826 / cos = 4.8799905; taking 4.826 off would leave 0.054 too much.
  it("leave 25.1200 and 85.1200 of a steep taper 30 / 90 / 200", () => {
    const ring = moved(insetSides(board(30, 90, 200), [0, 2.413, 0, 2.413]));
    expect(distance(ring[0]!, ring[1]!)).toBeCloseTo(25.1200095, 7);
    expect(distance(ring[2]!, ring[3]!)).toBeCloseTo(85.1200095, 7);
  });

  it.each(FRAMES)("come out the same %s, to rounding", (_, frame) => {
    const here = moved(insetSides(board(43, 57, 470), [0, 2.413, 1, 2.413]));
    const ring = placeRing(frame, board(43, 57, 470));
    // A mirrored ring is listed the other way round: its sides 0 to 3 are those 2, 1, 0, 3 of the board.
    const mirrored = distance(ring[0]!, transformPoint(frame, vec(0, 21.5))) > 1e-6;
    const there = moved(insetSides(ring, mirrored ? [1, 2.413, 0, 2.413] : [0, 2.413, 1, 2.413]));
    for (const p of here) expect(Math.min(...there.map((q) => distance(q, transformPoint(frame, p))))).toBeLessThan(1e-9);
  });

  it("take either winding", () => {
    const ring = moved(insetSides(board(43, 57, 470).toReversed(), [0, 2.413, 0, 2.413]));
    expect(ringArea(ring)).toBeCloseTo((-470 * (38.1734648 + 52.1734648)) / 2, 4);
  });

  it("stand at their distances from convex polygons, as a general offset says too", () => {
    const polygon = fc
      .array(fc.integer({ min: 0, max: 359 }), { minLength: 3, maxLength: 9 })
      .map((angles) =>
        [...new Set(angles)].toSorted((a, b) => a - b).map((angle) => polar(vec(0, 0), 50, (angle * Math.PI) / 180)),
      );
    fc.assert(
      fc.property(polygon, fc.double({ min: 0.1, max: 3, noNaN: true }), (ring, d) => {
        fc.pre(ring.length > 2 && ringArea(ring) > 50);
        const result = insetSides(
          ring,
          ring.map(() => d),
        );
        fc.pre(result.ok);
        for (const p of moved(result)) {
          const nearest = Math.min(...ring.map((a, i) => distanceToSegment(p, a, ring[(i + 1) % ring.length]!)));
          expect(nearest).toBeLessThan(d + 1e-9);
          expect(nearest).toBeGreaterThan(d - 1e-9);
        }
        expect(Math.abs(regionArea(offsetRings(uniteRings([ring]), -d)) - ringArea(moved(result)))).toBeLessThan(0.05);
      }),
    );
  });

  it("move an inner corner of an L in both sides' directions", () => {
    const ell: Ring = [vec(0, 0), vec(6, 0), vec(6, 2), vec(2, 2), vec(2, 6), vec(0, 6)];
    expect(moved(insetSides(ell, [0.5, 0.5, 0.5, 0.5, 0.5, 0.5]))).toEqual([
      vec(0.5, 0.5),
      vec(5.5, 0.5),
      vec(5.5, 1.5),
      vec(1.5, 1.5),
      vec(1.5, 5.5),
      vec(0.5, 5.5),
    ]);
    expect(ringArea(moved(insetSides(ell, [-1, -1, -1, -1, -1, -1])))).toBeCloseTo(8 * 8 - 4 * 4, 12);
  });

  it("say which side vanishes, and where two in line move by different amounts", () => {
    expect(insetSides([vec(0, 0), vec(10, 0), vec(10, 3), vec(0, 3)], [2, 0, 2, 0])).toEqual({
      ok: false,
      reason: "vanished",
      side: 1,
    });
    const split: Ring = [vec(0, 0), vec(5, 0), vec(10, 0), vec(10, 9), vec(0, 9)];
    expect(insetSides(split, [1, 2, 1, 1, 1])).toEqual({ ok: false, reason: "parallel", side: 0 });
    expect(moved(insetSides(split, [1, 1, 1, 1, 1]))[1]).toEqual(vec(5, 1));
    expect(() => insetSides(split, [1])).toThrow(RangeError);
  });
});
