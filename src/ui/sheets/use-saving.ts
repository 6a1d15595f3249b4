/** Saving that takes its time: how far it is, and a way to stop it. */
import { useRef, useState } from "react";
import { useBench } from "../bench.ts";
import { saveBytes } from "../files.ts";
import { go } from "../frame/route.ts";
import { tell, type Tell } from "../kit/tell.tsx";
import { stopCount, stopsSaid } from "../stop-count.ts";
import type { ComingFile, SheetJob } from "./save-sheets.ts";

export interface SheetSaving {
  /** From 0 to 1; undefined: nothing is being written. */
  readonly progress: number | undefined;
  readonly cancel: () => void;
  /** Gives whether something was saved. */
  readonly save: (job: Omit<SheetJob, "onProgress" | "signal">, write: (job: SheetJob) => ComingFile) => Promise<boolean>;
}

export function useSheetSaving(): SheetSaving {
  const { design, derived } = useBench();
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
        const { name, type, next, content } = write({ ...job, onProgress: setProgress, signal: controller.signal });
        const saved = await saveBytes(name, content, type);
        if (saved) tellSaved(`${name}.${next ? ` ${next}` : ""}`, stopCount(design.getState().design, derived.getState()));
        else {
          controller.abort();
          tell(CANCELLED);
        }
        return saved;
      } catch (error) {
        if (controller.signal.aborted) tell(CANCELLED);
        else tell({ title: "It was not saved.", more: error instanceof Error ? error.message : String(error), kind: "stop" });
        return false;
      } finally {
        setProgress(undefined);
      }
    },
  };
}

const CANCELLED: Tell = { title: "The save was cancelled." };

/** What stops the work is said with the file, since the file does not show it. */
function tellSaved(more: string, stops: number): void {
  if (stops === 0) return tell({ title: "Saved.", more, kind: "fine" });
  tell({
    title: `Saved, but ${stopsSaid(stops)}: look at Fit before cutting.`,
    more,
    kind: "look",
    action: { label: "Look at Fit", onChoose: () => go({ place: "fit" }) },
  });
}
