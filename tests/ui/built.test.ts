import { describe, expect, it } from "vitest";
import * as fc from "fast-check";
import { addCut } from "../../src/document/cuts.ts";
import { fingerprintOf } from "../../src/document/fingerprint.ts";
import { newDesign } from "../../src/document/new-design.ts";
import { readDesign } from "../../src/document/read.ts";
import { setValue } from "../../src/document/set-value.ts";
import { writeDesign } from "../../src/document/write.ts";
import type { Design } from "../../src/document/design.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { DeriveOther } from "../../src/parts/derived.ts";
import { builtAt, builtOf, fieldAt } from "../../src/ui/built/built.ts";
import { cutSaid, offSaid } from "../../src/ui/built/built-words.ts";

const alike: DeriveOther = (_, design) => createDeriver()(design);
const notation = { unit: "mm", fractions: false } as const;
const set = (design: Design, path: string, raw: unknown): Design => {
  const result = setValue(design, path, raw);
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
};
const start = set(newDesign("classical"), "parts.fingerboard.widthAtJoin", "62 mm");
const WIDTH = "parts.fingerboard.widthAtJoin";
const at = (design: Design, path: string) => fieldAt(createDeriver()(design), path)!;

describe("a number as built", () => {
  it("leads from then on, with the plan beside it", () => {
    const built = set(start, `measured.${WIDTH}`, { value: "61.7 mm", date: "2026-03-02", how: "calliper" });
    expect(at(built, WIDTH)).toMatchObject({ value: 61.7, planned: 62, state: "measured" });
    expect(offSaid(builtAt(built, createDeriver()(built), WIDTH, notation, alike)!, notation)).toBe("0.3 mm less than planned");
  });

  it("is only written down where the plan is to lead", () => {
    const aside = set(start, `measured.${WIDTH}`, { value: "61.7 mm", leads: false });
    expect(at(aside, WIDTH)).toMatchObject({ value: 62, state: "given" });
    const one = builtAt(aside, createDeriver()(aside), WIDTH, notation, alike)!;
    expect([one.planned, one.measured]).toEqual([62, 61.7]);
    expect(one.off).toBeCloseTo(-0.3, 12);
  });

  it("is told less what scraping and finish were to take off each face", () => {
    const built = set(start, `measured.${WIDTH}`, { value: "61.7 mm", perFace: "0.1 mm", faces: 2 });
    const said = (design: Design): string => offSaid(builtAt(design, createDeriver()(design), WIDTH, notation, alike)!, notation);
    // 0.3 less; 2 x 0.1 was to come off; 0.1 is left.
    expect(said(built)).toBe("0.3 mm less than planned; 0.2 mm was to come off two faces, 0.1 mm less is not explained by that");
    expect(said(set(built, `measured.${WIDTH}`, { value: "61.7 mm", perFace: "0.15 mm" }))).toContain("which explains it");
    expect(said(set(built, `measured.${WIDTH}`, { value: "61.7 mm", perFace: "0.3 mm", faces: 1 }))).toContain(
      "one face, which explains it",
    );
  });

  it("shows what the part was cut from, and how far it came out from that", () => {
    const cut = addCut(start, { date: "2026-02-01", part: "fingerboard", template: "blank-outline" });
    const later = set(set(cut, WIDTH, "61 mm"), `measured.${WIDTH}`, "61.7 mm");
    const one = builtAt(later, createDeriver()(later), WIDTH, notation, alike)!;
    expect(one.cut?.value).toBe(62);
    expect(cutSaid(one, notation)).toBe("0.3 mm less than it was cut to on 2026-02-01");
  });

  it("outlives saving and reading, and switching the units", () => {
    const built = set(start, `measured.${WIDTH}`, { value: "61.7", perFace: "0.1", faces: 1, leads: false, date: "2026-03-02" });
    const again = readDesign(writeDesign(built));
    expect(again.ok && again.repairs).toEqual([]);
    expect(again.ok && again.design.measured).toEqual(built.measured);
    const inches = set(built, "units", "in");
    expect(inches.measured![WIDTH]).toMatchObject({ value: "61.7 mm", perFace: "0.1 mm" });
  });

  it("measured equal to planned changes nothing that is drawn, and taken back the design is what it was", () => {
    const derived = createDeriver()(start);
    const lengths = [derived.instrument, ...derived.parts]
      .flatMap(({ fields }) => fields)
      .filter((field) => field.spec.type === "length" && typeof field.value === "number" && !field.idle);
    /** What is drawn, its numbers apart: a shape found again from its measured width is the same to the last digits only. */
    const drawn = (design: Design): { readonly words: string; readonly numbers: readonly number[] } => {
      const numbers: number[] = [];
      const words = JSON.stringify(
        createDeriver()(design).parts.map((part) => part.drawing().layers),
        (_key, value: unknown) => (typeof value === "number" ? (numbers.push(value), "n") : value),
      );
      return { words, numbers };
    };
    const before = drawn(start);
    fc.assert(
      fc.property(fc.constantFrom(...lengths), (field) => {
        const built = set(start, `measured.${field.path}`, field.value);
        expect(builtOf(built, createDeriver()(built), notation, alike)).toHaveLength(1);
        const now = drawn(built);
        expect(now.words, field.path).toBe(before.words);
        expect(Math.max(...now.numbers.map((value, i) => Math.abs(value - before.numbers[i]!))), field.path).toBeLessThan(1e-9);
        const back = set(built, `measured.${field.path}`, undefined);
        expect(back).toEqual(start);
        expect(fingerprintOf(back)).toBe(fingerprintOf(start));
      }),
      { numRuns: 60 },
    );
  });
});
