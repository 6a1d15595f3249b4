import type { Trouble } from "../document/design.ts";
import { summaryOf } from "../document/summary-of.ts";
import { writeDesign } from "../document/write.ts";
import { historyOf, isDirty, packHistory, replaceDesign } from "./design-store.ts";
import { dropPreviews, type Saving } from "./session-store.ts";
import type { Workbench } from "./workbench.ts";

type Opened = Parameters<typeof replaceDesign>[1];

export const NO_STORAGE: Trouble = { message: "this browser keeps no designs", mend: "Save the design to a file." };

/**
 * Keeps the open design in this browser if it is not kept as it is. Must run in turn.
 * @param force replaces what another tab has kept meanwhile; what is replaced stays among the versions
 */
export async function keep(bench: Workbench, force = false): Promise<Saving> {
  const outcome = await kept(bench, force);
  bench.session.setState({ saving: outcome });
  return outcome;
}

async function kept(bench: Workbench, force: boolean): Promise<Saving> {
  const { id, design, stored } = bench.design.getState();
  if (stored?.design === design && !force) return { state: "saved", at: stored.savedAt };
  if (!bench.storage) return { state: "failed", reason: "forbidden", trouble: NO_STORAGE };
  const savedAt = bench.now();
  const saved = await bench.storage.save({
    id,
    ...summaryOf(design),
    text: writeDesign(design),
    baseRevision: stored?.revision ?? 0,
    savedAt,
    history: packHistory(historyOf(bench.design), design),
    force,
  });
  if (!saved.ok) {
    const { reason, ...trouble } = saved.error;
    return reason === "conflict" || reason === "missing"
      ? { state: "conflict", reason, trouble }
      : { state: "failed", reason, trouble };
  }
  bench.design.setState({ stored: { revision: saved.value, savedAt, design } });
  return { state: "saved", at: savedAt };
}

/** Keeps the open design before another takes its place. @returns why it must not be left yet; nothing with `drop` */
export async function leave(bench: Workbench, drop: boolean): Promise<Trouble | undefined> {
  if (drop || !isDirty(bench.design.getState())) return undefined;
  const saving = await keep(bench);
  if (saving.state !== "failed" && saving.state !== "conflict") return undefined;
  return { message: `the open design is not saved: ${saving.trouble.message}`, mend: saving.trouble.mend };
}

/** Puts another design on the bench. */
export function putOnBench(bench: Workbench, next: Opened): void {
  dropPreviews(bench.session);
  replaceDesign(bench.design, next);
  bench.session.setState({
    activePart: "instrument",
    selection: undefined,
    hover: undefined,
    points: undefined,
    cameras: {},
    saving: next.stored ? { state: "saved", at: next.stored.savedAt } : { state: "waiting" },
  });
}
