import type { Trouble } from "../../document/design.ts";
import type { Repair } from "../../document/read.ts";
import type { Result } from "../../units/result.ts";
import type { Workbench } from "../workbench.ts";

/** Opens a design kept in this browser, with its undo. The one that was open is saved first; if that fails, nothing happens unless `drop`. */
export async function openDesign(bench: Workbench, id: string, drop = false): Promise<Result<readonly Repair[], Trouble>> {
  throw new Error("follows");
}
