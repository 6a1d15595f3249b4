/** Saving that takes its time: how far it is, and a way to stop it. */
import { useRef, useState } from "react";
import { saveBytes } from "../files.ts";
import { tell } from "../kit/tell.tsx";
import type { ComingFile, SheetJob } from "./save-sheets.ts";

export interface SheetSaving {
  /** From 0 to 1; undefined: nothing is being written. */
  readonly progress: number | undefined;
  readonly cancel: () => void;
  /** Gives whether something was saved. */
  readonly save: (job: Omit<SheetJob, "onProgress" | "signal">, write: (job: SheetJob) => ComingFile) => Promise<boolean>;
}

export function useSheetSaving(): SheetSaving {
  const [progress, setProgress] = useState<number>();
  const running = useRef<AbortController>(undefined);
  return {
    progress,
    cancel: () => running.current?.abort(),
    save: async (job, write) => {
      const controller = new AbortController();
      running.current = controller;
      setProgress(0);
      try {
        const { name, type, content } = write({ ...job, onProgress: setProgress, signal: controller.signal });
        const saved = await saveBytes(name, content, type);
        if (saved) tell({ title: "Saved.", more: `${name}. Print it at 100 %, then measure the bars.`, kind: "fine" });
        else controller.abort();
        return saved;
      } catch (error) {
        if (!controller.signal.aborted)
          tell({ title: "It was not saved.", more: error instanceof Error ? error.message : String(error), kind: "stop" });
        return false;
      } finally {
        setProgress(undefined);
      }
    },
  };
}
