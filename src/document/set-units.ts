import type { Result } from "../units/result.ts";
import type { Design, Trouble, Units } from "./design.ts";

export function setUnits(design: Design, units: Units, fractions?: boolean): Result<Design, Trouble> {
  throw new Error("follows");
}
