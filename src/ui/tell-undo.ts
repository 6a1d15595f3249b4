import { undo } from "../store/commands/undo.ts";
import type { Workbench } from "../store/workbench.ts";
import { tell } from "./kit/tell.tsx";

/** Tells a step that was just done, with a way to take it back; the note goes with the next step, since undo would then take back that one. */
export function tellWithUndo(bench: Workbench, title: string): void {
  const done = bench.design.getState().design;
  tell({
    title,
    action: { label: "Undo", onChoose: () => undo(bench) },
    until: (close) => {
      const leave = bench.design.subscribe(({ design }) => {
        if (design === done) return;
        leave();
        close();
      });
    },
  });
}
