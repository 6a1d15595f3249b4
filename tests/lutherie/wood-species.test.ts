import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { impliedShrinkagePct } from "../../src/lutherie/wood-movement.ts";
import { WOOD_SPECIES, woodSpecies } from "../../src/lutherie/wood-species.ts";

interface ReferenceRow {
  id: string;
  C_R: number;
  C_T: number;
  C_basis: string;
  C_source: string;
  C_mark: string;
  shrink_R_pct: number;
  shrink_T_pct: number;
  shrink_mark: string;
  density_12_kg_m3: number | null;
  sg_12: number | null;
  sg_basic_green_volume: number | null;
  moe_12_GPa: number | null;
  note: string | null;
}
const reference = (JSON.parse(readFileSync("tests/data/wood.json", "utf8")) as { species: ReferenceRow[] }).species;

describe("WOOD_SPECIES", () => {
  it("keeps every row of the reference file with its figures, its sources and its marks", () => {
    expect(WOOD_SPECIES.map(({ id }) => id)).toEqual(reference.map(({ id }) => id));
    for (const row of reference) {
      const wood = woodSpecies(row.id)!;
      expect(wood.movement).toEqual({
        radial: row.C_R,
        tangential: row.C_T,
        basis: row.C_basis,
        source: row.C_source,
        mark: row.C_mark,
      });
      expect([wood.shrinkage.radialPct, wood.shrinkage.tangentialPct, wood.shrinkage.mark]).toEqual([
        row.shrink_R_pct,
        row.shrink_T_pct,
        row.shrink_mark,
      ]);
      expect([
        wood.weight.densityAt12PctKgM3,
        wood.weight.gravityAt12Pct,
        wood.weight.basicGravity,
        wood.weight.stiffnessAt12PctGPa,
      ]).toEqual([row.density_12_kg_m3, row.sg_12, row.sg_basic_green_volume, row.moe_12_GPa]);
      expect(wood.note).toBe(row.note);
    }
  });

  it("gives undefined for a wood that it does not know", () => expect(woodSpecies("unobtainium")).toBeUndefined());

  it("has ring movement above ray movement in every row, as wood has", () => {
    for (const { movement, shrinkage } of WOOD_SPECIES) {
      expect(movement.tangential).toBeGreaterThan(movement.radial);
      expect(shrinkage.tangentialPct).toBeGreaterThan(shrinkage.radialPct);
    }
  });

  it("prints table coefficients that shrinkage explains for 15 of the 23 listed woods, to the five printed decimals", () => {
    // C = S / (3000 - 20 S), the straight line from fibre saturation at 30 % taken at 10 %.
    const explained = WOOD_SPECIES.filter(({ movement }) => movement.basis === "table").filter(({ movement, shrinkage }) =>
      (
        [
          [movement.radial, shrinkage.radialPct],
          [movement.tangential, shrinkage.tangentialPct],
        ] as const
      ).every(([c, s]) => (s / (3000 - 20 * s)).toFixed(5) === c.toFixed(5)),
    );
    expect(WOOD_SPECIES.filter(({ movement }) => movement.basis === "table")).toHaveLength(23);
    expect(explained).toHaveLength(15);
    for (const { movement, shrinkage } of explained) {
      // The printed C has three figures, so the shrinkage comes back within 0.02 %.
      expect(Math.abs(impliedShrinkagePct(movement.radial) - shrinkage.radialPct)).toBeLessThan(0.02);
      expect(Math.abs(impliedShrinkagePct(movement.tangential) - shrinkage.tangentialPct)).toBeLessThan(0.02);
    }
  });
});
