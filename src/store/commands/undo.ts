import { dropPreviews } from "../session-store.ts";
import type { Workbench } from "../workbench.ts";

/** Takes the last step back, if there is one. */
export function undo(bench: Workbench): void {
  dropPreviews(bench.session);
  bench.design.temporal.getState().undo();
}

/** Does again what was taken back last, if nothing was done since. */
export function redo(bench: Workbench): void {
  dropPreviews(bench.session);
  bench.design.temporal.getState().redo();
}
