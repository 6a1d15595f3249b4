import type { Repair, Trouble } from "../../document/design.ts";
import type { Result } from "../../units/result.ts";
import { commit } from "../design-store.ts";
import { NO_STORAGE } from "../keep.ts";
import { readWhole } from "../read-whole.ts";
import { dropPreviews } from "../session-store.ts";
import type { Workbench } from "../workbench.ts";

/**
 * Brings a recent version of the open design back, as one step that can be undone.
 * @param revision as listed by the storage's `versions`
 * @returns what had to be repaired
 */
export function restoreVersion(bench: Workbench, revision: number): Promise<Result<readonly Repair[], Trouble>> {
  return bench.inTurn(async () => {
    if (!bench.storage) return { ok: false, error: NO_STORAGE };
    const loaded = await bench.storage.loadVersion(bench.design.getState().id, revision);
    if (!loaded.ok) return loaded;
    const read = await readWhole(loaded.value);
    if (!read.ok) return read;
    dropPreviews(bench.session);
    commit(bench.design, read.value.design, { label: "return to a version" });
    return { ok: true, value: read.value.repairs };
  });
}
