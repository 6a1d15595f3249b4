import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { insetSides } from "../../../src/geometry/inset-sides.ts";
import { pathArea } from "../../../src/geometry/measure.ts";
import { vec } from "../../../src/geometry/vec.ts";
import { taperThrough } from "../../../src/lutherie/fingerboard-taper.ts";
import { clipAcross, edgesOf, outlinePath, stripPath, type BoardFrame } from "../../../src/parts/fingerboard/outline.ts";

const mm = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

/** Boards with slanted nuts and straight, slanted or hollow ends. */
const frames: fc.Arbitrary<BoardFrame> = fc
  .record({
    nut: mm(20, 70),
    end: mm(20, 90),
    length: mm(120, 600),
    nutSlant: mm(-0.5, 0.5),
    endSlant: mm(-0.5, 0.5),
    radius: mm(0, 80),
  })
  .map(({ nut, end, length, nutSlant, endSlant, radius }) => ({
    taper: taperThrough(nut, length, end),
    start: { x0: 0, q: nutSlant },
    // Radii too small for the board stand for a straight end.
    end:
      radius > 60
        ? { kind: "arc" as const, centre: vec(length + radius, 0), radius }
        : { kind: "line" as const, line: { x0: length, q: endSlant } },
  }));

describe("a board moved in", () => {
  it("has the corners that the kernel's mitred inset gives, for straight ends", () => {
    let compared = 0;
    fc.assert(
      fc.property(frames, mm(0, 6), mm(0, 6), (frame, side, end) => {
        const whole = edgesOf(frame, 0, 0);
        const inner = edgesOf(frame, side, end);
        if (!whole || !inner || frame.end.kind === "arc") return;
        compared += 1;
        const ring = [whole.lowStart, whole.lowEnd, whole.highEnd, whole.highStart];
        const expected = insetSides(ring, [side, end, side, 0]);
        if (!expected.ok) throw new Error(`the kernel finds the board ${expected.reason}`);
        [inner.lowStart, inner.lowEnd, inner.highEnd, inner.highStart].forEach((corner, i) => {
          expect(corner.x).toBeCloseTo(expected.ring[i]!.x, 7);
          expect(corner.y).toBeCloseTo(expected.ring[i]!.y, 7);
        });
      }),
    );
    expect(compared).toBeGreaterThan(50);
  });

  it("never grows, and loses just the area of its strips", () => {
    fc.assert(
      fc.property(frames, mm(0.1, 6), fc.boolean(), (frame, side, bindEnd) => {
        const outer = edgesOf(frame, 0, 0);
        const inner = edgesOf(frame, side, bindEnd ? side : 0);
        if (!outer || !inner) return;
        const area = (edges: typeof outer): number => pathArea(outlinePath(edges));
        const strips = (["low", "high", ...(bindEnd ? (["end"] as const) : [])] as const).map((place) =>
          Math.abs(pathArea(stripPath(outer, inner, place))),
        );
        expect(area(inner)).toBeLessThan(area(outer));
        expect(area(outer) - area(inner)).toBeCloseTo(
          strips.reduce((sum, strip) => sum + strip, 0),
          6,
        );
      }),
    );
  });

  it("cuts lines across it so that no piece lies outside", () => {
    fc.assert(
      fc.property(frames, mm(-50, 700), mm(-0.6, 0.6), (frame, x0, q) => {
        const edges = edgesOf(frame, 0, 0);
        const piece = edges && clipAcross({ x0, q }, edges);
        if (!edges || !piece) return;
        for (const t of [0, 0.25, 0.5, 0.75, 1]) {
          const y = piece[0].y + (piece[1].y - piece[0].y) * t;
          const x = x0 + q * y;
          expect(Math.abs(y)).toBeLessThanOrEqual(edges.m * x + edges.c + 1e-6);
          expect(x).toBeGreaterThanOrEqual(edges.start.x0 + edges.start.q * y - 1e-6);
          if (edges.end.kind === "line") expect(x).toBeLessThanOrEqual(edges.end.line.x0 + edges.end.line.q * y + 1e-6);
          else expect(Math.hypot(x - edges.end.centre.x, y)).toBeGreaterThanOrEqual(edges.end.radius - 1e-6);
        }
      }),
      { numRuns: 300 },
    );
  });
});
