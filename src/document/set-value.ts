import type { Raw } from "../parts/derived.ts";
import type { Result } from "../units/result.ts";
import type { Design, Trouble } from "./design.ts";

export function setValue(design: Design, path: string, raw: Raw): Result<Design, Trouble> {
  throw new Error("follows");
}
