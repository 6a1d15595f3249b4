import table from "./wood-species.json" with { type: "json" };

/** How a row's movement coefficients came about: printed in the handbook's table, or computed from shrinkage. */
export type CoefficientBasis = "table" | "derived";

/** One wood, with the source of each group of figures and a mark that says how it was got (read, from memory, computed). */
export interface WoodSpecies {
  readonly id: string;
  readonly common: string;
  readonly latin: string;
  readonly group: string;
  /** Change in size for 1 % of moisture, as a fraction of the size at 10 % moisture, along and across the rays' direction. */
  readonly movement: {
    readonly radial: number;
    readonly tangential: number;
    readonly basis: CoefficientBasis;
    readonly source: string;
    readonly mark: string;
  };
  /** From green to ovendry, percent of the green size. */
  readonly shrinkage: {
    readonly radialPct: number;
    readonly tangentialPct: number;
    readonly source: string;
    readonly mark: string;
  };
  readonly weight: {
    /** Ovendry mass over green volume, against water. */
    readonly basicGravity: number | null;
    /** Ovendry mass over volume at 12 % moisture, against water. */
    readonly gravityAt12Pct: number | null;
    readonly densityAt12PctKgM3: number | null;
    readonly note: string | null;
    readonly stiffnessAt12PctGPa: number | null;
    readonly source: string | null;
    readonly mark: string | null;
  };
  readonly note: string | null;
}

/** Every wood of the table, softwoods first; the figures are those of USDA publications unless a row says otherwise. */
export const WOOD_SPECIES: readonly WoodSpecies[] = table.species as readonly WoodSpecies[];

/** The wood with this id, or undefined where the table has none. */
export const woodSpecies = (id: string): WoodSpecies | undefined => WOOD_SPECIES.find((species) => species.id === id);
