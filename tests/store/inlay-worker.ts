/** A worker that works inlays out on the spot, as the real one does beside the page. */
import { inlayWork } from "../../src/parts/inlay/work.ts";
import type { WorkAnswer, WorkDrop, WorkQuestion } from "../../src/store/work.worker.ts";

/** Answers the first `most` questions at once with the last step; the others never. */
export function inlayWorker(most = Infinity): Worker {
  let listen: ((event: { data: WorkAnswer }) => void) | undefined;
  let asked = 0;
  return {
    postMessage: (words: WorkQuestion | WorkDrop) => {
      if (!("question" in words) || ++asked > most) return;
      const answer = inlayWork.steps(words.question as never).at(-1)!();
      setTimeout(() => listen!({ data: { id: words.id, answer, last: true } }));
    },
    addEventListener: (kind: string, one: typeof listen) => {
      if (kind === "message") listen = one;
    },
    terminate: () => undefined,
  } as unknown as Worker;
}
