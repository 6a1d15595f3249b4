import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fallOver, radiusAt } from "../../src/lutherie/board-radius.ts";
import { crownLength, slotDepth, tangLength } from "../../src/lutherie/fret-wire.ts";

describe("the arch of a board", () => {
  it("falls by R - sqrt(R^2 - (w/2)^2), worked by hand", () => {
    // R 305, w 50: 305 - sqrt(93025 - 625) = 305 - 303.973683 = 1.026317.
    expect(fallOver(305, 50)).toBeCloseTo(1.026317, 6);
    // The 3-4-5 triangle: R 50, half chord 30, height 40: falls by exactly 10.
    expect(fallOver(50, 60)).toBe(10);
    expect(fallOver(undefined, 60)).toBe(0);
    expect(fallOver(20, 60)).toBe(20);
  });

  it("of a compound board has a radius that grows in a straight line and is carried on", () => {
    const compound = { atNut: 254, atEnd: 406.4, endX: 450 };
    expect(radiusAt(compound, 0)).toBe(254);
    expect(radiusAt(compound, 225)).toBeCloseTo(330.2, 9);
    expect(radiusAt(compound, 645)).toBeCloseTo(254 + (152.4 * 645) / 450, 9);
  });
});

describe("fret wire", () => {
  it("needs a slot as deep as tang, room and fall of the face, worked by hand", () => {
    // R 305, slot 50 long, tang 1.6, room 0.3: 1.6 + 0.3 + 1.026317 = 2.926317.
    expect(slotDepth(1.6, 0.3, 305, 50)).toBeCloseTo(2.926317, 6);
    expect(slotDepth(1.6, 0.3, undefined, 50)).toBeCloseTo(1.9, 12);
  });

  it("has its tang nipped at both ends, down to nothing", () => {
    expect(tangLength(47.85, 0.5)).toBeCloseTo(46.85, 9);
    expect(tangLength(1, 0.6)).toBe(0);
  });

  it("has a crown of 2 R asin(w / 2R), worked by hand", () => {
    // R 305, w 54, s = 27 / 305 = 0.08852459; asin(s) = s + s^3/6 + 3 s^5/40 + ... = 0.08852459 + 0.00011562 + 0.00000041 =
    // 0.08864062; 610 x 0.08864062 = 54.07078.
    expect(crownLength(305, 54, 0)).toBeCloseTo(54.07078, 4);
    // Half a turn about R 30: pi R.
    expect(crownLength(30, 60, 0)).toBeCloseTo(Math.PI * 30, 9);
    expect(crownLength(undefined, 54, 0.1)).toBe(54);
  });

  it("has a slanted crown as long as the curve summed up in small straight pieces", () => {
    const radius = 250;
    const along = 58;
    const slant = 0.2;
    const steps = 20000;
    let sum = 0;
    let before: [number, number] | undefined;
    for (let i = 0; i <= steps; i++) {
      const s = -along / 2 + (along * i) / steps;
      const across = s * Math.cos(slant);
      const point: [number, number] = [s, Math.sqrt(radius * radius - across * across)];
      if (before) sum += Math.hypot(point[0] - before[0], point[1] - before[1]);
      before = point;
    }
    expect(crownLength(radius, along, slant)).toBeCloseTo(sum, 6);
    expect(crownLength(radius, along, 1e-9)).toBeCloseTo(crownLength(radius, along, 0), 9);
  });

  it("never has a crown shorter than the straight fret", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 50, max: 5000, noNaN: true }),
        fc.double({ min: 1, max: 99, noNaN: true }),
        fc.double({ min: -0.5, max: 0.5, noNaN: true }),
        (radius, along, slant) => {
          expect(crownLength(radius, along, slant)).toBeGreaterThanOrEqual(along - 1e-9);
        },
      ),
    );
  });
});
