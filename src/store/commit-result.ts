import type { Design, Trouble } from "../document/design.ts";
import type { Result } from "../units/result.ts";
import { commit, type Step } from "./design-store.ts";
import type { Workbench } from "./workbench.ts";

/** Puts a changed design on the bench as one step, or passes on why there is none. */
export function commitResult(bench: Workbench, changed: Result<Design, Trouble>, step: Step): Result<void, Trouble> {
  if (!changed.ok) return changed;
  commit(bench.design, changed.value, step);
  return { ok: true, value: undefined };
}
