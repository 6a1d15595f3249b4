import { describe, expect, it } from "vitest";
import { newDesign } from "../../src/document/new-design.ts";
import type { Design } from "../../src/document/design.ts";
import type { Derived } from "../../src/parts/derived.ts";
import { faceOfId } from "../../src/cli/faces.ts";
import { createBeside } from "../../src/store/beside.ts";
import { createOthers, whenSettled } from "../../src/store/others.ts";
import { inlayWorker } from "./inlay-worker.ts";

const lettered = (text: string): Design => {
  const fresh = newDesign("steel-string");
  return { ...fresh, parts: { ...fresh.parts, inlay: { kind: "inlay", text, face: "lato" } } };
};
const pieces = (derived: Derived): unknown =>
  (derived.parts.find(({ id }) => id === "inlay")!.measures as { pieceCount: number }).pieceCount;

describe("designs beside the open one", () => {
  it("get their letters and their pockets from beside the page, each its own", async () => {
    const others = createOthers(
      createBeside({ readFace: (id, wanted) => Promise.resolve(faceOfId(id, wanted)), startWorker: inlayWorker }),
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
    const others = createOthers(createBeside({ readFace: () => new Promise(() => undefined), startWorker: inlayWorker }));
    const giving = new AbortController();
    const coming = whenSettled(others.outside, () => others.derive("kept 1", lettered("A")), giving.signal);
    giving.abort(new Error("let go"));
    await expect(coming).rejects.toThrow("let go");
  });
});
