import { describe, expect, it } from "vitest";
import { drawOutline } from "../../../src/geometry/drawn/outline.ts";
import { mirroredPoints } from "../../../src/geometry/drawn/point.ts";
import { pointsOf } from "../../../src/geometry/drawn/points-of.ts";
import { pathArea } from "../../../src/geometry/measure.ts";
import { nearestOnPath } from "../../../src/geometry/nearest.ts";
import { arc, cubic, line, type Path } from "../../../src/geometry/path.ts";
import { piecesOf, pointAt } from "../../../src/geometry/segment.ts";
import { vec } from "../../../src/geometry/vec.ts";

const half: Path = {
  start: vec(0, 0),
  segments: [
    line(vec(0, 30)),
    cubic(vec(0, 60), vec(20, 70), vec(50, 70)),
    cubic(vec(80, 70), vec(90, 50), vec(120, 50)),
    arc(vec(170, 0), vec(120, 0), false),
  ],
  closed: false,
};

describe("pointsOf", () => {
  it("gives points that draw the same lines, curves and arcs again", () => {
    const drawn = drawOutline(mirroredPoints(pointsOf(half)))!;
    expect(drawn.troubles).toEqual([]);
    for (const piece of piecesOf(half))
      for (let k = 0; k <= 8; k++) {
        const at = pointAt(piece, k / 8);
        expect(nearestOnPath(drawn.path, at).distance).toBeLessThan(1e-6);
        expect(nearestOnPath(drawn.path, vec(at.x, -at.y)).distance).toBeLessThan(1e-6);
      }
    expect(Math.abs(pathArea(drawn.path))).toBeGreaterThan(0);
  });

  it("makes a fair point where the outline runs on smoothly and a corner where it does not", () => {
    expect(pointsOf(half).map(({ kind }) => kind)).toEqual(["corner", "fair", "fair", "fair", "corner"]);
    expect(pointsOf({ start: vec(0, 0), segments: [line(vec(1, 0)), line(vec(1, 1))], closed: false })[1]!.kind).toBe("corner");
  });

  it("has none for a path without segments", () => {
    expect(pointsOf({ start: vec(0, 0), segments: [], closed: false })).toEqual([]);
  });
});
