/** Long work that stays interruptible: gives the event loop a turn now and then, and stops where it is told to. */

/** How far the work has come: from 0 to 1. */
export type OnProgress = (done: number) => void;

/** How long work may hold the thread, ms: half a frame at 60 Hz. */
const HOLD_MS = 8;

/**
 * A function to call between steps of long work. It returns at once, or after a turn of the event loop once 8 ms have gone by, and rejects
 * with the signal's reason when that is aborted.
 */
export function pauser(signal?: AbortSignal): () => Promise<void> {
  let since = performance.now();
  return async () => {
    signal?.throwIfAborted();
    if (performance.now() - since < HOLD_MS) return;
    await new Promise<void>((resolve) => {
      setTimeout(resolve, 0);
    });
    since = performance.now();
    signal?.throwIfAborted();
  };
}
