/**
 * Designs beside the open one: copies, what was cut, others that are kept. Faces and heavy answers for them come from beside the page too, by a
 * worker of their own, so that the open design never waits for them.
 */
import { createDeriver, type Deriver, type Outside } from "../parts/derive.ts";
import type { DeriveOther } from "../parts/derived.ts";
import type { Beside } from "./beside.ts";
import { viewOf, type View } from "./view.ts";

export interface Others {
  /** Another object whenever something has come; then what was `waiting` is to be derived again. */
  readonly outside: View<Outside>;
  /** As far as it is there. */
  readonly derive: DeriveOther;
}

/** With nothing beside, heavy work is done on the spot and there are no faces. */
export function createOthers(beside?: Beside): Others {
  const derivers = new Map<string, Deriver>();
  const nothing: Outside = {};
  const outside = viewOf(beside ? [beside.arrivals] : [], () => beside?.outside() ?? nothing);
  return {
    outside,
    derive: (key, design) => {
      const derive = derivers.get(key) ?? createDeriver();
      derivers.set(key, derive);
      const { faces, answer } = outside.getState();
      const derived = derive(design, {
        ...(faces ? { faces } : {}),
        ...(answer ? { answer: (asker, work, question) => answer(`${key}, ${asker}`, work, question) } : {}),
      });
      beside?.want(derived.faces);
      return derived;
    },
  };
}

/** What `read` gives once nothing of it is waiting any more. Rejects when it is aborted. */
export function whenSettled<T extends { readonly waiting: boolean }>(
  watched: Pick<View<unknown>, "subscribe">,
  read: () => T,
  signal: AbortSignal,
): Promise<T> {
  const now = read();
  if (!now.waiting) return Promise.resolve(now);
  return new Promise((resolve, reject) => {
    const leave = watched.subscribe(() => {
      const later = read();
      if (later.waiting) return;
      leave();
      resolve(later);
    });
    signal.addEventListener("abort", () => {
      leave();
      reject(signal.reason as Error);
    });
  });
}
