import { describe, expect, it } from "vitest";
import { fretDistance } from "../../src/lutherie/fret-positions.ts";
import { clearanceAtFret1, nutSlotHeight } from "../../src/lutherie/nut-slots.ts";

describe("height of nut slots", () => {
  it("is 1.177 for crowns of 1.1 and a clearance of 0.05, worked by hand on 25.4 in", () => {
    // d1 = 36.2103, d3 = 102.6460: 102.6460 / (102.6460 - 36.2103) = 1.54504; 1.1 + 0.05 x 1.54504 = 1.177252.
    expect(nutSlotHeight(1.1, 0.05)).toBeCloseTo(1.177252, 5);
  });

  it("leaves just the clearance over fret 1 on the straight line to fret 3", () => {
    const height = nutSlotHeight(1.2, 0.08);
    const d1 = fretDistance(650, 1);
    const d3 = fretDistance(650, 3);
    const overFret1 = height + ((1.2 - height) * d1) / d3 - 1.2;
    expect(overFret1).toBeCloseTo(0.08, 12);
    expect(clearanceAtFret1(1.2, height)).toBeCloseTo(0.08, 12);
  });
});
