import { describe, expect, it } from "vitest";
import { vec } from "../../src/geometry/vec.ts";
import { lineAcross, meetEdge, movedBy, pointAt, slantOf } from "../../src/lutherie/transverse-line.ts";

describe("lines across the board", () => {
  it("run through both points and cross the centre line between them", () => {
    const line = lineAcross(vec(98, -20), vec(104, 10));
    expect(line).toEqual({ x0: expect.closeTo(102, 12), q: expect.closeTo(0.2, 12) });
    expect(pointAt(line, -20).x).toBeCloseTo(98, 12);
    expect(slantOf(line)).toBeCloseTo(Math.atan(0.2), 12);
  });

  it("are square where both points have one height", () => {
    expect(lineAcross(vec(5, 3), vec(7, 3))).toEqual({ x0: 6, q: 0 });
  });

  it("meet the edges of a tapered board where both equations hold", () => {
    // x = 100 + 0.2 y and y = 0.02 x + 20: y (1 - 0.004) = 22, y = 22.0883534.
    const line = { x0: 100, q: 0.2 };
    expect(meetEdge(line, 0.02, 20)?.y).toBeCloseTo(22.0883534, 6);
    // The other edge y = -0.02 x - 20: y (1 + 0.004) = -22, y = -21.9123506.
    expect(meetEdge(line, -0.02, -20)?.y).toBeCloseTo(-21.9123506, 6);
  });

  it("meet no edge when they lean as steeply as the edges run", () => {
    expect(meetEdge({ x0: 0, q: 10 }, 0.1, 5)).toBeUndefined();
    expect(meetEdge({ x0: 0, q: 10 }, -0.1, 5)).toBeUndefined();
  });

  it("move square to themselves", () => {
    // The 3-4-5 triangle: q = 3/4, 1 / cos = 5/4.
    expect(movedBy({ x0: 10, q: 0.75 }, 2)).toEqual({ x0: 12.5, q: 0.75 });
  });
});
