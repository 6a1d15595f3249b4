/**
 * How heavy a wood is.
 *
 *   density = 1000 G_M (1 + M/100) kg/m³, G_M the ovendry mass over the volume at M % moisture
 *   G_12 from the basic (green-volume) gravity: G_b / (1 - 0.265 a G_b), a = (30 - 12)/30
 *
 * Source: Wood Handbook, FPL-GTR-190 (2010) and FPL-GTR-282 (2021), chapter 4; both formulas from memory.
 */
import type { WoodSpecies } from "./wood-species.ts";

/** kg/m³ from a specific gravity taken at `moisturePct`; the gravity above 0, the moisture from 0 to 30 %. */
export function densityKgM3(gravity: number, moisturePct: number): number {
  if (!(gravity > 0 && gravity < Infinity)) throw new RangeError("densityKgM3: the specific gravity must be above 0");
  if (!(moisturePct >= 0 && moisturePct <= 30)) throw new RangeError("densityKgM3: the moisture must be between 0 and 30 %");
  return 1000 * gravity * (1 + moisturePct / 100);
}

/** A wood's density at 12 % moisture and whether the table has it or it was estimated from the basic gravity. */
export interface WoodDensity {
  readonly kgM3: number;
  readonly basis: "table" | "estimated";
}

/** The density of a wood in use (12 % moisture), or undefined where the table knows nothing of its weight. */
export function woodDensity({ weight }: WoodSpecies): WoodDensity | undefined {
  if (weight.densityAt12PctKgM3 !== null) return { kgM3: weight.densityAt12PctKgM3, basis: "table" };
  if (weight.basicGravity === null) return undefined;
  const dryness = (30 - 12) / 30;
  const gravityAt12Pct = weight.basicGravity / (1 - 0.265 * dryness * weight.basicGravity);
  return { kgM3: densityKgM3(gravityAt12Pct, 12), basis: "estimated" };
}

/** Grams of a plate of `areaMm2` and `thickness` (mm); none may be below 0. */
export function plateMassG(areaMm2: number, thickness: number, kgM3: number): number {
  const mass = (areaMm2 * thickness * kgM3) / 1e6;
  if (!(areaMm2 >= 0 && thickness >= 0 && kgM3 >= 0 && mass < Infinity)) {
    throw new RangeError("plateMassG: area, thickness and density must be finite and not below 0");
  }
  return mass;
}
