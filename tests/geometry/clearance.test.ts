import { describe, expect, it } from "vitest";
import { clearance } from "../../src/geometry/clearance.ts";
import { circle, segmentPath } from "../../src/geometry/path.ts";
import { polar, vec } from "../../src/geometry/vec.ts";

describe("the least distance of two edges", () => {
  it("is found to 1e-6 where they nearly touch: a circle of 50 and a line, or a circle of 130 about it, by construction", () => {
    for (const gap of [0.1, 1, 10])
      for (let angle = 0.3; angle < 3; angle += 0.17) {
        const round = circle(vec(0, 0), 50);
        const foot = polar(vec(0, 0), 50 + gap, angle);
        const line = segmentPath(polar(foot, -200, angle + Math.PI / 2), polar(foot, 300, angle + Math.PI / 2));
        const about = circle(polar(vec(0, 0), 80 - gap, angle), 130);
        for (const [a, b] of [
          [round, line],
          [line, round],
          [round, about],
        ] as const)
          expect(Math.abs(clearance(a, b).distance - gap), `${gap} at ${angle}`).toBeLessThan(1e-6);
      }
  });
});
