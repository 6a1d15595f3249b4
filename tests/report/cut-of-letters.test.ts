import { expect, it } from "vitest";
import { deriveLettered } from "../../src/cli/design-file.ts";
import { addCut } from "../../src/document/cuts.ts";
import { newDesign } from "../../src/document/new-design.ts";
import { setValue } from "../../src/document/set-value.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { stateWords } from "../../src/report/content.ts";
import { cutStates } from "../../src/report/cut-state.ts";
import type { Design } from "../../src/document/design.ts";
import type { DeriveOther } from "../../src/parts/derived.ts";

const fresh = newDesign("steel-string");
const inlaid: Design = { ...fresh, units: "mm", parts: { inlay: { kind: "inlay", text: "I", face: "lato", on: "none" } } };
const words = (design: Design, deriveOther: DeriveOther): string[] =>
  cutStates(design, deriveLettered(design), deriveOther).map((state) => stateWords(state, (mm) => `${mm.toFixed(2)} mm`));

it("a pocket of letters that was cut is held against the one of the same letters, and against that of others", () => {
  const cut = { date: "2026-03-02", part: "inlay", template: "pocket" };
  const design = addCut(inlaid, cut);
  const lettered: DeriveOther = (_, other) => deriveLettered(other);
  expect(words(design, lettered)).toEqual(["still matches"]);
  const larger = setValue(design, "parts.inlay.size", "14 mm");
  if (!larger.ok) throw new Error(larger.error.message);
  // The capital grew by 2 mm about its middle: its corners moved by 1 mm up or down, and a little aside.
  expect(words(larger.value, lettered)).toEqual([expect.stringMatching(/^up to 1\.0\d mm off at pocket 1$/)]);
  // Without the faces there is nothing to hold it against. Another cut, since what was cut is remembered.
  expect(words(addCut(inlaid, cut), (_, other) => createDeriver()(other))).toEqual(["no such template now"]);
});

it("the letters that a template is named after are kept as they were typed", () => {
  const design = addCut(
    { ...inlaid, parts: { inlay: { kind: "inlay", text: "AB", face: "lato", on: "none" } } },
    { date: "2026-03-02", part: "inlay", template: "pocket" },
  );
  const names = cutStates(design, deriveLettered(design), (_, other) => deriveLettered(other)).map(({ name }) => name);
  expect(names).toEqual(["Inlay, pocket, AB"]);
});
