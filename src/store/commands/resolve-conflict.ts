import type { Trouble } from "../../document/design.ts";
import type { Result } from "../../units/result.ts";
import { historyOf, replaceDesign } from "../design-store.ts";
import { keep } from "../keep.ts";
import { takeKept } from "../take-kept.ts";
import { newId, type Workbench } from "../workbench.ts";

/**
 * Settles that two tabs changed one design. `copy` keeps this tab's work as a design of its own; `theirs` shows what the other tab kept,
 * as a step that undo takes back; `mine` keeps this tab's work, and the other's stays among the recent versions.
 */
export function resolveConflict(bench: Workbench, choice: "copy" | "theirs" | "mine"): Promise<Result<void, Trouble>> {
  return bench.inTurn(async () => {
    if (choice === "theirs") return takeKept(bench);
    if (choice === "copy") {
      const { design } = bench.design.getState();
      replaceDesign(bench.design, { id: newId(), design, stored: undefined, history: historyOf(bench.design) });
    }
    const saving = await keep(bench, choice === "mine");
    return "trouble" in saving ? { ok: false, error: saving.trouble } : { ok: true, value: undefined };
  });
}
