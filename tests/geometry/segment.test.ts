import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { arc, cubic, line, type Segment } from "../../src/geometry/path.ts";
import {
  curvatureAt,
  derivativeAt,
  monotoneParts,
  partOf,
  pieceBounds,
  pieceLength,
  pointAt,
  reversePath,
  reversePiece,
  splitAt,
  tangentAt,
  type Piece,
} from "../../src/geometry/segment.ts";
import { bernsteinProduct, bernsteinRoots, bernsteinValue } from "../../src/geometry/bernstein.ts";
import { integrate } from "../../src/geometry/quadrature.ts";
import { distance, norm, polar, vec, type Vec } from "../../src/geometry/vec.ts";
import { bodyPath } from "./shapes.ts";

const coordinate = fc.double({ min: -100, max: 100, noNaN: true });
const point = fc.record({ x: coordinate, y: coordinate });
const anyPiece: fc.Arbitrary<Piece> = fc.oneof(
  fc.record({ from: point, to: point }).map(({ from, to }) => ({ from, segment: line(to) as Segment })),
  fc
    .record({ from: point, c1: point, c2: point, to: point })
    .map(({ from, c1, c2, to }) => ({ from, segment: cubic(c1, c2, to) as Segment })),
  fc
    .record({
      centre: point,
      radius: fc.double({ min: 0.1, max: 100, noNaN: true }),
      start: fc.double({ min: -3, max: 3, noNaN: true }),
      sweep: fc.double({ min: 0.01, max: 6.2, noNaN: true }),
      ccw: fc.boolean(),
    })
    .map(({ centre, radius, start, sweep, ccw }) => ({
      from: polar(centre, radius, start),
      segment: arc(polar(centre, radius, start + (ccw ? sweep : -sweep)), centre, ccw) as Segment,
    })),
);
const samples = (piece: Piece, n = 200): Vec[] => Array.from({ length: n + 1 }, (_, i) => pointAt(piece, i / n));

describe("segments", () => {
  it("split into parts that lie on the whole", () => {
    fc.assert(
      fc.property(anyPiece, fc.double({ min: 0.05, max: 0.95, noNaN: true }), (piece, t) => {
        const [left, right] = splitAt(piece, t);
        expect(left.segment.to).toEqual(right.from);
        for (const u of [0, 0.25, 0.5, 0.9, 1]) {
          expect(distance(pointAt(left, u), pointAt(piece, t * u))).toBeLessThan(1e-9);
          expect(distance(pointAt(right, u), pointAt(piece, t + (1 - t) * u))).toBeLessThan(1e-9);
        }
        // A curve that turns back on itself is measured to a millionth of a millimetre, its parts each anew.
        expect(Math.abs(pieceLength(left) + pieceLength(right) - pieceLength(piece))).toBeLessThan(2e-6);
      }),
    );
  });

  it("have boxes that hold them and that they touch on every side", () => {
    fc.assert(
      fc.property(anyPiece, (piece) => {
        const box = pieceBounds(piece);
        const points = samples(piece);
        for (const p of points) {
          expect(p.x).toBeGreaterThanOrEqual(box.minX - 1e-9);
          expect(p.x).toBeLessThanOrEqual(box.maxX + 1e-9);
          expect(p.y).toBeGreaterThanOrEqual(box.minY - 1e-9);
          expect(p.y).toBeLessThanOrEqual(box.maxY + 1e-9);
        }
        // Between samples the curve strays no further than a step.
        const step = Math.max(...points.slice(1).map((p, i) => distance(p, points[i]!)));
        expect(Math.min(...points.map((p) => p.x)) - box.minX).toBeLessThanOrEqual(step);
        expect(box.maxY - Math.max(...points.map((p) => p.y))).toBeLessThanOrEqual(step);
      }),
    );
  });

  it("have the exact box of a quarter arc and of a cubic worked by hand", () => {
    const half = pieceBounds({ from: vec(2, 1), segment: arc(vec(0, -1), vec(0, 1), true) });
    expect(half).toEqual({ minX: -2, minY: -1, maxX: 2, maxY: 3 });
    // y = 3 t (1 - t)^2 4 + 3 t^2 (1 - t) 4 = 12 t (1 - t), greatest 3 at t = 1/2.
    const box = pieceBounds({ from: vec(0, 0), segment: cubic(vec(0, 4), vec(10, 4), vec(10, 0)) });
    expect(box.maxY).toBeCloseTo(3, 14);
  });

  it("have derivatives, tangents and curvatures that agree with differences", () => {
    fc.assert(
      fc.property(anyPiece, fc.double({ min: 0.1, max: 0.9, noNaN: true }), (piece, t) => {
        const h = 1e-5;
        const [a, b] = [pointAt(piece, t - h), pointAt(piece, t + h)];
        const d = derivativeAt(piece, t);
        expect(Math.abs(d.x - (b.x - a.x) / (2 * h))).toBeLessThan(1e-4 * (1 + norm(d)));
        fc.pre(norm(d) > 1);
        const [u, v] = [tangentAt(piece, t - h)!, tangentAt(piece, t + h)!];
        const turn = Math.atan2(u.x * v.y - u.y * v.x, u.x * v.x + u.y * v.y);
        expect(Math.abs(curvatureAt(piece, t) - turn / (2 * h * norm(d)))).toBeLessThan(
          1e-3 * (1 + Math.abs(curvatureAt(piece, t))),
        );
      }),
    );
  });

  it("turn left with positive curvature: 1/r on a counter-clockwise arc, -1/r on a clockwise one", () => {
    expect(curvatureAt({ from: vec(4, 0), segment: arc(vec(0, 4), vec(0, 0), true) }, 0.5)).toBeCloseTo(0.25, 14);
    expect(curvatureAt({ from: vec(0, 4), segment: arc(vec(4, 0), vec(0, 0), false) }, 0.5)).toBeCloseTo(-0.25, 14);
  });

  it("give a direction even where handles lie on the ends", () => {
    const piece: Piece = { from: vec(0, 0), segment: cubic(vec(0, 0), vec(3, 4), vec(3, 4)) };
    for (const t of [0, 0.5, 1]) expect(tangentAt(piece, t)!.x).toBeCloseTo(0.6, 12);
    expect(tangentAt({ from: vec(1, 1), segment: line(vec(1, 1)) }, 0)).toBeUndefined();
  });

  it("run backwards over the same points", () => {
    fc.assert(
      fc.property(anyPiece, fc.double({ min: 0, max: 1, noNaN: true }), (piece, t) => {
        expect(distance(pointAt(reversePiece(piece), t), pointAt(piece, 1 - t))).toBeLessThan(1e-9);
      }),
    );
    const body = bodyPath();
    const back = reversePath(reversePath(body));
    expect(back).toEqual(body);
  });

  it("fall into parts that only rise or only fall", () => {
    fc.assert(
      fc.property(anyPiece, (piece) => {
        for (const part of monotoneParts(piece)) {
          const points = samples(part, 40);
          for (const axis of ["x", "y"] as const) {
            const way = Math.sign(points.at(-1)![axis] - points[0]![axis]);
            for (const [i, p] of points.slice(1).entries()) expect((p[axis] - points[i]![axis]) * way).toBeGreaterThan(-1e-9);
          }
        }
      }),
    );
  });

  it("measure a cubic's length by quadrature: half the circumference of a parabola's arch", () => {
    // The parabola y = x^2 from 0 to 1 as a cubic; its length is sqrt(5) / 2 + asinh(2) / 4 (any calculus table).
    const piece: Piece = { from: vec(0, 0), segment: cubic(vec(1 / 3, 0), vec(2 / 3, 1 / 3), vec(1, 1)) };
    expect(pieceLength(piece)).toBeCloseTo(Math.sqrt(5) / 2 + Math.asinh(2) / 4, 9);
    const part = partOf(piece, 0.5, 1);
    expect(pieceLength(part)).toBeCloseTo(pieceLength(piece, 0.5, 1), 9);
  });
});

describe("polynomials in Bernstein form", () => {
  it("multiply as their values do", () => {
    const value = fc.double({ min: -10, max: 10, noNaN: true });
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 4 }), fc.array(value, { minLength: 1, maxLength: 4 }), (a, b) => {
        for (const t of [0, 0.3, 0.77, 1])
          expect(bernsteinValue(bernsteinProduct(a, b), t)).toBeCloseTo(bernsteinValue(a, t) * bernsteinValue(b, t), 9);
      }),
    );
  });

  it("give back the roots they are built from", () => {
    const root = fc.integer({ min: 0, max: 50 }).map((k) => k / 50);
    fc.assert(
      fc.property(fc.uniqueArray(root, { minLength: 1, maxLength: 5 }), (roots) => {
        // (t - r) has the coefficients -r and 1 - r.
        const c = roots.map((r) => [-r, 1 - r]).reduce(bernsteinProduct);
        const found = bernsteinRoots(c);
        const sorted = roots.toSorted((a, b) => a - b);
        expect(found).toHaveLength(sorted.length);
        for (const [i, r] of sorted.entries()) expect(found[i]).toBeCloseTo(r, 7);
      }),
    );
    expect(bernsteinRoots([1, 2, 3])).toEqual([]);
    expect(bernsteinRoots([0, 0, 0])).toEqual([]);
  });
});

describe("quadrature", () => {
  it("is exact for polynomials and good for the rest", () => {
    expect(integrate((x) => x ** 19, 0, 1)).toBeCloseTo(1 / 20, 14);
    expect(integrate(Math.sin, 0, Math.PI)).toBeCloseTo(2, 12);
    expect(integrate((x) => Math.sqrt(x), 0, 1)).toBeCloseTo(2 / 3, 8);
  });
});
