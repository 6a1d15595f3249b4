// @vitest-environment jsdom
import { setTimeout as pause } from "node:timers/promises";
import { act } from "react";
import { afterEach, expect, it } from "vitest";
import { newDesign } from "../../src/document/new-design.ts";
import { createBeside } from "../../src/store/beside.ts";
import { editValue } from "../../src/store/commands/edit-value.ts";
import { createWorkbench } from "../../src/store/workbench.ts";
import { BenchProvider, partNamed, useDerived } from "../../src/ui/bench.ts";
import { InlayLegend } from "../../src/ui/inlay/inlay-legend.tsx";
import { faceById } from "../lettering/font-files.ts";
import { inlayWorker } from "../store/inlay-worker.ts";
import { buttonNamed, click, openPage, type Page } from "./page.ts";

let page: Page | undefined;
afterEach(() => {
  page?.close();
  page = undefined;
});

const Legend = () => <InlayLegend part={partNamed(useDerived(), "inlay")!} />;
async function until(ready: () => boolean): Promise<void> {
  const end = Date.now() + 20_000;
  while (!ready() && Date.now() < end) await act(() => pause(20));
  expect(ready()).toBe(true);
}

it("an inlay that is worked out for long keeps in sight what was found last, is spoken of, and can be let go of", async () => {
  const fresh = newDesign("steel-string");
  const inlay = { kind: "inlay", text: "I", face: "lato", on: "none" };
  const bench = createWorkbench({
    first: { id: "test", design: { ...fresh, units: "mm", parts: { inlay } } },
    beside: createBeside({
      readFace: (id) => Promise.resolve({ ok: true, value: faceById(id) }),
      // Works at the second question for ever.
      startWorker: () => inlayWorker(1),
    }),
  });
  page = openPage(
    <BenchProvider value={bench}>
      <Legend />
    </BenchProvider>,
  );
  const { root } = page;
  const state = (): string | null => root.querySelector(".inlay-legend")!.getAttribute("data-state");
  const verdict = (): Element => root.querySelector(".inlay-verdict")!;
  await until(() => state() === "final");
  const found = verdict().textContent;
  expect(found).toMatch(/At 12 mm cap height all strokes survive a 0\.5 mm bit/);
  const keys = root.querySelector(".inlay-keys")!.textContent;
  expect(root.querySelector(".inlay-busy")).toBeNull();

  const began = Date.now();
  act(() => void editValue(bench, "parts.inlay.size", "14 mm"));
  expect(state()).toBe("stale");
  expect(verdict().textContent).toBe(found);
  expect(verdict().hasAttribute("data-stale")).toBe(true);
  expect(root.querySelector(".inlay-keys")!.textContent).toBe(keys);
  expect(root.querySelector(".inlay-busy")).toBeNull();
  await until(() => root.querySelector(".inlay-busy output")?.textContent === "Being worked out");
  expect(Date.now() - began).toBeGreaterThanOrEqual(490);
  await until(() => root.querySelector(".inlay-busy button") !== null);
  click(buttonNamed(root, "Undo size"));
  expect(state()).toBe("final");
  expect(root.querySelector(".inlay-busy")).toBeNull();
  expect(verdict().textContent).toBe(found);
});
