import type { Trouble } from "../../document/design.ts";
import type { Kept } from "../../document/storage.ts";
import type { Result } from "../../units/result.ts";
import { NO_STORAGE } from "../keep.ts";
import { GIVEN_NUMBERS, givenOf } from "../series.ts";
import type { Workbench } from "../workbench.ts";

/** Removes a kept design from this browser; its numbers stay given. */
export function removeDesign(bench: Workbench, { id, numbers }: Pick<Kept, "id" | "numbers">): Promise<Result<void, Trouble>> {
  return bench.inTurn(async () => {
    const { storage } = bench;
    if (!storage) return { ok: false, error: NO_STORAGE };
    const before = await storage.setting(GIVEN_NUMBERS);
    if (!before.ok) return before;
    const given = [...new Set([...givenOf(before.value), ...numbers])];
    // First the numbers: should the rest fail, one number more is taken than need be.
    const kept = numbers.length > 0 ? await storage.setSetting(GIVEN_NUMBERS, given) : undefined;
    return kept && !kept.ok ? kept : storage.remove(id);
  });
}
