import { describe, expect, it } from "vitest";
import { newDesign } from "../../src/document/new-design.ts";
import type { Design } from "../../src/document/design.ts";
import type { Derived } from "../../src/parts/derived.ts";
import { faceOfId } from "../../src/cli/faces.ts";
import { createBeside } from "../../src/store/beside.ts";
import { createOthers, whenSettled } from "../../src/store/others.ts";
import { inlayWork } from "../../src/parts/inlay/work.ts";
import type { WorkAnswer, WorkDrop, WorkQuestion } from "../../src/store/work.worker.ts";

/** A worker that answers at once with the last step, as the real one does in the end. */
function worker(): Worker {
  let listen: ((event: { data: WorkAnswer }) => void) | undefined;
  return {
    postMessage: (words: WorkQuestion | WorkDrop) => {
      if (!("question" in words)) return;
      const answer = inlayWork.steps(words.question as never).at(-1)!();
      setTimeout(() => listen!({ data: { id: words.id, answer, last: true } }));
    },
    addEventListener: (kind: string, one: typeof listen) => {
      if (kind === "message") listen = one;
    },
    terminate: () => undefined,
  } as unknown as Worker;
}

const lettered = (text: string): Design => {
  const fresh = newDesign("steel-string");
  return { ...fresh, parts: { ...fresh.parts, inlay: { kind: "inlay", text, face: "lato" } } };
};
const pieces = (derived: Derived): unknown =>
  (derived.parts.find(({ id }) => id === "inlay")!.measures as { pieceCount: number }).pieceCount;

describe("designs beside the open one", () => {
  it("get their letters and their pockets from beside the page, each its own", async () => {
    const others = createOthers(
      createBeside({ readFace: (id, wanted) => Promise.resolve(faceOfId(id, wanted)), startWorker: worker }),
    );
    const never = new AbortController().signal;
    const [first, second] = [lettered("LI"), lettered("I")];
    const read = (key: string, design: Design) => (): Derived => others.derive(key, design);
    expect(others.derive("copy 0", first).waiting).toBe(true);
    const [one, two] = await Promise.all([
      whenSettled(others.outside, read("copy 0", first), never),
      whenSettled(others.outside, read("copy 1", second), never),
    ]);
    expect([pieces(one), pieces(two)]).toEqual([2, 1]);
    expect(
      one.parts
        .find(({ id }) => id === "inlay")!
        .templates()
        .map(({ name }) => name),
    ).toContain("plug");
    // The next design of the same key takes its place.
    expect(pieces(await whenSettled(others.outside, read("copy 0", second), never))).toBe(1);
  });

  it("are waited for until that is given up", async () => {
    const others = createOthers(createBeside({ readFace: () => new Promise(() => undefined), startWorker: worker }));
    const giving = new AbortController();
    const coming = whenSettled(others.outside, () => others.derive("kept 1", lettered("A")), giving.signal);
    giving.abort(new Error("let go"));
    await expect(coming).rejects.toThrow("let go");
  });
});
