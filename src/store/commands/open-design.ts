import type { Repair, Trouble } from "../../document/design.ts";
import type { Result } from "../../units/result.ts";
import { historyFrom } from "../design-store.ts";
import { leave, NO_STORAGE, putOnBench } from "../keep.ts";
import { readWhole } from "../read-whole.ts";
import type { Workbench } from "../workbench.ts";

/**
 * Opens a design kept in this browser, with its undo. The one that was open is saved first; if that fails, nothing happens unless `drop`.
 * @returns what had to be repaired; the kept text is replaced only when something is changed, and stays among the versions then
 */
export function openDesign(bench: Workbench, id: string, drop = false): Promise<Result<readonly Repair[], Trouble>> {
  return bench.inTurn(async () => {
    if (!bench.storage) return { ok: false, error: NO_STORAGE };
    const trouble = await leave(bench, drop);
    if (trouble) return { ok: false, error: trouble };
    const loaded = await bench.storage.load(id);
    if (!loaded.ok) return loaded;
    const { text, revision, savedAt, history } = loaded.value;
    const read = await readWhole(text);
    if (!read.ok) return read;
    const { design, repairs } = read.value;
    putOnBench(bench, { id, design, stored: { revision, savedAt, design }, history: historyFrom(history, design) });
    return { ok: true, value: repairs };
  });
}
