import type { Trouble } from "../../document/design.ts";
import type { Result } from "../../units/result.ts";
import type { Workbench } from "../workbench.ts";

/**
 * Settles that two tabs changed one design. `copy` keeps this tab's work as a design of its own; `theirs` shows the other tab's, `mine`
 * keeps this tab's; what is replaced stays among the recent versions.
 */
export async function resolveConflict(bench: Workbench, choice: "copy" | "theirs" | "mine"): Promise<Result<void, Trouble>> {
  throw new Error("follows");
}
