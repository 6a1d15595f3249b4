/** Lettering under maps. Places by hand: capitals of 10 stand from their base line up, descenders reach 3.2 below it, so that the middle lies 3.4 up. */
import { describe, expect, it } from "vitest";
import type { Text } from "../../src/drawing/drawing.ts";
import { moveLayer } from "../../src/drawing/move.ts";
import { mirroring, rotation, translation, type Affine } from "../../src/geometry/transform.ts";
import { ORIGIN, vec, type Vec } from "../../src/geometry/vec.ts";
import { textCorners } from "../../src/sheets/ink.ts";

const text = (align: Text["align"], angle?: number): Text => ({
  id: "t",
  at: vec(5, 20),
  text: "AB",
  height: 10,
  align,
  ...(angle === undefined ? {} : { angle }),
});
const moved = (by: Affine, given: Text): Text => moveLayer(by, { name: "l", shapes: [], texts: [given] }).texts![0]!;
const IN_X = mirroring(ORIGIN, vec(1, 0));
const IN_Y = mirroring(ORIGIN, vec(0, 1));

/** How it stands, to 9 places. */
function expectAt({ at, align, angle = 0 }: Text, x: number, y: number, aligned: Text["align"], turn: number): void {
  expect(at.x).toBeCloseTo(x, 9);
  expect(at.y).toBeCloseTo(y, 9);
  expect(align).toBe(aligned);
  expect(angle).toBeCloseTo(turn, 9);
}

describe("lettering that is moved", () => {
  it("goes along unchanged", () => {
    expectAt(moved(translation(vec(1, -2)), text("start")), 6, 18, "start", 0);
  });

  it("mirrored in a level line keeps its line of reading, and its letters fill the mirrored place: the middle at -23.4", () => {
    for (const align of ["start", "middle", "end"] as const) expectAt(moved(IN_X, text(align)), 5, -23.4 - 3.4, align, 0);
  });

  it("mirrored in an upright line runs on from where it ended", () => {
    expectAt(moved(IN_Y, text("start")), -5, 20, "end", 0);
    expectAt(moved(IN_Y, text("middle")), -5, 20, "middle", 0);
    expectAt(moved(IN_Y, text("end")), -5, 20, "start", 0);
  });

  it("turned by half stands head up in the turned place", () => {
    expectAt(moved(rotation(Math.PI), text("start")), -5, -23.4 - 3.4, "end", 0);
  });

  it("is read from below or from the right: upright it runs upwards, whichever way it is turned or mirrored (ISO 129-1)", () => {
    const upright = text("start", Math.PI / 2);
    // Its middle lies 3.4 to the left of its base line, at x = 1.6.
    expectAt(moved(IN_X, upright), 5, -20, "end", Math.PI / 2);
    expectAt(moved(IN_Y, upright), -1.6 + 3.4, 20, "start", Math.PI / 2);
    expectAt(moved(rotation(-Math.PI / 2), text("start")), 23.4 + 3.4, -5, "end", Math.PI / 2);
  });

  it("takes the very room that the map gives its box", () => {
    for (const by of [IN_X, IN_Y, rotation(2.5), mirroring(vec(3, 1), vec(2, 5))])
      for (const align of ["start", "middle", "end"] as const) {
        const before = text(align, 0.4);
        const middle = (one: Text): Vec => {
          const [a, , c] = textCorners(one);
          return vec((a!.x + c!.x) / 2, (a!.y + c!.y) / 2);
        };
        const { x, y } = middle(before);
        const now = middle(moved(by, before));
        expect(now.x).toBeCloseTo(by.a * x + by.c * y + by.e, 9);
        expect(now.y).toBeCloseTo(by.b * x + by.d * y + by.f, 9);
      }
  });
});
