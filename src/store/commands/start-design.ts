import type { Design, Trouble } from "../../document/design.ts";
import type { Result } from "../../units/result.ts";
import { dated } from "../day.ts";
import { keep, leave, putOnBench } from "../keep.ts";
import { newId, type Workbench } from "../workbench.ts";

/**
 * Begins a design: a new one (see document/new-design.ts), an example, or a copy of an old order, dated today unless it has a date. Saved
 * in this browser at once. The one that was open is saved first; if that fails, nothing happens unless `drop`.
 */
export function startDesign(bench: Workbench, design: Design, drop = false): Promise<Result<void, Trouble>> {
  return bench.inTurn(async () => {
    const trouble = await leave(bench, drop);
    if (trouble) return { ok: false, error: trouble };
    putOnBench(bench, { id: newId(), design: dated(design, bench.now()), stored: undefined });
    await keep(bench);
    return { ok: true, value: undefined };
  });
}
