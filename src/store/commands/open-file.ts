import type { Repair, Trouble } from "../../document/design.ts";
import type { Result } from "../../units/result.ts";
import { keep, leave, putOnBench } from "../keep.ts";
import { readWhole } from "../read-whole.ts";
import { newId, type Workbench } from "../workbench.ts";

/**
 * Opens a design from a file as a design of its own in this browser; the file stays as it is. A file that cannot be read leaves the open
 * design untouched. The one that was open is saved first; if that fails, nothing happens unless `drop`.
 * @returns what had to be repaired
 */
export function openFile(
  bench: Workbench,
  { bytes }: { readonly name: string; readonly bytes: Uint8Array },
  drop = false,
): Promise<Result<readonly Repair[], Trouble>> {
  return bench.inTurn(async () => {
    const read = await readWhole(bytes);
    if (!read.ok) return read;
    const trouble = await leave(bench, drop);
    if (trouble) return { ok: false, error: trouble };
    putOnBench(bench, { id: newId(), design: read.value.design, stored: undefined });
    await keep(bench);
    return { ok: true, value: read.value.repairs };
  });
}
