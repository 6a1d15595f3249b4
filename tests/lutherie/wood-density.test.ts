import { describe, expect, it } from "vitest";
import { densityKgM3, plateMassG, woodDensity } from "../../src/lutherie/wood-density.ts";
import { WOOD_SPECIES, woodSpecies } from "../../src/lutherie/wood-species.ts";

describe("wood density", () => {
  it("adds the water to the ovendry mass: 0.40 at 12 % is 1000 x 0.40 x 1.12 = 448 kg/m³, the table's figure for Sitka spruce", () => {
    expect(densityKgM3(0.4, 12)).toBeCloseTo(448, 9);
    expect(woodDensity(woodSpecies("spruce-sitka")!)).toEqual({ kgM3: 448, basis: "table" });
  });

  it("estimates from the basic gravity where the table has no density: mahogany 0.45 / (1 - 0.265 x 0.6 x 0.45) x 1120 = 542.8", () => {
    // 0.265 x 0.6 x 0.45 = 0.07155; 0.45 / 0.92845 = 0.484679; x 1120 = 542.84
    const density = woodDensity(woodSpecies("mahogany-american")!)!;
    expect(density.basis).toBe("estimated");
    expect(density.kgM3).toBeCloseTo(542.84, 1);
  });

  it("estimates within 9 % of the handbook's own density wherever a wood has both (the worst is basswood)", () => {
    const both = WOOD_SPECIES.filter(({ weight }) => weight.basicGravity !== null && weight.gravityAt12Pct !== null);
    expect(both.length).toBeGreaterThanOrEqual(15);
    for (const wood of both) {
      const estimate = woodDensity({ ...wood, weight: { ...wood.weight, densityAt12PctKgM3: null } })!;
      expect(Math.abs(estimate.kgM3 / wood.weight.densityAt12PctKgM3! - 1)).toBeLessThan(0.09);
    }
  });

  it("says nothing where nothing is known", () => expect(woodDensity(woodSpecies("ebony-east-indian")!)).toBeUndefined());

  it("weighs a plate by hand: 60 cm² of 1.2 mm at 849 kg/m³ is 6000 x 1.2 x 849 / 10^6 = 6.1128 g", () => {
    expect(plateMassG(6000, 1.2, 849)).toBeCloseTo(6.1128, 9);
  });

  it("refuses gravities, moistures and sizes that no wood has", () => {
    expect(() => densityKgM3(0, 12)).toThrow(RangeError);
    expect(() => densityKgM3(0.4, 31)).toThrow(RangeError);
    expect(() => densityKgM3(Number.NaN, 12)).toThrow(RangeError);
    expect(() => plateMassG(-1, 1, 1)).toThrow(RangeError);
    expect(() => plateMassG(Number.NaN, 1, 1)).toThrow(RangeError);
  });
});
