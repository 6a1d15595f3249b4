import { describe, expect, it } from "vitest";
import { newDesign } from "../../src/document/new-design.ts";
import { readDesign } from "../../src/document/read.ts";
import { setValue } from "../../src/document/set-value.ts";
import { writeDesign } from "../../src/document/write.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { Problem } from "../../src/parts/derived.ts";

/** What is said of a steel-string design after a value is set, saved, opened and derived. */
function problemsAfter(path: string, raw: unknown): readonly Problem[] {
  const set = setValue(newDesign("steel-string"), path, raw);
  if (!set.ok) throw new Error(set.error.message);
  const read = readDesign(writeDesign(set.value));
  if (!read.ok || read.repairs.length > 0) throw new Error("the file was not opened as it was saved");
  return createDeriver()(read.design).problems;
}

describe("numbers that cannot be meant are kept as typed, and the field says what is wrong in one line", () => {
  it.each<[string, string, unknown]>([
    ["no number", "instrument.scale", "NaN"],
    ["no number either", "instrument.nutWidth", "Infinity"],
    ["10^9 frets", "instrument.frets", "1000000000"],
    ["10^9 frets as a bare number", "instrument.frets", 1e9],
    ["half a fret", "instrument.frets", "20.5"],
    ["a negative width", "instrument.nutWidth", "-43 mm"],
    ["a width of nothing", "instrument.nutWidth", "0 mm"],
    ["a scale of a kilometre", "instrument.scale", "1000 m"],
    ["words", "parts.fingerboard.overhang", "a bit"],
    ["a division by nothing", "parts.fingerboard.overhang", "= 1 mm / 0"],
    ["an unknown name", "parts.fingerboard.overhang", "= nutWidht / 2"],
    ["a number that needs itself", "instrument.nutWidth", "= nutWidth + 1 mm"],
    ["200 strings", "instrument.strings", Array.from({ length: 200 }, () => "0.01 in")],
    ["a choice that is none", "instrument.handed", "both"],
  ])("%s, in %s", (_name, path, raw) => {
    const problems = problemsAfter(path, raw);
    const own = problems.find((problem) => problem.path === path);
    expect(own, JSON.stringify(problems)).toBeDefined();
    expect(own!.message).toMatch(/^[^\n]{3,120}$/);
    expect(own!.mend).toMatch(/^[^\n]{3,160}$/);
  });

  it("a wrong number in an entry of a list, at that entry", () => {
    expect(problemsAfter("parts.fingerboard.binding", ["1 mm", { thickness: "-1 mm" }])[0]).toMatchObject({
      path: "parts.fingerboard.binding[1].thickness",
    });
  });

  it("a nut wider than the board at its end is told by a check or by its field", () => {
    const set = setValue(newDesign("steel-string"), "parts.fingerboard.widthAtJoin", "30 mm");
    if (!set.ok) throw new Error(set.error.message);
    const derived = createDeriver()(set.value);
    const findings = [derived.instrument, ...derived.parts].flatMap((part) => part.findings());
    expect(derived.problems.length + findings.filter(({ severity }) => severity === "stop").length).toBeGreaterThan(0);
  });
});
