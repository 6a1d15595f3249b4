import { describe, expect, it } from "vitest";
import type { Photograph } from "../../src/document/board.ts";
import type { Design } from "../../src/document/design.ts";
import { newDesign } from "../../src/document/new-design.ts";
import { readDesign } from "../../src/document/read.ts";
import { writeDesign } from "../../src/document/write.ts";
import { dropSpan, editPhotograph, keepSpan, setPhotograph } from "../../src/store/commands/edit-board.ts";
import { dropPart, namePart } from "../../src/store/commands/edit-parts.ts";
import { redo, undo } from "../../src/store/commands/undo.ts";
import { historyFrom, historyOf, packHistory } from "../../src/store/design-store.ts";
import { createWorkbench, type Workbench } from "../../src/store/workbench.ts";

const open = (): Workbench => createWorkbench({ first: { id: "a", design: newDesign("steel-string") } });
const design = (bench: Workbench) => bench.design.getState().design;

/** The design with pictures of no size. */
const editedWithout = (of: Design): Design => ({
  ...of,
  boards: { fingerboard: { photograph: { ...of.boards!["fingerboard"]!.photograph!, data: "" } } },
});

describe("a photograph under a board", () => {
  const picture = (data: string): Photograph => ({
    name: "bridge.jpg",
    type: "image/webp",
    width: 40,
    height: 30,
    data,
    at: [0, 0],
    turn: 0,
  });

  it("is undone and done again exactly, with everything that was said of it", () => {
    const bench = open();
    const designs = [design(bench)];
    const acts = [
      () => setPhotograph(bench, "fingerboard", picture("AAAA")),
      () => editPhotograph(bench, "fingerboard", { at: [12.5, -3], opacity: 0.5 }),
      () =>
        editPhotograph(bench, "fingerboard", {
          scale: {
            by: "points",
            points: [
              [1, 2],
              [30, 20],
            ],
            length: "4 in",
          },
        }),
      () => editPhotograph(bench, "fingerboard", { scale: undefined }),
      () => keepSpan(bench, "fingerboard", { from: { at: [0, 0] }, to: { at: [3, 4] } }),
      () => dropSpan(bench, "fingerboard", 0),
      () => setPhotograph(bench, "fingerboard", undefined),
    ];
    for (const act of acts) {
      act();
      designs.push(design(bench));
    }
    expect(design(bench).boards).toBeUndefined();
    for (const before of designs.toReversed().slice(1)) {
      undo(bench);
      expect(design(bench)).toEqual(before);
    }
    for (const after of designs.slice(1)) {
      redo(bench);
      expect(design(bench)).toEqual(after);
    }
  });

  it("goes and moves with its part", () => {
    const bench = open();
    setPhotograph(bench, "fingerboard", picture("AAAA"));
    expect(namePart(bench, "fingerboard", "board").ok).toBe(true);
    expect(Object.keys(design(bench).boards!)).toEqual(["board"]);
    expect(dropPart(bench, "board").ok).toBe(true);
    expect(design(bench).boards).toBeUndefined();
    undo(bench);
    expect(design(bench).boards!["board"]!.photograph!.data).toBe("AAAA");
  });

  it("is kept once with the steps of undo, however many there are, and not again where the design holds it", () => {
    const bench = open();
    const [old, present] = ["A".repeat(400_000), "B".repeat(400_000)];
    setPhotograph(bench, "fingerboard", picture(old));
    for (let i = 0; i < 20; i++) editPhotograph(bench, "fingerboard", { at: [i, 0] });
    setPhotograph(bench, "fingerboard", picture(present));
    for (let i = 0; i < 20; i++) editPhotograph(bench, "fingerboard", { at: [i, 1] });
    const packed = packHistory(historyOf(bench.design), design(bench));
    const written = JSON.stringify(packed);
    expect(written.length).toBeLessThan(410_000 + 43 * JSON.stringify(editedWithout(design(bench))).length);
    const kept = historyFrom(JSON.parse(written), design(bench));
    expect(kept).toEqual(historyFrom(packHistory(historyOf(bench.design), design(bench)), design(bench)));
    expect(kept.past.map((moment) => moment.design)).toEqual(historyOf(bench.design).past.map((moment) => moment.design));
  });

  it("is written and read back as it is, and is left out with a word where it is damaged", () => {
    const bench = open();
    setPhotograph(bench, "fingerboard", { ...picture("QUJD"), opacity: 0.5, locked: true, mmAPixel: 0.1 });
    keepSpan(bench, "fingerboard", { between: ["outline", "fret-3"] });
    const text = writeDesign(design(bench));
    expect(readDesign(text)).toMatchObject({ ok: true, design: design(bench), repairs: [] });
    for (const [was, is] of [
      ['"QUJD"', '"<script>"'],
      ['"image/webp"', '"image/svg+xml"'],
      ['"width": 40', '"width": 0'],
    ] as const) {
      const read = readDesign(text.replace(was, is));
      expect(read.ok && read.design.boards!["fingerboard"]!.photograph).toBeUndefined();
      expect(read.ok && read.repairs).toHaveLength(1);
    }
  });
});
