import type { Result } from "../units/result.ts";
import type { Design, Trouble } from "./design.ts";

export function addPart(design: Design, kind: string): Result<{ readonly design: Design; readonly id: string }, Trouble> {
  throw new Error("follows");
}
export function removePart(design: Design, id: string): Result<Design, Trouble> {
  throw new Error("follows");
}
export function renamePart(design: Design, from: string, to: string): Result<Design, Trouble> {
  throw new Error("follows");
}
