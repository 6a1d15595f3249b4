/** The page's side of the worker for sheets. Every question has a worker of its own, which ends with it. */
import { useEffect, useState } from "react";
import { useStore } from "zustand";
import type { OnProgress } from "../../export/pause.ts";
import type { SheetSet } from "../../sheets/sheet.ts";
import type { Template } from "../../templates/template.ts";
import { useBench } from "../bench.ts";
import { SPOKEN_OF_MS } from "../inlay/use-long-seconds.ts";
import type { Answer, Asked, FileWish, PlainOptions, Question } from "./worker-words.ts";

/** Gives the last answer. Rejects with the signal's reason when it is aborted, and with what the worker throws. */
function ask(question: Question, onProgress: OnProgress, signal: AbortSignal): Promise<Answer> {
  return new Promise((resolve, reject) => {
    if (signal.aborted) return reject(signal.reason as Error);
    const worker = new Worker(new URL("sheets.worker.ts", import.meta.url), { type: "module" });
    const end = (finish: () => void): void => {
      worker.terminate();
      finish();
    };
    signal.addEventListener("abort", () => end(() => reject(signal.reason as Error)), { once: true });
    worker.addEventListener("error", (event) => end(() => reject(new Error(event.message || "the worker did not start"))));
    worker.addEventListener("message", ({ data }: MessageEvent<Answer>) => {
      if (data.kind === "progress") return onProgress(data.done);
      end(() => (data.kind === "fault" ? reject(new Error(data.message)) : resolve(data)));
    });
    // A worker has no origin to name.
    // eslint-disable-next-line unicorn/require-post-message-target-origin
    worker.postMessage(question);
  });
}

/** Writes a file. Rejects with the signal's reason when it is aborted. */
export async function writeFile(wish: FileWish, onProgress: OnProgress, signal: AbortSignal): Promise<Uint8Array> {
  const answer = await ask({ kind: "file", ...wish }, onProgress, signal);
  if (answer.kind !== "file") throw new Error("the worker has written no file");
  return answer.bytes;
}

export interface LaidOut {
  /** Of the last templates and options that were laid out. */
  readonly set: SheetSet | undefined;
  /** The templates that `set` was made from. */
  readonly templates: readonly Template[];
  /** `set` is not yet that of the present templates and options. */
  readonly busy: boolean;
  /** From 0 to 1, once it has taken long enough to be spoken of. */
  readonly progress: number | undefined;
  /** The maker has stopped it: nothing is done until something changes, or `again`. */
  readonly stopped: boolean;
  readonly stop: () => void;
  readonly again: () => void;
}

interface Laid {
  readonly designId: string;
  readonly wanted: Asked;
  readonly set: SheetSet;
}

/** Kept while another place is open, so that the sheets stand there at once on the way back. */
let last: Laid | undefined;

const isSame = (a: Asked, b: Asked): boolean =>
  a.templates.length === b.templates.length &&
  a.templates.every((template, i) => template === b.templates[i]) &&
  JSON.stringify(a.options) === JSON.stringify(b.options);

/**
 * Lays templates of the open design out beside the page; sheets of another design are never given. Undefined options: nothing is laid out. What
 * the layout throws is thrown where it is used.
 */
export function useLayOut(templates: readonly Template[], options: PlainOptions | undefined): LaidOut {
  const designId = useStore(useBench().design, ({ id }) => id);
  const [newest, setLaid] = useState(last);
  const laid = newest?.designId === designId ? newest : undefined;
  const [progress, setProgress] = useState<number>();
  const [running, setRunning] = useState<AbortController>();
  const [stopped, setStopped] = useState(false);
  const [tries, setTries] = useState(0);
  const [fault, setFault] = useState<Error>();
  const current = options !== undefined && laid !== undefined && isSame(laid.wanted, { templates, options });

  useEffect(() => {
    if (!options || current) return undefined;
    const wanted = { templates, options };
    const controller = new AbortController();
    const began = performance.now();
    setStopped(false);
    setProgress(undefined);
    setRunning(controller);
    const tell = (done: number): void => {
      if (performance.now() - began >= SPOKEN_OF_MS) setProgress(done);
    };
    ask({ kind: "lay-out", ...wanted }, tell, controller.signal).then(
      (answer) => {
        if (answer.kind !== "sheets") return setFault(new Error("the worker has laid out no sheets"));
        last = { designId, wanted, set: answer.set };
        setLaid(last);
      },
      (error: Error) => (controller.signal.aborted ? undefined : setFault(error)),
    );
    return () => controller.abort();
    // What is laid out is compared when there is something new to lay out.
    // eslint-disable-next-line react/exhaustive-deps
  }, [designId, templates, options, tries]);

  if (fault !== undefined) throw fault;
  return {
    set: options ? laid?.set : undefined,
    templates: laid?.wanted.templates ?? [],
    busy: options !== undefined && !current && !stopped,
    progress: current || stopped ? undefined : progress,
    stopped: stopped && !current,
    stop: () => {
      running?.abort();
      setStopped(true);
    },
    again: () => setTries((n) => n + 1),
  };
}
