import * as fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { addCut, cutsWith, numbersOfCut } from "../../src/document/cuts.ts";
import type { Design } from "../../src/document/design.ts";
import { fingerprintOf, fnv1a64 } from "../../src/document/fingerprint.ts";
import { newDesign } from "../../src/document/new-design.ts";
import { readDesign } from "../../src/document/read.ts";
import { setValue } from "../../src/document/set-value.ts";
import { writeDesign } from "../../src/document/write.ts";
import { design as anyDesign } from "./arbitrary-design.ts";

// A busy machine must not fail a property.
vi.setConfig({ testTimeout: 120_000 });

const set = (design: Design, path: string, raw: unknown): Design => {
  const result = setValue(design, path, raw);
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
};
const shuffled = (value: unknown): unknown =>
  Array.isArray(value)
    ? value.map(shuffled)
    : typeof value === "object" && value !== null
      ? Object.fromEntries(
          Object.entries(value)
            .toReversed()
            .map(([key, child]) => [key, shuffled(child)]),
        )
      : value;

describe("the fingerprint of a design's numbers", () => {
  // Test vectors of FNV-1a with 64 bits from its authors' code (test_fnv.c; also RFC 9923, appendix), from memory.
  it("stands on FNV-1a with 64 bits", () => {
    expect(fnv1a64("")).toBe(0xcbf29ce484222325n);
    expect(fnv1a64("a")).toBe(0xaf63dc4c8601ec8cn);
    expect(fnv1a64("foobar")).toBe(0x85944171f73967e8n);
  });

  it("has six digits and letters that are not mistaken for each other, in two groups", () => {
    fc.assert(
      fc.property(anyDesign, (design) => {
        expect(fingerprintOf(design)).toMatch(/^[0-9A-HJKMNP-TV-Z]{3}-[0-9A-HJKMNP-TV-Z]{3}$/);
      }),
      { numRuns: 100 },
    );
  });

  it("does not hang on the order of keys, the order sheet, the record of cuts, or on writing and reading", () => {
    fc.assert(
      fc.property(anyDesign, (design) => {
        const other = shuffled({ ...design, order: { title: "another" }, cuts: [] }) as Design;
        expect(fingerprintOf(other)).toBe(fingerprintOf(design));
        const read = readDesign(writeDesign(design));
        expect(read.ok && fingerprintOf(read.design)).toBe(fingerprintOf(design));
      }),
      { numRuns: 100 },
    );
  });

  it("is another one after any number has changed, and the old one when it is changed back", () => {
    const design = newDesign("steel-string");
    const changed = [
      set(design, "nutWidth", "1 11/16 in"),
      set(design, "frets", 21),
      set(design, "strings[0].gauge", "0.054 in"),
      set(design, "fingerboard.overhang", 8),
      set(design, "measured.nutWidth", "44 mm"),
      set(design, "order.title", "x"),
    ];
    const prints = [design, ...changed].map(fingerprintOf);
    expect(new Set(prints).size).toBe(6);
    expect(prints.at(-1)).toBe(prints[0]);
    expect(fingerprintOf(set(changed[0]!, "nutWidth", "1 3/4 in"))).toBe(prints[0]);
  });

  it("meets itself among 20,000 designs about as seldom as chance allows: 0.19 pairs are to be expected", () => {
    // n^2 / 2 / 2^30 = 0.186; more than 3 pairs have a chance of 1 in 30,000 (Poisson).
    const design = newDesign("classical");
    const prints = new Set<string>();
    for (let i = 0; i < 20_000; i++)
      prints.add(fingerprintOf({ units: "mm", instrument: { scale: 600 + i / 1000 }, parts: { nut: design.parts.nut! } }));
    expect(prints.size).toBeGreaterThanOrEqual(20_000 - 3);
  });
});

describe("the record of cuts", () => {
  const planned = newDesign("ukulele");
  const cut = addCut(planned, { date: "2025-04-10", part: "fingerboard", template: "blank-outline", material: "MDF" });
  const changed = set(set(cut, "scale", "432 mm"), "measured.nutWidth", "35.2 mm");

  it("freezes the numbers as they were, whatever changes after", () => {
    expect(changed.cuts).toEqual([
      {
        date: "2025-04-10",
        part: "fingerboard",
        template: "blank-outline",
        material: "MDF",
        fingerprint: fingerprintOf(planned),
        numbers: { units: "mm", instrument: planned.instrument, parts: planned.parts },
      },
    ]);
    expect(fingerprintOf(changed)).not.toBe(fingerprintOf(planned));
  });

  it("brings the numbers of a cut back, and leaves order and record", () => {
    const back = numbersOfCut(set(changed, "order.player", "Ines"), 0);
    expect(back.ok && back.value).toEqual({ ...planned, order: { ...planned.order, player: "Ines" }, cuts: changed.cuts });
    expect(numbersOfCut(changed, 1).ok).toBe(false);
  });

  it("is found by the fingerprint as a person reads it from paper", () => {
    const print = fingerprintOf(planned);
    expect(cutsWith(changed, print)).toEqual(changed.cuts);
    expect(cutsWith(changed, ` ${print.toLowerCase().replace("-", " ")}`)).toEqual(changed.cuts);
    expect(cutsWith({ ...changed, cuts: [{ ...changed.cuts![0]!, fingerprint: "01J-0K1" }] }, "olj okl")).toHaveLength(1);
    expect(cutsWith(changed, "000-000")).toEqual([]);
  });
});
