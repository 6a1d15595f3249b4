import { describe, expect, it } from "vitest";
import { chordOver, insertBlank, placeOnSide } from "../../src/lutherie/curved-side.ts";

describe("a flat template on a curved side", () => {
  it("shortens 100 mm round a radius of 150 to the chord 2 · 150 sin(1/3) = 98.158", () => {
    expect(chordOver(100, 150)).toBeCloseTo(98.1584, 4);
    expect(chordOver(100, Infinity)).toBe(100);
  });

  it("agrees with half-angle geometry by hand at u = 40 on a radius of 100: asin 0.4 = 23.578°, fall 8.348, along 41.152", () => {
    const { along, stretch, fall, lean } = placeOnSide(40, 100);
    expect((lean * 180) / Math.PI).toBeCloseTo(23.578, 3);
    expect(along).toBeCloseTo(41.152, 3);
    expect(stretch).toBeCloseTo(1.152, 3);
    expect(fall).toBeCloseTo(100 - Math.sqrt(10000 - 1600), 10);
    expect(placeOnSide(-40, 100)).toEqual({ along: -along, stretch, fall, lean });
    expect(insertBlank(80, 3, 100)).toBeCloseTo(3 + 8.3485, 4);
  });

  it("is the inverse of the chord: the straight distance over the arc between two mirrored points is the template's own width", () => {
    for (const u of [1, 15, 40, 70]) expect(chordOver(2 * placeOnSide(u, 90).along, 90)).toBeCloseTo(2 * u, 10);
  });

  it("changes nothing on a flat side", () =>
    expect(placeOnSide(40, Infinity)).toEqual({ along: 40, stretch: 0, fall: 0, lean: 0 }));

  it("refuses a template wider than the side is round", () => {
    expect(() => placeOnSide(100, 100)).toThrow(RangeError);
    expect(() => placeOnSide(Number.NaN, 100)).toThrow(RangeError);
    expect(() => chordOver(400, 100)).toThrow(RangeError);
    expect(() => insertBlank(0, 3, 100)).toThrow(RangeError);
  });
});
