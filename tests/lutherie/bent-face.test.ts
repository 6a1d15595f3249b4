import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { arc, cubic, line, type Path } from "../../src/geometry/path.ts";
import { vec } from "../../src/geometry/vec.ts";
import { bentFace } from "../../src/lutherie/bent-face.ts";

/** Half a turn of radius r, the instrument (its middle) to the left. */
const half = (r: number): Path => ({ start: vec(r, 0), segments: [arc(vec(-r, 0), vec(0, 0), true)], closed: false });
/** The same seen from its other face: hollow. */
const hollow = (r: number): Path => ({ start: vec(-r, 0), segments: [arc(vec(r, 0), vec(0, 0), false)], closed: false });

describe("a template on a bent face", () => {
  it("lies on a cylinder as brute force over its points finds: a dense row of angles, the nearest to each u", () => {
    const r = 137;
    const face = bentFace(half(r), (Math.PI * r) / 2, 100)!;
    expect(face.radius).toBeCloseTo(r, 9);
    for (const u of [-70, -31.4, -5, 0, 12.3, 44, 80]) {
      // Outside: walk round the cylinder in steps of 1e-6 radians, by bisection on the chord's foot.
      let [low, high] = [-1.2, 1.2];
      for (let i = 0; i < 200; i++) {
        const middle = (low + high) / 2;
        if (r * Math.sin(middle) < u) low = middle;
        else high = middle;
      }
      const place = face.place(u)!;
      expect(place.along).toBeCloseTo(r * low, 6);
      expect(place.fall).toBeCloseTo(r - r * Math.cos(low), 6);
      expect(place.lean).toBeCloseTo(Math.abs(low), 4);
      expect(face.flat(r * low)!).toBeCloseTo(u, 6);
    }
  });

  it("is shorter on the inner face, on its own radius", () => {
    const [r, t] = [120, 2.4];
    const inner = bentFace(half(r), (Math.PI * r) / 2, 90, t)!;
    expect(inner.radius).toBeCloseTo(r - t, 9);
    for (const u of [-60, 7, 55]) {
      expect(inner.place(u)!.along).toBeCloseTo((r - t) * Math.asin(u / (r - t)), 5);
      expect(inner.place(u)!.fall).toBeCloseTo(r - t - Math.sqrt((r - t) ** 2 - u * u), 5);
    }
  });

  it("stands above the template's plane on a hollow side, by the same amount", () => {
    const face = bentFace(hollow(150), (Math.PI * 150) / 2, 80)!;
    expect(face.radius).toBeCloseTo(-150, 9);
    expect(face.place(40)!.fall).toBeCloseTo(-(150 - Math.sqrt(150 ** 2 - 1600)), 6);
    expect(face.place(40)!.along).toBeCloseTo(150 * Math.asin(40 / 150), 6);
  });

  it("changes nothing on a straight side", () => {
    const straight: Path = { start: vec(300, 20), segments: [line(vec(0, 20))], closed: false };
    const face = bentFace(straight, 150, 60)!;
    expect(face.radius).toBe(Infinity);
    for (const u of [-50, 0, 33])
      expect(face.place(u)).toEqual({ along: expect.closeTo(u, 9), fall: expect.closeTo(0, 9), lean: 0 });
  });

  it("agrees on any curve with its length and its points summed in small steps", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 60, max: 140, noNaN: true }),
        fc.double({ min: 20, max: 90, noNaN: true }),
        fc.double({ min: -0.7, max: 0.7, noNaN: true }),
        (bulge, handle, share) => {
          const plan: Path = {
            start: vec(200, 0),
            segments: [cubic(vec(200 - handle, bulge), vec(handle, bulge), vec(0, 20))],
            closed: false,
          };
          const n = 40_000;
          const points = Array.from({ length: n + 1 }, (_, i) => {
            const t = i / n;
            const w = [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3];
            return vec(w[0]! * 200 + w[1]! * (200 - handle) + w[2]! * handle, w[1]! * bulge + w[2]! * bulge + w[3]! * 20);
          });
          const lengths = [0];
          for (let i = 1; i <= n; i++)
            lengths.push(lengths[i - 1]! + Math.hypot(points[i]!.x - points[i - 1]!.x, points[i]!.y - points[i - 1]!.y));
          const at = 0.5 * lengths[n]!;
          const face = bentFace(plan, at, 30)!;
          const k = lengths.findIndex((s) => s >= at);
          const way = vec(points[k + 1]!.x - points[k - 1]!.x, points[k + 1]!.y - points[k - 1]!.y);
          const size = Math.hypot(way.x, way.y);
          const [tx, ty] = [way.x / size, way.y / size];
          const u = 25 * share;
          const j = points.findIndex(
            (p, i) => i > 0 && lengths[i]! > at - 40 && (p.x - points[k]!.x) * tx + (p.y - points[k]!.y) * ty >= u,
          );
          const place = face.place(u)!;
          expect(Math.abs(place.along - (lengths[j]! - at))).toBeLessThan(0.03);
          // Outward of the plan, whose instrument lies to its left, is to the right of its way.
          const fall = -((points[j]!.x - points[k]!.x) * ty - (points[j]!.y - points[k]!.y) * tx);
          expect(Math.abs(place.fall - fall)).toBeLessThan(0.03);
        },
      ),
      { numRuns: 20 },
    );
  });

  it("has no place beyond the side or where the side stands steep against it", () => {
    expect(bentFace(half(50), 500, 10)).toBeUndefined();
    const face = bentFace(half(50), (Math.PI * 50) / 2, 200)!;
    expect(face.place(49.9)).toBeUndefined();
    expect(face.to).toBeLessThan(50);
    expect(face.place(45)).toBeDefined();
  });
});
