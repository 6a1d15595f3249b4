import { describe, expect, it } from "vitest";
import { radiusAt } from "../../src/lutherie/board-radius.ts";
import { saddleTop } from "../../src/lutherie/saddle-top.ts";

const string = (y: number, actionAt12 = 2.2) => ({ y, actionAt12, nutHeight: 0.4, x: 650, scale: 650 });

const fall = (y: number): number => 305 - Math.sqrt(305 ** 2 - y ** 2);

describe("saddleTop", () => {
  it("works a string by hand: 27 out on a radius of 400, 2·2.2 - 0.4 - (400 - sqrt(400² - 27²)) = 4 - 0.9123 = 3.0877", () => {
    expect(saddleTop(string(27), 400)).toBeCloseTo(3.0877, 4);
    expect(saddleTop(string(-27), 400)).toBe(saddleTop(string(27), 400));
  });

  it("is level under a flat board", () => {
    expect(saddleTop(string(27), undefined)).toBeCloseTo(4, 12);
    expect(saddleTop(string(0), undefined)).toBeCloseTo(4, 12);
  });

  it("counts the string's own setback: 4 mm behind the scale it stands (2.2 - 0.4)·8/650 higher", () => {
    expect(saddleTop({ ...string(0), x: 654 }, undefined) - 4).toBeCloseTo((1.8 * 8) / 650, 12);
  });

  it("keeps the action exactly along a string that runs up the cone of a compound board (checked point by point in space)", () => {
    // A cone of radius 305 at the nut and 508 at 650; the string keeps its share of the radius, so it runs up the cone's side.
    const board = { atNut: 305, atEnd: 508, endX: 650 };
    const share = 18 / 305;
    const face = (x: number): number => {
      const r = radiusAt(board, x);
      return -(r - Math.sqrt(r * r - (share * r) ** 2));
    };
    const ySaddle = share * radiusAt(board, 650);
    const saddle = saddleTop(string(ySaddle), radiusAt(board, 650));
    const nut = 0.4 + face(0);
    const at12 = nut + (saddle - nut) / 2;
    expect(at12 - face(325)).toBeCloseTo(2.2, 12);
  });

  it("loses about (27 - 18)² / (8 · 305) = 0.033 at fret 12 where a string fans across a plain radius of 305", () => {
    const nut = 0.4 - fall(18);
    const at12 = (nut + saddleTop(string(27), 305)) / 2 + fall(22.5);
    expect(2.2 - at12).toBeCloseTo(0.033, 3);
  });

  it("refuses a string beyond the arch and what is no number", () => {
    expect(() => saddleTop(string(27), 20)).toThrow(RangeError);
    expect(() => saddleTop(string(Number.NaN), undefined)).toThrow(RangeError);
    expect(() => saddleTop({ ...string(0), scale: 0 }, undefined)).toThrow(RangeError);
  });
});
