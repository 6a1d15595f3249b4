/** Does the heavy work of parts beside the page, one question at a time and step by step, so that one that is overtaken can be dropped. */
import { EVERY_PART } from "../parts/every-part.ts";
import type { AnyWork } from "../parts/answers.ts";

export interface WorkQuestion {
  readonly id: number;
  /** Name of the work. */
  readonly work: string;
  readonly question: unknown;
}

export interface WorkAnswer {
  readonly id: number;
  readonly answer: unknown;
  /** Whether it is that of the last step. */
  readonly last: boolean;
}

/** Goes no further with a question. */
export interface WorkDrop {
  readonly drop: number;
}

/** Has gone no further with it. */
export interface WorkGone {
  readonly id: number;
  readonly dropped: true;
}

const works = new Map(
  EVERY_PART.flatMap((part) => (part.works ?? []) as unknown as readonly AnyWork[]).map((work) => [work.name, work]),
);
const dropped = new Set<number>();

/** Lets messages in that have come meanwhile. */
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

async function answer({ id, work: name, question }: WorkQuestion): Promise<void> {
  const work = works.get(name);
  if (!work) throw new Error(`there is no work ${name}`);
  const steps = work.steps(question);
  for (const [i, step] of steps.entries()) {
    let given: unknown;
    for (let turn = i; given === undefined; turn++) {
      if (turn > 0) await breathe();
      if (dropped.delete(id)) {
        const gone: WorkGone = { id, dropped: true };
        postMessage(gone);
        return;
      }
      given = step();
    }
    const done: WorkAnswer = { id, answer: given, last: i === steps.length - 1 };
    postMessage(done);
  }
}

addEventListener("message", ({ data }: MessageEvent<WorkQuestion | WorkDrop>) => {
  if ("drop" in data) dropped.add(data.drop);
  else
    answer(data).catch((error: unknown) => {
      // Thrown from a timer it reaches the page as the worker's error.
      setTimeout(() => {
        throw error;
      });
    });
});
