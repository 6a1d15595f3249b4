import type { Trouble } from "../../document/design.ts";
import { readDesign, type Repair } from "../../document/read.ts";
import type { Result } from "../../units/result.ts";
import { keep, leave, putOnBench } from "../keep.ts";
import { partsMissing } from "../parts-missing.ts";
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
    const missing = await partsMissing();
    if (missing) return { ok: false, error: missing };
    const read = readDesign(bytes);
    if (!read.ok) return { ok: false, error: { message: read.message, mend: read.mend } };
    const trouble = await leave(bench, drop);
    if (trouble) return { ok: false, error: trouble };
    putOnBench(bench, { id: newId(), design: read.design, stored: undefined });
    await keep(bench);
    return { ok: true, value: read.repairs };
  });
}
