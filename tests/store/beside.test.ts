import { setTimeout as pause } from "node:timers/promises";
import { describe, expect, it } from "vitest";
import type { Face } from "../../src/lettering/face.ts";
import type { AnyWork } from "../../src/parts/answers.ts";
import { createBeside, type BesideOptions } from "../../src/store/beside.ts";
import type { WorkAnswer, WorkDrop, WorkGone, WorkQuestion } from "../../src/store/work.worker.ts";

/** A worker of which the test gives the answers. */
class Hand {
  readonly got: (WorkQuestion | WorkDrop)[] = [];
  ended = false;
  #listen: ((event: { data: WorkAnswer | WorkGone }) => void) | undefined;
  #hear: ((event: { message: string }) => void) | undefined;
  postMessage(words: WorkQuestion | WorkDrop): void {
    this.got.push(words);
  }
  addEventListener(kind: string, listen: (event: { data?: WorkAnswer | WorkGone; message?: string }) => void): void {
    if (kind === "message") this.#listen = listen;
    else this.#hear = listen;
  }
  break(message: string): void {
    this.#hear!({ message });
  }
  terminate(): void {
    this.ended = true;
  }
  give(answer: unknown, last = false): void {
    const asked = this.got.findLast((one): one is WorkQuestion => "question" in one)!;
    this.#listen!({ data: { id: asked.id, answer, last } });
  }
  /** Has dropped what it was told to. */
  go(): void {
    const { drop } = this.got.findLast((one): one is WorkDrop => "drop" in one)!;
    this.#listen!({ data: { id: drop, dropped: true } });
  }
  questions(): unknown[] {
    return this.got.flatMap((one) => ("question" in one ? [one.question] : []));
  }
}

const work: AnyWork = { name: "halve", steps: () => [] };

function openHands(options: Pick<BesideOptions, "idleMs" | "onFailure"> = {}): {
  beside: ReturnType<typeof createBeside>;
  hands: Hand[];
} {
  const hands: Hand[] = [];
  const beside = createBeside({
    ...options,
    startWorker: () => {
      const hand = new Hand();
      hands.push(hand);
      return hand as unknown as Worker;
    },
  });
  return { beside, hands };
}

function open(): { ask: (question: unknown) => unknown; hands: Hand[]; arrivals: () => number } {
  const { beside, hands } = openHands();
  let arrivals = 0;
  beside.arrivals.subscribe(() => (arrivals += 1));
  return { ask: (question) => beside.outside().answer!("parts.inlay", work, question), hands, arrivals: () => arrivals };
}

/** A question for 10 comes while one for 8 is in its second step. */
async function overtaken(): Promise<ReturnType<typeof open>> {
  const opened = open();
  opened.ask({ size: 8 });
  await pause(5);
  opened.hands[0]!.give(3.9);
  opened.ask({ size: 10 });
  return opened;
}

describe("heavy questions", () => {
  it("are answered beside the page, first coarsely and then for good", async () => {
    const { ask, hands, arrivals } = open();
    expect(ask({ size: 8 })).toBeUndefined();
    expect(hands).toEqual([]);
    await pause(5);
    expect(hands[0]!.questions()).toEqual([{ size: 8 }]);
    hands[0]!.give(3.9);
    expect(ask({ size: 8 })).toEqual({ answer: 3.9, state: "coarse" });
    hands[0]!.give(4, true);
    expect(ask({ size: 8 })).toEqual({ answer: 4, state: "final" });
    expect(ask({ size: 8 })).toBe(ask({ size: 8 }));
    expect(arrivals()).toBe(2);
  });

  it("over which a worker breaks are told of and not asked again; others are asked of another worker", async () => {
    const told: string[] = [];
    const { beside, hands } = openHands({ onFailure: ({ message }) => told.push(message) });
    const ask = (asker: string, question: unknown): unknown => beside.outside().answer!(asker, work, question);
    ask("parts.one", 1);
    await pause(5);
    hands[0]!.break("it did not come");
    expect(told).toEqual([expect.stringContaining("it did not come")]);
    expect(hands[0]!.ended).toBe(true);
    ask("parts.one", 1);
    ask("parts.two", 2);
    await pause(5);
    expect(hands).toHaveLength(2);
    expect(hands[1]!.questions()).toEqual([2]);
    hands[1]!.give(20, true);
    expect(ask("parts.two", 2)).toEqual({ answer: 20, state: "final" });
    ask("parts.one", 3);
    await pause(5);
    expect(hands[1]!.questions()).toEqual([2, 3]);
  });

  it("that change meanwhile drop the earlier one between its steps, and what it found is shown as stale", async () => {
    const { ask, hands } = open();
    ask({ size: 8 });
    await pause(5);
    ask({ size: 9 });
    ask({ size: 10 });
    await pause(5);
    expect(hands[0]!.questions()).toEqual([{ size: 8 }]);
    hands[0]!.give(3.9);
    expect(ask({ size: 10 })).toEqual({ answer: 3.9, state: "stale" });
    expect(hands[0]!.got.some((one) => "drop" in one)).toBe(true);
    expect(hands[0]!.questions()).toEqual([{ size: 8 }, { size: 10 }]);
    hands[0]!.give(5, true);
    expect(ask({ size: 10 })).toEqual({ answer: 5, state: "final" });
  });

  it("that are overtaken in a later step are dropped on its way, and the worker is kept", async () => {
    const { ask, hands } = await overtaken();
    await pause(5);
    expect(hands[0]!.got.filter((one) => "drop" in one)).toHaveLength(1);
    expect(hands[0]!.questions()).toEqual([{ size: 8 }]);
    hands[0]!.go();
    expect(hands[0]!.questions()).toEqual([{ size: 8 }, { size: 10 }]);
    await pause(300);
    expect(hands[0]!.ended).toBe(false);
    hands[0]!.give(5, true);
    expect(ask({ size: 10 })).toEqual({ answer: 5, state: "final" });
  });

  it("that are asked again after they were dropped are worked out anew", async () => {
    const { ask, hands } = await overtaken();
    await pause(5);
    ask({ size: 8 });
    await pause(5);
    hands[0]!.go();
    await pause(5);
    expect(hands[0]!.questions()).toEqual([{ size: 8 }, { size: 8 }]);
    hands[0]!.give(4, true);
    expect(ask({ size: 8 })).toEqual({ answer: 4, state: "final" });
  });

  it("that are overtaken in a long later step lose their worker", async () => {
    const { hands } = await overtaken();
    await pause(300);
    expect(hands[0]!.ended).toBe(true);
    expect(hands[1]!.questions()).toEqual([{ size: 10 }]);
  });

  it("asked again after a value was taken back are answered from what is kept", async () => {
    const { ask, hands } = open();
    ask({ size: 8 });
    await pause(5);
    hands[0]!.give(4, true);
    const known = ask({ size: 8 });
    ask({ size: 9 });
    await pause(5);
    hands[0]!.give(4.5, true);
    expect(ask({ size: 8 })).toBe(known);
    await pause(5);
    expect(hands[0]!.questions()).toEqual([{ size: 8 }, { size: 9 }]);
  });

  it("asked by several at once are worked out once", async () => {
    const { beside, hands } = openHands();
    const ask = (who: string): unknown => beside.outside().answer!(who, work, { size: 8 });
    for (const who of ["copy 0", "copy 1", "copy 2"]) ask(who);
    await pause(5);
    let arrivals = 0;
    beside.arrivals.subscribe(() => (arrivals += 1));
    hands[0]!.give(4, true);
    await pause(5);
    expect(hands[0]!.questions()).toEqual([{ size: 8 }]);
    for (const who of ["copy 0", "copy 1", "copy 2"]) expect(ask(who)).toEqual({ answer: 4, state: "final" });
    expect(arrivals).toBe(2);
  });

  it("asked last are answered first", async () => {
    const { beside, hands } = openHands();
    const ask = (who: string, size: number): unknown => beside.outside().answer!(who, work, { size });
    ask("card 1", 1);
    await pause(5);
    ask("card 2", 2);
    ask("card 3", 3);
    ask("card 2", 4);
    for (const answer of [0.5, 2, 1.5]) hands[0]!.give(answer, true);
    expect(hands[0]!.questions()).toEqual([{ size: 1 }, { size: 4 }, { size: 3 }]);
    expect(ask("card 3", 3)).toEqual({ answer: 1.5, state: "final" });
  });

  it("none of which comes for a while let the worker go, and the next one has another", async () => {
    const { beside, hands } = openHands({ idleMs: 20 });
    const ask = (size: number): unknown => beside.outside().answer!("parts.inlay", work, { size });
    ask(8);
    await pause(40);
    expect(hands[0]!.ended, "while it works").toBe(false);
    hands[0]!.give(4, true);
    await pause(40);
    expect(hands[0]!.ended).toBe(true);
    expect(ask(8)).toEqual({ answer: 4, state: "final" });
    ask(9);
    await pause(5);
    expect(hands[1]!.questions()).toEqual([{ size: 9 }]);
  });

  it("asked again while they are being answered are not asked twice", async () => {
    const { ask, hands } = open();
    ask({ size: 8 });
    await pause(5);
    ask({ size: 9 });
    ask({ size: 8 });
    await pause(200);
    expect(hands[0]!.got.length).toBe(1);
    hands[0]!.give(4, true);
    expect(ask({ size: 8 })).toEqual({ answer: 4, state: "final" });
  });
});

describe("faces", () => {
  const face = (letters: string, whole: boolean): Face => ({
    name: "Test",
    unitsPerEm: 1000,
    ascender: 800,
    descender: -200,
    capHeight: 700,
    xHeight: 500,
    glyphs: new Map(Array.from(letters, (letter, index) => [letter, { index, advance: 500, contours: [] }])),
    whole,
    kerning: { from: "none", lookups: [] },
  });

  it("are read once, and again where a large one was read without a letter that is wanted now", async () => {
    const asked: string[] = [];
    const beside = createBeside({
      readFace: (id, wanted) => {
        asked.push(`${id} ${wanted}`);
        return Promise.resolve({ ok: true, value: face(`AB${wanted}`, id === "small") });
      },
    });
    beside.want([{ id: "small", wanted: "A" }]);
    beside.want([{ id: "large", wanted: "A" }]);
    await pause(1);
    beside.want([
      { id: "small", wanted: "Z" },
      { id: "large", wanted: "AZ" },
    ]);
    await pause(1);
    expect(asked).toEqual(["small A", "large A", "large AAZ"]);
    const read = beside.outside().faces!.get("large");
    expect(read?.ok && read.value.glyphs.has("Z")).toBe(true);
  });

  it("that cannot be had are told in words", async () => {
    const beside = createBeside({ readFace: () => Promise.reject(new Error("it did not come (404)")) });
    beside.want([{ id: "lato", wanted: "A" }]);
    await pause(1);
    expect(beside.outside().faces!.get("lato")).toMatchObject({
      ok: false,
      error: { message: expect.stringMatching(/404/) as string },
    });
  });
});
