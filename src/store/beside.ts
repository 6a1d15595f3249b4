/**
 * What parts need from beside the page: faces of letters, and answers to heavy questions. Both come later; whoever derives is told, and
 * derives again.
 */
import { createStore } from "zustand/vanilla";
import type { Face } from "../lettering/face.ts";
import { bundledFace, FACES_FOLDER } from "../lettering/faces.ts";
import { readFaceApart } from "../lettering/face-reader.ts";
import { fontOfAddress } from "../lettering/font-address.ts";
import { trouble, type Trouble } from "../lettering/trouble.ts";
import type { AnyWork, Answerer } from "../parts/answers.ts";
import type { Answered } from "../parts/contract.ts";
import type { Outside } from "../parts/derive.ts";
import type { Derived } from "../parts/derived.ts";
import { same } from "../parts/same.ts";
import type { Result } from "../units/result.ts";
import type { WorkAnswer, WorkDrop, WorkGone, WorkQuestion } from "./work.worker.ts";

type ReadFace = Result<Face, Trouble>;

export interface Beside {
  /** Changes whenever something has come. */
  readonly arrivals: { readonly subscribe: (listener: () => void) => () => void };
  /** Another object after every arrival. */
  readonly outside: () => Outside;
  /** Sees to the faces that were asked for. */
  readonly want: (faces: Derived["faces"]) => void;
}

export interface BesideOptions {
  readonly readFace?: (id: string, wanted: string) => Promise<ReadFace>;
  readonly startWorker?: () => Worker;
  /** A worker without a question for this long is let go, ms. */
  readonly idleMs?: number;
  /** Told when a worker does not come or breaks over a question; the page's console otherwise. */
  readonly onFailure?: (error: Error) => void;
}

/** What one part asked last. */
interface Desk {
  readonly work: AnyWork;
  readonly question: unknown;
  answered: Answered<unknown> | undefined;
  /** Of the job whose answer is shown; a later job's answer takes its place, never an earlier one's. */
  shownJob: number;
  /** A worker broke over this question: it is not asked again. */
  failed: boolean;
}

interface Job {
  readonly id: number;
  readonly key: string;
  readonly question: unknown;
  /** Whether an answer has come already: the worker is at a later step. */
  answers: number;
  /** The worker was told to go no further. */
  dropped: boolean;
}

/** Final answers kept, so that undo and a value taken back need no work. */
const KEPT = 24;
/** A later step that goes on for this long after it was overtaken is ended with its worker, ms. */
const PATIENCE_MS = 120;
/** A maker who thinks for longer waits once for another worker. */
const IDLE_MS = 60_000;

export function createBeside({
  readFace = fetchFace,
  startWorker = hireWorker,
  idleMs = IDLE_MS,
  onFailure = (error) => reportError(error),
}: BesideOptions = {}): Beside {
  const arrivals = createStore(() => ({ count: 0 }));
  const arrived = (): void => arrivals.setState(({ count }) => ({ count: count + 1 }));
  const faces = new Map<string, ReadFace>();
  const asked = new Map<string, string>();
  const desks = new Map<string, Desk>();
  let kept: { readonly work: string; readonly question: unknown; readonly answered: Answered<unknown> }[] = [];
  let worker: Worker | undefined;
  let running: Job | undefined;
  let lastJob = 0;
  let scheduled = false;
  let patience: ReturnType<typeof setTimeout> | undefined;
  let idle: ReturnType<typeof setTimeout> | undefined;

  const answer: Answerer = (asker, work, question) => {
    const key = `${asker} ${work.name}`;
    const desk = desks.get(key);
    if (desk && same(desk.question, question)) return desk.answered;
    const known = knownOf(work, question);
    // Asked again while it is being answered, it is the same question.
    const isRunning = running?.key === key && same(running.question, question);
    // The newest question stands last.
    desks.delete(key);
    desks.set(key, {
      work,
      question: isRunning ? running!.question : question,
      answered: known ?? (desk?.answered && { answer: desk.answered.answer, state: "stale" }),
      shownJob: desk?.shownJob ?? 0,
      failed: false,
    });
    if (!known) schedule();
    return desks.get(key)!.answered;
  };

  const knownOf = (work: AnyWork, question: unknown): Answered<unknown> | undefined =>
    kept.find((one) => one.work === work.name && same(one.question, question))?.answered;

  /** Later, since a design is derived several times before it stands. */
  function schedule(): void {
    if (scheduled) return;
    scheduled = true;
    setTimeout(() => {
      scheduled = false;
      next();
    });
  }

  function next(): void {
    const current = running && desks.get(running.key);
    if (running && current?.question === running.question) return;
    const open = [...desks].filter(([, desk]) => desk.answered?.state !== "final" && !desk.failed);
    // What one asked may have been answered to another meanwhile.
    for (const [, desk] of open) desk.answered = knownOf(desk.work, desk.question) ?? desk.answered;
    const wanted = open.findLast(([, desk]) => desk.answered?.state !== "final");
    if (running && running.answers > 0 && wanted) {
      drop(running);
      patience ??= setTimeout(giveUp, PATIENCE_MS);
    }
    clearTimeout(idle);
    if (!running && wanted) begin(...wanted);
    else if (!running) idle = setTimeout(letGo, idleMs);
    if (open.some(([, desk]) => desk.answered?.state === "final")) arrived();
  }

  function begin(key: string, { work, question }: Desk): void {
    running = { id: ++lastJob, key, question, answers: 0, dropped: false };
    worker ??= hired();
    const words: WorkQuestion = { id: running.id, work: work.name, question };
    // A worker has no origin to name.
    // eslint-disable-next-line unicorn/require-post-message-target-origin
    worker.postMessage(words);
  }

  function drop(job: Job): void {
    if (job.dropped) return;
    job.dropped = true;
    const words: WorkDrop = { drop: job.id };
    // eslint-disable-next-line unicorn/require-post-message-target-origin
    worker?.postMessage(words);
  }

  function giveUp(): void {
    patience = undefined;
    if (!running || desks.get(running.key)?.question === running.question) return;
    letGo();
    running = undefined;
    next();
  }

  function letGo(): void {
    worker?.terminate();
    worker = undefined;
  }

  function hired(): Worker {
    const one = startWorker();
    one.addEventListener("message", ({ data }: MessageEvent<WorkAnswer | WorkGone>) => {
      if (one !== worker) return;
      if (!("dropped" in data)) take(data);
      else if (running?.id === data.id) goOn();
    });
    one.addEventListener("error", ({ message }) => {
      if (one === worker) fail(new Error(`the work beside the page failed: ${message}`));
    });
    return one;
  }

  /** Goes on with another worker and the next question. */
  function fail(error: Error): void {
    const desk = running && desks.get(running.key);
    if (desk && desk.question === running!.question) desk.failed = true;
    clearTimeout(patience);
    patience = undefined;
    running = undefined;
    letGo();
    onFailure(error);
    next();
  }

  function take({ id, answer: given, last }: WorkAnswer): void {
    const job = running;
    if (!job || job.id !== id) return;
    job.answers += 1;
    const desk = desks.get(job.key);
    const overtaken = desk?.question !== job.question;
    const state = overtaken ? "stale" : last ? "final" : "coarse";
    if (last && desk) {
      kept = [
        { work: desk.work.name, question: job.question, answered: { answer: given, state: "final" } as const },
        ...kept,
      ].slice(0, KEPT);
    }
    if (desk && desk.shownJob <= job.id && desk.answered?.state !== "final") {
      desk.shownJob = job.id;
      desk.answered = last && !overtaken ? kept[0]!.answered : { answer: given, state };
      arrived();
    }
    if (!last && !overtaken) return;
    // An overtaken job is given up between its steps.
    if (!last) drop(job);
    goOn();
  }

  /** The worker is free for the next question. */
  function goOn(): void {
    clearTimeout(patience);
    patience = undefined;
    running = undefined;
    next();
  }

  function want(wishes: Derived["faces"]): void {
    for (const { id, wanted } of wishes) {
      const face = faces.get(id);
      const before = asked.get(id);
      const lacks =
        face?.ok === true &&
        !face.value.whole &&
        Array.from(wanted).some((c) => !face.value.glyphs.has(c) && !before?.includes(c));
      if (before !== undefined && !lacks) continue;
      asked.set(id, (before ?? "") + wanted);
      readFace(id, (before ?? "") + wanted)
        .catch((error: unknown) => cannotBeRead(error))
        .then((read) => {
          faces.set(id, read);
          arrived();
        })
        .catch((error: unknown) => reportError(error));
    }
  }

  let shown: { readonly count: number; readonly outside: Outside } | undefined;
  return {
    arrivals,
    outside: () => {
      const { count } = arrivals.getState();
      if (shown?.count !== count) shown = { count, outside: { faces, answer } };
      return shown.outside;
    },
    want,
  };
}

const hireWorker = (): Worker => new Worker(new URL("./work.worker.ts", import.meta.url), { type: "module" });

const cannotBeRead = (error: unknown): ReadFace =>
  trouble(
    "file",
    `The face cannot be read: ${error instanceof Error ? error.message : String(error)}`,
    "Open the program again, or choose another face.",
  );

/** A face that comes with the program, or one that the maker opened, in a data address. */
export async function fetchFace(id: string, wanted: string): Promise<ReadFace> {
  const bundled = bundledFace(id);
  if (!bundled) {
    const font = fontOfAddress(id);
    return font.ok ? readFaceApart(font.value, wanted) : font;
  }
  const came = await fetch(new URL(`${FACES_FOLDER}/${bundled.file}`, document.baseURI));
  if (!came.ok) throw new Error(`it did not come (${came.status})`);
  return readFaceApart(new Uint8Array(await came.arrayBuffer()), wanted);
}
