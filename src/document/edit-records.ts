import type { Raw } from "../parts/derived.ts";
import type { Result } from "../units/result.ts";
import type { Design, Trouble } from "./design.ts";

export function insertRecord(design: Design, path: string, index: number, record: Raw): Result<Design, Trouble> {
  throw new Error("follows");
}
export function removeRecord(design: Design, path: string, index: number): Result<Design, Trouble> {
  throw new Error("follows");
}
export function moveRecord(design: Design, path: string, from: number, to: number): Result<Design, Trouble> {
  throw new Error("follows");
}
