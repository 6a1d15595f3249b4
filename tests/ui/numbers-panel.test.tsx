// @vitest-environment jsdom
import { afterEach, describe, expect, it } from "vitest";
import { useDerived, BenchProvider } from "../../src/ui/bench.ts";
import { NumbersPanel } from "../../src/ui/panels/numbers-panel.tsx";
import type { Workbench } from "../../src/store/workbench.ts";
import { undo } from "../../src/store/commands/undo.ts";
import { benchWith, buttonNamed, click, inputNamed, nameOf, openPage, press, type, type Page } from "./page.ts";

function Instrument() {
  return <NumbersPanel part={useDerived().instrument} />;
}

let page: Page | undefined;
afterEach(() => {
  page?.close();
  page = undefined;
});

function open(bench: Workbench): HTMLElement {
  page = openPage(
    <BenchProvider value={bench}>
      <Instrument />
    </BenchProvider>,
  );
  return page.root;
}
const instrumentOf = (bench: Workbench) => bench.design.getState().design.instrument;
const valueOf = (bench: Workbench, key: string): unknown =>
  bench.derived.getState().instrument.fields.find((field) => field.key === key)?.value;
const names = (root: HTMLElement): string[] => [...root.querySelectorAll("input")].map(nameOf);

describe("the numbers of a part", () => {
  it("stand in the groups of its table, in its order", () => {
    const root = open(benchWith());
    expect([...root.querySelectorAll("h3")].map((h) => h.textContent)).toEqual([
      "Strings",
      "Scale and frets",
      "At the nut",
      "At the saddle",
    ]);
  });

  it("leave out what another choice makes idle, and bring it back when it is not", () => {
    const bench = benchWith();
    const root = open(bench);
    expect(names(root)).not.toContain("Square fret");
    const bass = inputNamed(root, "Scale on the bass side");
    type(bass, "26.5 in");
    press(bass, "Enter");
    expect(names(root)).toContain("Square fret");
  });

  it("are said as they were typed, as one step that can be undone", () => {
    const bench = benchWith();
    const root = open(bench);
    const before = instrumentOf(bench)["nutWidth"];
    const input = inputNamed(root, "Width at the nut");
    type(input, '1-11/16"');
    press(input, "Enter");
    expect(instrumentOf(bench)["nutWidth"]).toBe('1-11/16"');
    expect(input.value).toBe("1-11/16");
    undo(bench);
    expect(instrumentOf(bench)["nutWidth"]).toBe(before);
  });

  it("move the drawing while they are typed, and are not said before Enter", () => {
    const bench = benchWith();
    const root = open(bench);
    const design = bench.design.getState().design;
    type(inputNamed(root, "Scale"), "650 mm");
    expect(valueOf(bench, "scale")).toBeCloseTo(650, 9);
    expect(bench.design.getState().design).toBe(design);
  });

  it.each([
    ["12 parsecs", "is no unit"],
    ["-3 mm", "It must lie between"],
    ["= nutWidth", "need each other"],
    ["= 1 / 0", ""],
  ])("refuse %s beside the field and leave the design untouched", (text, reason) => {
    const bench = benchWith();
    const root = open(bench);
    const design = bench.design.getState().design;
    const input = inputNamed(root, "Width at the nut");
    type(input, text);
    press(input, "Enter");
    const alert = input.closest(".numf")?.querySelector("[role=alert]")?.textContent ?? "";
    expect(alert).not.toBe("");
    expect(alert).toContain(reason);
    expect(bench.design.getState().design).toBe(design);
    expect(bench.session.getState().previews.size).toBe(0);
  });

  it("let another of the three nut numbers follow at one press, and nothing on the drawing moves", () => {
    const bench = benchWith();
    const root = open(bench);
    const before = ["nutWidth", "nutSpread", "nutMargin"].map((key) => valueOf(bench, key));
    const row = inputNamed(root, "Width at the nut").closest(".row");
    click(buttonNamed(row!, "let this one follow"));
    expect(instrumentOf(bench)["nutWidth"]).toBeUndefined();
    expect(instrumentOf(bench)["nutSpread"]).toBeDefined();
    expect(instrumentOf(bench)["nutMargin"]).toBeDefined();
    const after = ["nutWidth", "nutSpread", "nutMargin"].map((key) => valueOf(bench, key));
    after.forEach((value, i) => expect(value).toBeCloseTo(before[i] as number, 9));
    undo(bench);
    expect(instrumentOf(bench)["nutSpread"]).toBeUndefined();
  });

  it("add a string like the last one, and name every field of it", () => {
    const bench = benchWith();
    const root = open(bench);
    click(buttonNamed(root, "Add a string"));
    expect(instrumentOf(bench)["strings"]).toHaveLength(7);
    expect(inputNamed(root, "string 1, gauge").value).toBe(inputNamed(root, "string 2, gauge").value);
  });

  it("say a number inside a list at its own place", () => {
    const bench = benchWith();
    const root = open(bench);
    // People count strings from the treble; the list runs from the bass.
    const gauge = inputNamed(root, "string 1, gauge");
    type(gauge, ".011");
    press(gauge, "Enter");
    expect((instrumentOf(bench)["strings"] as { gauge: string }[])[5]?.gauge).toBe(".011");
  });
});
