/** The page's side of the worker for sheets. */
import { useEffect, useRef, useState } from "react";
import type { OnProgress } from "../../export/pause.ts";
import type { SheetSet } from "../../sheets/sheet.ts";
import type { Template } from "../../templates/template.ts";
import type { Answer, Asked, FileWish, PlainOptions, Question } from "./worker-words.ts";

const hire = (): Worker => new Worker(new URL("sheets.worker.ts", import.meta.url), { type: "module" });

export interface LaidOut {
  /** Of the last templates and options that were laid out. */
  readonly set: SheetSet | undefined;
  /** The templates that `set` was made from. */
  readonly templates: readonly Template[];
  /** `set` is not yet that of the present templates and options. */
  readonly busy: boolean;
}

const send = (worker: Worker, question: Question): void => {
  // A worker has no origin to name.
  // eslint-disable-next-line unicorn/require-post-message-target-origin
  worker.postMessage(question);
};

interface LayOutQueue {
  readonly want: (wanted: Asked) => void;
  readonly close: () => void;
}

/** Lays out one thing at a time; of those wanted meanwhile only the last is done. */
function openQueue(onLaid: (wanted: Asked, set: SheetSet) => void, onFault: (message: string) => void): LayOutQueue {
  const worker = hire();
  let running: Asked | undefined;
  let next: Asked | undefined;
  function start(): void {
    if (running || !next) return;
    running = next;
    next = undefined;
    send(worker, { kind: "lay-out", ...running });
  }
  worker.addEventListener("error", (event) => onFault(event.message || "the sheets could not be laid out"));
  worker.addEventListener("message", ({ data }: MessageEvent<Answer>) => {
    const wanted = running;
    running = undefined;
    if (data.kind === "sheets" && wanted) onLaid(wanted, data.set);
    if (data.kind === "fault") onFault(data.message);
    start();
  });
  return {
    want: (wanted) => {
      next = wanted;
      start();
    },
    close: () => worker.terminate(),
  };
}

/** Lays templates out beside the page. Undefined options: nothing is laid out. What the layout throws is thrown where it is used. */
export function useLayOut(templates: readonly Template[], options: PlainOptions | undefined): LaidOut {
  const queue = useRef<LayOutQueue>(undefined);
  const [laid, setLaid] = useState<{ readonly wanted: Asked; readonly set: SheetSet }>();
  const [fault, setFault] = useState<string>();
  useEffect(() => {
    const opened = openQueue((wanted, set) => setLaid({ wanted, set }), setFault);
    queue.current = opened;
    return () => opened.close();
  }, []);
  useEffect(() => {
    if (options) queue.current?.want({ templates, options });
  }, [templates, options]);

  if (fault !== undefined) throw new Error(fault);
  return {
    set: options ? laid?.set : undefined,
    templates: laid?.wanted.templates ?? [],
    busy: options !== undefined && (laid?.wanted.templates !== templates || laid.wanted.options !== options),
  };
}

/** Writes a file in a worker of its own. Rejects with the signal's reason when it is aborted. */
export function writeFile(wish: FileWish, onProgress: OnProgress, signal: AbortSignal): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    if (signal.aborted) return reject(signal.reason as Error);
    const worker = hire();
    const end = (finish: () => void): void => {
      worker.terminate();
      finish();
    };
    signal.addEventListener("abort", () => end(() => reject(signal.reason as Error)), { once: true });
    worker.addEventListener("error", (event) => end(() => reject(new Error(event.message || "the writer did not start"))));
    worker.addEventListener("message", ({ data }: MessageEvent<Answer>) => {
      if (data.kind === "progress") onProgress(data.done);
      if (data.kind === "file") end(() => resolve(data.bytes));
      if (data.kind === "fault") end(() => reject(new Error(data.message)));
    });
    send(worker, { kind: "file", ...wish });
  });
}
