import * as fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { newDesign } from "../../src/document/new-design.ts";
import { dropPart, namePart, newPart } from "../../src/store/commands/edit-parts.ts";
import { addRecord, shiftRecord, takeRecord } from "../../src/store/commands/edit-records.ts";
import { commitPreviews } from "../../src/store/commands/commit-previews.ts";
import { editValue } from "../../src/store/commands/edit-value.ts";
import { recordCut } from "../../src/store/commands/record-cut.ts";
import { returnToCut } from "../../src/store/commands/return-to-cut.ts";
import { switchUnits } from "../../src/store/commands/switch-units.ts";
import { redo, undo } from "../../src/store/commands/undo.ts";
import { historyFrom, historyOf, packHistory, UNDO_LIMIT } from "../../src/store/design-store.ts";
import { preview } from "../../src/store/session-store.ts";
import { createWorkbench, type Workbench } from "../../src/store/workbench.ts";

// A busy machine must not fail a property.
vi.setConfig({ testTimeout: 120_000 });

const open = (): Workbench => createWorkbench({ first: { id: "a", design: newDesign("steel-string") } });
const design = (bench: Workbench) => bench.design.getState().design;
const labels = (bench: Workbench) => bench.history.getState();

/** Every kind of step, with arguments that often fit and sometimes do not. */
const step: fc.Arbitrary<(bench: Workbench) => unknown> = fc.oneof(
  fc
    .tuple(
      fc.constantFrom(
        "nutWidth",
        "nutSpread",
        "nutMargin",
        "strings[0].gauge",
        "fingerboard.overhang",
        "order.title",
        "measured.nutWidth",
        "nowhere",
      ),
      fc.constantFrom("1 in", "2 mm", "", "= 3 mm", undefined),
      fc.constantFrom("g", undefined),
    )
    .map(
      ([path, raw, gesture]) =>
        (bench: Workbench) =>
          editValue(bench, path, raw, gesture),
    ),
  fc.constantFrom("mm" as const, "in" as const).map((units) => (bench: Workbench) => switchUnits(bench, units)),
  fc.nat(7).map((i) => (bench: Workbench) => addRecord(bench, "strings", i, "1 mm")),
  fc.nat(7).map((i) => (bench: Workbench) => takeRecord(bench, "strings", i)),
  fc.tuple(fc.nat(7), fc.nat(7)).map(
    ([from, to]) =>
      (bench: Workbench) =>
        shiftRecord(bench, "strings", from, to),
  ),
  fc.constantFrom("nut", "fingerboard").map((kind) => (bench: Workbench) => newPart(bench, kind)),
  fc.constantFrom("nut", "fingerboard", "nut2").map((id) => (bench: Workbench) => dropPart(bench, id)),
  fc.constantFrom("board", "nut").map((id) => (bench: Workbench) => namePart(bench, "fingerboard", id)),
  fc.constant((bench: Workbench) => recordCut(bench, { date: "2025-01-01", part: "nut", template: "t" })),
  fc.nat(2).map((i) => (bench: Workbench) => returnToCut(bench, i)),
  fc.constantFrom("1 in", "3 mm").map((raw) => (bench: Workbench) => {
    preview(bench.session, "nutWidth", raw);
    preview(bench.session, "saddleSpread", raw);
    commitPreviews(bench);
  }),
);

describe("undo and redo of everything", () => {
  it("bring back exactly what was, letter by letter, however many steps and back again", () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 25 }), (steps) => {
        const bench = open();
        const past = [design(bench)];
        for (const take of steps) {
          const before = bench.design.temporal.getState().pastStates.length;
          take(bench);
          const after = bench.design.temporal.getState().pastStates.length;
          if (after > before) past.push(design(bench));
          else past[past.length - 1] = design(bench);
        }
        const texts = past.map((one) => JSON.stringify(one));
        for (let i = past.length - 1; i >= 0; i--) {
          expect(JSON.stringify(design(bench))).toBe(texts[i]);
          undo(bench);
        }
        expect(labels(bench).undo).toBeUndefined();
        for (const text of texts) {
          expect(JSON.stringify(design(bench))).toBe(text);
          redo(bench);
        }
        expect(labels(bench).redo).toBeUndefined();
      }),
      { numRuns: 200 },
    );
  });

  it("say what they would do", () => {
    const bench = open();
    expect(labels(bench)).toEqual({ undo: undefined, redo: undefined });
    editValue(bench, "nutWidth", "43 mm");
    expect(labels(bench)).toEqual({ undo: "width at the nut", redo: undefined });
    addRecord(bench, "fingerboard.binding", 0, "1 mm");
    expect(labels(bench)).toEqual({ undo: "new layer 1", redo: undefined });
    undo(bench);
    expect(labels(bench)).toEqual({ undo: "width at the nut", redo: "new layer 1" });
    undo(bench);
    expect(labels(bench)).toEqual({ undo: undefined, redo: "width at the nut" });
    redo(bench);
    editValue(bench, "frets", 21);
    expect(labels(bench)).toEqual({ undo: "frets", redo: undefined });
  });

  it("say which string, counted from the treble as on the instrument", () => {
    const bench = open();
    editValue(bench, "strings[0].gauge", "0.054 in");
    expect(labels(bench).undo).toBe("gauge of string 6");
    takeRecord(bench, "strings", 1);
    expect(labels(bench).undo).toBe("string 5 taken out");
    addRecord(bench, "strings", 5, "0.010 in");
    expect(labels(bench).undo).toBe("new string 1");
    shiftRecord(bench, "strings", 2, 3);
    expect(labels(bench).undo).toBe("string 4 moved");
  });

  it("tell those who watch, once a change", () => {
    const bench = open();
    const heard: unknown[] = [];
    const leave = bench.history.subscribe((now) => heard.push(now));
    editValue(bench, "nutWidth", "43 mm");
    undo(bench);
    leave();
    redo(bench);
    expect(heard.at(-1)).toEqual({ undo: undefined, redo: "width at the nut" });
    expect(heard).not.toContainEqual({ undo: "width at the nut", redo: "width at the nut" });
  });

  it("take a run of edits of one gesture as one step, and edits of another as another", () => {
    const bench = open();
    const first = design(bench);
    for (const width of ["4", "43", "43.", "43.5"]) editValue(bench, "nutWidth", `${width} mm`, "typing 1");
    for (const width of ["44", "45"]) editValue(bench, "nutWidth", `${width} mm`, "typing 2");
    undo(bench);
    expect(design(bench).instrument.nutWidth).toBe("43.5 mm");
    undo(bench);
    expect(design(bench)).toBe(first);
  });

  it("begin a new step where a gesture goes on after an undo, so that redo never skips", () => {
    const bench = open();
    editValue(bench, "nutWidth", "1 mm", "g");
    editValue(bench, "frets", 12);
    undo(bench);
    editValue(bench, "nutWidth", "2 mm", "g");
    expect(labels(bench).redo).toBeUndefined();
    undo(bench);
    expect(design(bench).instrument.nutWidth).toBe("1 mm");
  });

  it("make no step of what changes nothing, or is refused", () => {
    const bench = open();
    expect(editValue(bench, "nutWidth", design(bench).instrument.nutWidth).ok).toBe(true);
    expect(editValue(bench, "nutWidht", "1 in").ok).toBe(false);
    expect(editValue(bench, "scale", true).ok).toBe(false);
    expect(labels(bench).undo).toBeUndefined();
  });

  it(`go back ${UNDO_LIMIT} steps`, () => {
    const bench = open();
    for (let i = 0; i < UNDO_LIMIT + 20; i++) editValue(bench, "nutWidth", `${i} mm`);
    for (let i = 0; i < UNDO_LIMIT + 20; i++) undo(bench);
    expect(design(bench).instrument.nutWidth).toBe("19 mm");
  });

  it("survive being kept as plain data; data that are no history are let go", () => {
    const bench = open();
    editValue(bench, "nutWidth", "43 mm", "g");
    editValue(bench, "frets", 19);
    undo(bench);
    const kept = historyFrom(structuredClone(packHistory(historyOf(bench.design), design(bench))), design(bench));
    expect(kept.past.map(({ step: { label } }) => label)).toEqual([""]);
    expect(kept.future.map(({ step: { label } }) => label)).toEqual(["frets"]);
    expect(kept.step).toEqual({ label: "width at the nut" });
    for (const other of [
      undefined,
      null,
      5,
      {},
      { past: [1], step: { label: "x" }, future: [] },
      { past: [{ design: { format: "gramil-design", version: 2 }, step: { label: "" } }], step: { label: "x" }, future: [] },
    ]) {
      expect(historyFrom(other, design(bench)).past).toEqual([]);
    }
  });
});

describe("undo of the units", () => {
  it("gives back the units alone; the next one takes back the change before", () => {
    const bench = open();
    editValue(bench, "nutWidth", "43 mm");
    switchUnits(bench, "mm");
    expect(labels(bench).undo).toBe("units");
    undo(bench);
    expect([design(bench).units, design(bench).instrument["nutWidth"]]).toEqual(["in", "43 mm"]);
    expect(labels(bench).undo).not.toBe("units");
    undo(bench);
    expect(design(bench).instrument["nutWidth"]).toBe(newDesign("steel-string").instrument["nutWidth"]);
    expect(labels(bench).undo).toBeUndefined();
  });
});

describe("what is dragged", () => {
  it("is drawn and not said; letting go says all of it as one step", () => {
    const bench = open();
    const first = design(bench);
    const widthOf = (): unknown => bench.derived.getState().instrument.fields.find(({ key }) => key === "nutWidth")?.value;
    preview(bench.session, "nutWidth", "40 mm");
    preview(bench.session, "nutWidth", "41 mm");
    preview(bench.session, "saddleSpread", "50 mm");
    expect(widthOf()).toBe(41);
    expect(design(bench)).toBe(first);
    commitPreviews(bench);
    expect(widthOf()).toBe(41);
    expect(bench.session.getState().previews.size).toBe(0);
    expect(labels(bench).undo).toBe("width at the nut, outer strings apart, at the saddle");
    undo(bench);
    expect(design(bench)).toBe(first);
    expect(widthOf()).toBeCloseTo(44.45, 9);
  });

  it("is let go by undo and by a typed value", () => {
    const bench = open();
    preview(bench.session, "nutWidth", "40 mm");
    undo(bench);
    expect(bench.session.getState().previews.size).toBe(0);
    preview(bench.session, "nutWidth", "40 mm");
    editValue(bench, "frets", 19);
    expect(bench.session.getState().previews.size).toBe(0);
    expect(design(bench).instrument.nutWidth).toBe("1 3/4 in");
  });
});

describe("what follows from a design", () => {
  it("is worked out once for each state, and told to those who watch only when it is another", () => {
    const bench = open();
    const first = bench.derived.getState();
    expect(bench.derived.getState()).toBe(first);
    let told = 0;
    const leave = bench.derived.subscribe(() => (told += 1));
    bench.session.setState({ theme: "slate" });
    bench.session.setState({ selection: { part: "nut" } });
    expect(told).toBe(0);
    editValue(bench, "nutWidth", "43 mm");
    expect(told).toBe(1);
    expect(bench.derived.getState()).not.toBe(first);
    leave();
    editValue(bench, "nutWidth", "44 mm");
    expect(told).toBe(1);
  });

  it("leaves a preview out that cannot be set", () => {
    const bench = open();
    preview(bench.session, "nowhere", 1);
    expect(bench.derived.getState().problems).toEqual([]);
  });
});

describe("adding a part", () => {
  it("shows it; taking it out shows the instrument", () => {
    const bench = open();
    const added = newPart(bench, "fingerboard");
    expect(added.ok && added.value).toBe("fingerboard2");
    expect(bench.session.getState().activePart).toBe("fingerboard2");
    namePart(bench, "fingerboard2", "second");
    expect(bench.session.getState().activePart).toBe("second");
    dropPart(bench, "second");
    expect(bench.session.getState().activePart).toBe("instrument");
  });
});
