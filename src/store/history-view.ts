import type { DesignStore } from "./design-store.ts";
import { viewOf, type View } from "./view.ts";

/** What undo and redo would do, "nut width"; undefined where there is nothing to do. */
export interface HistoryLabels {
  readonly undo: string | undefined;
  readonly redo: string | undefined;
}

export function historyView(design: DesignStore): View<HistoryLabels> {
  let last: HistoryLabels = { undo: undefined, redo: undefined };
  return viewOf([design, design.temporal], () => {
    const { pastStates, futureStates } = design.temporal.getState();
    const undo = pastStates.length > 0 ? design.getState().step.label : undefined;
    const redo = futureStates.at(-1)?.step?.label;
    if (last.undo !== undo || last.redo !== redo) last = { undo, redo };
    return last;
  });
}
