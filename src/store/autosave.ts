import { isDirty } from "./design-store.ts";
import { keep } from "./keep.ts";
import { say } from "./session-store.ts";
import { takeKept } from "./take-kept.ts";
import type { Workbench } from "./workbench.ts";

export interface AutosaveOptions {
  /** How long a change waits in steady work, ms. After a rest, no save for as long, the first change waits a tenth of it. */
  readonly delayMs?: number;
  /** Where the page tells that it is hidden or goes away; `window` in a browser, which hears of the document too. */
  readonly page?: EventTarget;
}

/**
 * Keeps the open design in this browser soon after each change, and when the page is hidden. What another tab saves is shown here as long
 * as nothing is changed here; otherwise neither copy is touched, and the session tells of the conflict.
 * @returns stops it
 */
export function startAutosave(bench: Workbench, { delayMs = 250, page }: AutosaveOptions = {}): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const inConflict = (): boolean => bench.session.getState().saving.state === "conflict";
  const unsaved = (): boolean => isDirty(bench.design.getState()) && !inConflict();

  /** On the page's own clock, which is never set back, ms. */
  let flushed = -Infinity;
  function flush(): void {
    clearTimeout(timer);
    timer = undefined;
    flushed = performance.now();
    void bench.inTurn(async () => {
      if (unsaved()) await keep(bench);
    });
  }

  const leaveDesign = bench.design.subscribe((now, before) => {
    if (now.design === before.design || !unsaved()) return;
    if (bench.session.getState().saving.state !== "failed") bench.session.setState({ saving: { state: "waiting" } });
    // From the first change on, so that steady work is saved as often as its delay says.
    timer ??= setTimeout(flush, performance.now() - flushed < delayMs ? delayMs : delayMs / 10);
  });

  const leaveOthers = bench.storage?.onForeignChange(({ id, revision }) => {
    void bench.inTurn(async () => {
      const state = bench.design.getState();
      if (id !== state.id || (revision !== undefined && revision <= (state.stored?.revision ?? 0))) return;
      if (revision === undefined || isDirty(state) || inConflict()) return tellConflict(revision);
      const taken = await takeKept(bench);
      if (taken.ok) say(bench.session, "This design was changed in another tab. The change is shown here now.");
      else say(bench.session, taken.error.message, "trouble");
    });
  });

  function tellConflict(revision: number | undefined): void {
    bench.session.setState({
      saving:
        revision === undefined
          ? {
              state: "conflict",
              reason: "missing",
              trouble: {
                message: "this design was removed in another tab",
                mend: "Keep this one anyway, or open another design.",
              },
            }
          : {
              state: "conflict",
              reason: "conflict",
              trouble: {
                message: "this design was changed in another tab meanwhile",
                mend: "Choose which of the two to keep; neither is lost.",
              },
            },
    });
  }

  const hidden = (): void => {
    if (timer !== undefined) flush();
  };
  const signs = ["visibilitychange", "pagehide", "blur"];
  for (const sign of signs) page?.addEventListener(sign, hidden);
  return () => {
    clearTimeout(timer);
    leaveDesign();
    leaveOthers?.();
    for (const sign of signs) page?.removeEventListener(sign, hidden);
  };
}
