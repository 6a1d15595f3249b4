/** The page's side of the worker that looks for places. */
import { useEffect, useRef, useState } from "react";
import type { Question, Reply } from "../../checks/offcut-work.ts";

export interface Searching {
  /** From 0 to 1; undefined: nothing is being looked for. */
  readonly progress: number | undefined;
  readonly cancel: () => void;
  /** Undefined where it was cancelled. Rejects with what went wrong in the worker. */
  readonly ask: (question: Question) => Promise<Reply | undefined>;
}

/** One search at a time; a further one ends the one before. */
export function useSearching(): Searching {
  const [progress, setProgress] = useState<number>();
  const running = useRef<() => void>(undefined);
  useEffect(() => () => running.current?.(), []);
  return {
    progress,
    cancel: () => running.current?.(),
    ask: (question) => {
      running.current?.();
      return new Promise((resolve, reject) => {
        const worker = new Worker(new URL("offcut.worker.ts", import.meta.url), { type: "module" });
        const end = (finish: () => void): void => {
          worker.terminate();
          running.current = undefined;
          setProgress(undefined);
          finish();
        };
        running.current = () => end(() => resolve(undefined));
        setProgress(0);
        worker.addEventListener("error", (event) => end(() => reject(new Error(event.message || "the search did not start"))));
        worker.addEventListener("message", ({ data }: MessageEvent<Reply>) => {
          if (data.kind === "progress") setProgress(data.done);
          else if (data.kind === "fault") end(() => reject(new Error(data.message)));
          else end(() => resolve(data));
        });
        // A worker has no origin to name.
        // eslint-disable-next-line unicorn/require-post-message-target-origin
        worker.postMessage(question);
      });
    },
  };
}
