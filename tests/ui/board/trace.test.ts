import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { arcSweep } from "../../../src/geometry/arc.ts";
import { arc, circle, cubic, line, rectangle, type Path, type Segment } from "../../../src/geometry/path.ts";
import { piecesOf, pointAt } from "../../../src/geometry/segment.ts";
import { polar, vec, type Vec } from "../../../src/geometry/vec.ts";
import { snapFor, tracePath, type Tracer } from "../../../src/ui/board/trace.ts";
import { toScreen, type Px, type View } from "../../../src/ui/board/viewport.ts";

const view: View = { camera: { centre: vec(3, -2), pxPerMm: 2.5 }, width: 640, height: 480 };

/**
 * A canvas that keeps the middle of every segment laid down, reckoned by the rules of the HTML standard for `arc` (angles clockwise from
 * the x axis with y down; counter-clockwise when the last argument is true) and by Bernstein's formula for `bezierCurveTo`.
 */
function recorder() {
  const middles: Px[] = [];
  const ends: Px[] = [];
  let at: Px = { x: NaN, y: NaN };
  let closed = 0;
  const go = (to: Px, middle: Px): void => {
    middles.push(middle);
    ends.push(to);
    at = to;
  };
  const tracer: Tracer = {
    moveTo: (x, y) => {
      at = { x, y };
    },
    lineTo: (x, y) => go({ x, y }, { x: (at.x + x) / 2, y: (at.y + y) / 2 }),
    arc: (x, y, r, from, to, ccw = false) => {
      const turn = 2 * Math.PI;
      const sweep = ccw ? -((((from - to) % turn) + turn) % turn) : (((to - from) % turn) + turn) % turn;
      const on = (angle: number): Px => ({ x: x + r * Math.cos(angle), y: y + r * Math.sin(angle) });
      // The standard joins the point before to the start of the arc by a line: there must be none to join.
      expect(Math.hypot(at.x - on(from).x, at.y - on(from).y)).toBeLessThan(1e-6);
      go(on(to), on(from + sweep / 2));
    },
    bezierCurveTo: (ax, ay, bx, by, x, y) =>
      go({ x, y }, { x: (at.x + 3 * ax + 3 * bx + x) / 8, y: (at.y + 3 * ay + 3 * by + y) / 8 }),
    closePath: () => {
      closed++;
    },
  };
  return { tracer, middles, ends, closed: () => closed };
}

const coordinate = fc.double({ min: -300, max: 300, noNaN: true });
const point: fc.Arbitrary<Vec> = fc.record({ x: coordinate, y: coordinate });
const angle = fc.double({ min: -3, max: 3, noNaN: true });

describe("paths on the canvas", () => {
  it("pass through the middle and the end of every side, arc and cubic", () => {
    const step = fc.oneof(
      point.map((to) => ({ kind: "line" as const, to })),
      fc.record({ kind: fc.constant("cubic" as const), c1: point, c2: point, to: point }),
      fc.record({
        kind: fc.constant("arc" as const),
        radius: fc.double({ min: 1, max: 200, noNaN: true }),
        start: angle,
        end: angle,
        ccw: fc.boolean(),
      }),
    );
    fc.assert(
      fc.property(point, fc.array(step, { minLength: 1, maxLength: 6 }), (start, steps) => {
        let from = start;
        const segments = steps.map((s): Segment => {
          const segment =
            s.kind === "line"
              ? line(s.to)
              : s.kind === "cubic"
                ? cubic(s.c1, s.c2, s.to)
                : ((centre) => arc(polar(centre, s.radius, s.end), centre, s.ccw))(polar(from, -s.radius, s.start));
          from = segment.to;
          return segment;
        });
        const path: Path = { start, segments, closed: false };
        // An arc of hardly any sweep may be told from a full turn by rounding alone.
        fc.pre(piecesOf(path).every(({ from: a, segment: s }) => s.kind !== "arc" || Math.abs(arcSweep(a, s)) > 1e-3));
        const kept = recorder();
        tracePath(kept.tracer, path, view);
        piecesOf(path).forEach((piece, i) => {
          for (const [got, want] of [
            [kept.middles[i]!, toScreen(view, pointAt(piece, 0.5))],
            [kept.ends[i]!, toScreen(view, piece.segment.to)],
          ] as const)
            expect(Math.hypot(got.x - want.x, got.y - want.y)).toBeLessThan(1e-5);
        });
        expect(kept.closed()).toBe(0);
      }),
    );
  });

  it("close where the path is closed", () => {
    const kept = recorder();
    tracePath(kept.tracer, circle(vec(10, 10), 4), view);
    expect(kept.closed()).toBe(1);
    expect(kept.ends).toHaveLength(2);
  });

  it("moves upright and level sides to the middle of a device pixel for a line one pixel wide, by half a pixel at most", () => {
    const path = rectangle(0.13, 0.29, 40.37, 20.41);
    for (const ratio of [1, 1.5, 2]) {
      const kept = recorder();
      tracePath(kept.tracer, path, view, snapFor(1 / ratio, ratio));
      kept.ends.forEach((end, i) => {
        const plain = toScreen(view, path.segments[i]!.to);
        for (const axis of ["x", "y"] as const) {
          expect(Math.abs(((end[axis] * ratio) % 1) - 0.5)).toBeLessThan(1e-9);
          expect(Math.abs(end[axis] - plain[axis])).toBeLessThanOrEqual(0.5 / ratio + 1e-9);
        }
      });
    }
  });

  it("leaves slanted sides where they are", () => {
    const path: Path = { start: vec(0.13, 0.29), segments: [line(vec(40, 3))], closed: false };
    const kept = recorder();
    tracePath(kept.tracer, path, view, snapFor(1, 1));
    expect(kept.ends[0]).toEqual(toScreen(view, vec(40, 3)));
  });

  it("puts a line two device pixels wide between two of them", () => {
    expect(snapFor(2, 1)(10.4)).toBe(10);
    expect(snapFor(1, 1)(10.4)).toBe(10.5);
    expect(snapFor(1, 2)(10.4)).toBe(10.5);
  });
});
