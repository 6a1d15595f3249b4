import { describe, expect, it } from "vitest";
import { movedIn, taperThrough, widthAt } from "../../src/lutherie/fingerboard-taper.ts";

describe("a tapered board moved in for its binding", () => {
  it("43 to 57 over 470, moved in by 2.413, is 38.17346 and 52.17346 wide", () => {
    // tan(alpha) = 14 / 940 = 0.01489362, 1 / cos(alpha) = 1.000110904; 2 x 2.413 x 1.000110904 = 4.826535.
    const blank = movedIn(taperThrough(43, 470, 57), 2.413);
    expect(widthAt(blank, 0)).toBeCloseTo(38.173465, 5);
    expect(widthAt(blank, 470)).toBeCloseTo(52.173465, 5);
    // With the end moved in by as much, the width there is taken at 470 - 2.413: 2 x 2.413 x 0.01489362 = 0.071877 less.
    expect(widthAt(blank, 470 - 2.413)).toBeCloseTo(52.101588, 5);
  });

  it("30 to 90 over 200, moved in by 2.413, is 25.1200 and 85.1200 wide, where plain subtraction is 0.054 off", () => {
    // tan(alpha) = 60 / 400 = 0.15, 1 / cos(alpha) = sqrt(1.0225) = 1.01118742; 4.826 x 1.01118742 = 4.87999.
    const blank = movedIn(taperThrough(30, 200, 90), 2.413);
    expect(widthAt(blank, 0)).toBeCloseTo(25.12, 4);
    expect(widthAt(blank, 200)).toBeCloseTo(85.12, 4);
    expect(30 - 2 * 2.413 - widthAt(blank, 0)).toBeCloseTo(0.054, 3);
  });

  it("is moved by the same amount square to its side, measured as a distance of lines", () => {
    const taper = taperThrough(43, 470, 57);
    const blank = movedIn(taper, 2.413);
    // Distance of the point (100, w/2) of the inner side from the outer side y = 21.5 + (7/470) x, by the distance formula.
    const y = widthAt(blank, 100) / 2;
    const slope = 7 / 470;
    expect((21.5 + slope * 100 - y) / Math.hypot(1, slope)).toBeCloseTo(2.413, 9);
  });
});
