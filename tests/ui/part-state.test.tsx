// @vitest-environment jsdom
import { afterEach, expect, it } from "vitest";
import { addPart } from "../../src/document/edit-parts.ts";
import { editValue } from "../../src/store/commands/edit-value.ts";
import { BenchProvider, partNamed, useDerived } from "../../src/ui/bench.ts";
import { PartState } from "../../src/ui/screens/part-state.tsx";
import { act } from "react";
import { designWith } from "../checks/design.ts";
import { benchWith, openPage, type Page } from "./page.ts";

let page: Page | undefined;
afterEach(() => {
  page?.close();
  page = undefined;
});

const SPOT = { text: "", on: "fingerboard", placed: "centre", ornaments: [{ figure: "spot", size: 4 }], y: 12 };
const State = () => <PartState part={partNamed(useDerived(), "inlay2")!} />;

it("a part's badge counts the stop of a check across parts", () => {
  const added = addPart(designWith(["inlay"]), "inlay");
  if (!added.ok) throw new Error(added.error.message);
  const { inlay, inlay2, fingerboard } = added.value.design.parts;
  const bench = benchWith({
    units: "mm",
    parts: { fingerboard: fingerboard!, inlay: { ...inlay!, ...SPOT, x: 86 }, inlay2: { ...inlay2!, ...SPOT, x: 118 } },
  });
  page = openPage(
    <BenchProvider value={bench}>
      <State />
    </BenchProvider>,
  );
  const { root } = page;
  expect(root.textContent).not.toContain("stop");
  // Spots of 4 whose middles lie 2 apart overlap; alone, neither is stopped.
  act(() => void editValue(bench, "parts.inlay2.x", "88 mm"));
  expect(
    partNamed(bench.derived.getState(), "inlay2")!
      .findings()
      .some(({ severity }) => severity === "stop"),
  ).toBe(false);
  expect(root.textContent.trim()).toBe("1 stop");
});
