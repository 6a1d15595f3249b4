import type { Result } from "../units/result.ts";
import type { Cut, Design, Trouble } from "./design.ts";

export function addCut(design: Design, cut: Pick<Cut, "date" | "part" | "template" | "material" | "note">): Design {
  throw new Error("follows");
}
export function numbersOfCut(design: Design, index: number): Result<Design, Trouble> {
  throw new Error("follows");
}
