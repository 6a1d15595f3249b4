import { describe, expect, it } from "vitest";
import { addCopy, instrumentsOf, setOwn } from "../../src/document/copies.ts";
import type { Design } from "../../src/document/design.ts";
import { newDesign } from "../../src/document/new-design.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { DeriveOther } from "../../src/parts/derived.ts";
import { nameOf } from "../../src/sheets/words.ts";
import { mergeRuns, servedSaid, sharedIdOf } from "../../src/templates/copies.ts";
import { patternsOf, patternsOfAll } from "../../src/ui/sheets/patterns.ts";
import type { Result } from "../../src/units/result.ts";

const done = <T>(result: Result<T, { readonly message: string }>): T => {
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
};
const alone: Design = { ...newDesign("steel-string"), order: { title: "School guitar", number: "21" } };
const run = done(addCopy(done(addCopy(alone, { number: "22" })), { number: "23" }));
const alike: DeriveOther = (_, design) => createDeriver()(design);
const all = (design: Design) => patternsOfAll(design, createDeriver()(design), alike).patterns;

describe("templates of several copies", () => {
  it("are those of the design, each marked with all that it serves, where nothing differs", () => {
    const patterns = all(run);
    const own = patternsOf(alone, createDeriver()(alone));
    expect(patterns.map(({ source }) => source.id)).toEqual(own.map(({ source }) => source.id));
    for (const { source } of patterns) expect(nameOf(source)).toMatch(/ \(No\. 21, 22 and 23\)$/);
  });

  it("stand once more where a copy's own number changes their lines, and only there", () => {
    const wide = done(setOwn(run, 1, "nutWidth", "45 mm"));
    const patterns = all(wide);
    const slots = patterns.filter(({ source }) => sharedIdOf(source.id) === "fingerboard/blank-outline");
    expect(slots.map(({ source }) => source.serves)).toEqual(["No. 21 and 22", "No. 23"]);
    expect(slots.map(({ source }) => source.id)).toEqual(["fingerboard/blank-outline", "fingerboard/blank-outline@no-23"]);
    const thick = all(done(setOwn(run, 1, "parts.nut.thickness", "7 mm")));
    expect(thick.filter(({ source }) => /^nut\/.*@no-23$/.test(source.id)).length).toBeGreaterThan(0);
    const boards = thick.filter(({ source }) => sharedIdOf(source.id) === "fingerboard/blank-outline");
    expect(boards.map(({ source }) => source.serves)).toEqual(["No. 21, 22 and 23"]);
  });

  it("are no others for a design without copies", () => {
    const derived = createDeriver()(alone);
    expect(all(alone)).toEqual(patternsOf(alone, derived));
    expect(mergeRuns([])).toEqual([]);
  });

  it("name copies without a number by their place", () => {
    const unnamed = done(addCopy({ ...alone, order: { title: "School guitar" } }, {}));
    expect(instrumentsOf(unnamed).map(({ name }) => name)).toEqual(["the first", "copy 1"]);
    expect(servedSaid(["No. 21", "No. 22", "copy 2"])).toBe("No. 21, 22 and copy 2");
  });
});
