import { describe, expect, it } from "vitest";
import { breakAngle, scarf } from "../../src/lutherie/head-angle.ts";

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

describe("scarf", () => {
  it("cuts a blank of 20 at 15 degrees with a face of 20/sin 15° = 77.27, laid out over 20/tan 15° = 74.64", () => {
    const { cutFace, layout } = scarf(20, radians(15));
    expect(cutFace).toBeCloseTo(77.27, 2);
    expect(layout).toBeCloseTo(74.64, 2);
    // Pythagoras: the cut face is the hypotenuse over the layout and the thickness.
    expect(cutFace).toBeCloseTo(Math.hypot(layout, 20), 10);
  });

  it("refuses no thickness, no tilt and more than a quarter turn", () => {
    for (const [t, a] of [
      [0, 0.2],
      [20, 0],
      [20, 1.6],
      [Number.NaN, 0.2],
    ] as const)
      expect(() => scarf(t, a)).toThrow(RangeError);
  });
});

describe("breakAngle", () => {
  it("adds to a tilt of 15 degrees the fall from 9 in the slot to 5 at a post 60 away: atan(4/60) = 3.814, so 18.814 degrees", () => {
    const angle = breakAngle({ heightInNut: 9, heightAtPost: 5, distance: 60 }, radians(15));
    expect((angle * 180) / Math.PI).toBeCloseTo(18.814, 3);
  });

  it("is the tilt alone where the string runs level with the head, and its fall alone on a straight head", () => {
    expect(breakAngle({ heightInNut: 6, heightAtPost: 6, distance: 80 }, radians(14))).toBe(radians(14));
    expect(breakAngle({ heightInNut: 12, heightAtPost: 4, distance: 8 }, 0)).toBeCloseTo(radians(45), 12);
  });

  it("agrees with the angle between the two runs drawn as vectors", () => {
    const tilt = radians(13);
    // Along the board, then down the head's face by the distance and off it by the fall.
    const [along, off] = [70, -3];
    const run = [along * Math.cos(tilt) + off * Math.sin(tilt), -along * Math.sin(tilt) + off * Math.cos(tilt)] as const;
    expect(breakAngle({ heightInNut: 8, heightAtPost: 5, distance: 70 }, tilt)).toBeCloseTo(-Math.atan2(run[1], run[0]), 12);
  });

  it("refuses a post on the nut and what is no number", () => {
    expect(() => breakAngle({ heightInNut: 8, heightAtPost: 5, distance: 0 }, 0.2)).toThrow(RangeError);
    expect(() => breakAngle({ heightInNut: Number.NaN, heightAtPost: 5, distance: 10 }, 0.2)).toThrow(RangeError);
    expect(() => breakAngle({ heightInNut: 8, heightAtPost: 5, distance: 10 }, -0.1)).toThrow(RangeError);
  });
});
