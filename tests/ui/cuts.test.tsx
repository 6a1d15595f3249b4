// @vitest-environment jsdom
import { afterEach, expect, it } from "vitest";
import { editValue } from "../../src/store/commands/edit-value.ts";
import { recordCut } from "../../src/store/commands/record-cut.ts";
import { BenchProvider } from "../../src/ui/bench.ts";
import { Cuts } from "../../src/ui/screens/cuts.tsx";
import { act } from "react";
import { benchWith, buttonNamed, click, openPage, type Page } from "./page.ts";

let page: Page | undefined;
afterEach(() => {
  page?.close();
  page = undefined;
});

it("a cut template is told from the one drawn now by its lines, and its numbers come back", () => {
  const bench = benchWith();
  recordCut(bench, { date: "2025-03-31", part: "fingerboard", template: "fret-slots", material: "6 mm MDF" });
  page = openPage(
    <BenchProvider value={bench}>
      <Cuts />
    </BenchProvider>,
  );
  const { root } = page;
  const words = (): string => root.textContent;
  expect(words()).toContain("Fingerboard, fret slots");
  expect(words()).toContain("still matches");

  // The order is no number of the drawing, and neither is what a template does not show.
  act(() => void editValue(bench, "order.player", "H. Rowan"));
  act(() => void editValue(bench, "fingerboard.thickness", "7 mm"));
  expect(words()).toContain("still matches");

  act(() => void editValue(bench, "scale", "24.9 in"));
  // Fret 20 stands at L (1 - 2^(-20/12)) from the nut: of 0.5 in less scale that is 0.3425 in.
  const off = /up to (0\.\d+) in off at fret 20/.exec(words())?.[1];
  expect(Number(off)).toBeGreaterThanOrEqual(0.342);
  expect(Number(off)).toBeLessThan(0.35);
  click(buttonNamed(root, "back to its numbers"));
  expect(bench.design.getState().design.instrument["scale"]).toBe("25.4 in");
  expect(words()).toContain("still matches");
});
