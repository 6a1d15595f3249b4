import * as fc from "fast-check";
import { readFileSync } from "node:fs";
import { describe, expect, it, vi } from "vitest";
import type { Design } from "../../src/document/design.ts";
import { readDesign } from "../../src/document/read.ts";
import { writeDesign } from "../../src/document/write.ts";
import { design as anyDesign } from "./arbitrary-design.ts";

// A busy machine must not fail a property.
vi.setConfig({ testTimeout: 120_000 });

function opened(text: string): Design {
  const read = readDesign(text);
  if (!read.ok) throw new Error(read.message);
  expect(read.repairs).toEqual([]);
  return read.design;
}
const sample = (name: string): string => readFileSync(new URL(`../data/designs/${name}`, import.meta.url), "utf8");

describe("a design's file", () => {
  it("holds everything that the design holds: reading it gives the design again, without repairs", () => {
    fc.assert(
      fc.property(anyDesign, (design) => {
        expect(opened(writeDesign(design))).toEqual(design);
      }),
      { numRuns: 200 },
    );
  });

  it("is the same text when it is written, read and written again", () => {
    fc.assert(
      fc.property(anyDesign, (design) => {
        const text = writeDesign(design);
        expect(writeDesign(opened(text))).toBe(text);
      }),
      { numRuns: 200 },
    );
  });

  it.each(["v1-full.json", "v1-minimal.json"])("%s of version 1 is written again letter by letter", (name) => {
    expect(writeDesign(opened(sample(name)))).toBe(sample(name));
  });

  it("lists known keys in the order of the contract whatever order they were in, then unknown keys in their own", () => {
    const text = writeDesign({
      zeta: 1,
      parts: { fingerboard: { zweite: 1, radius: 400, alpha: 2, widthAtJoin: "2 in", kind: "fingerboard" } },
      instrument: { frets: 20, handed: "left", strings: [{ note: "E4", gauge: 1 }] },
      alpha: 2,
      units: "in",
      version: 1,
      format: "gramil-design",
    } as unknown as Design);
    const keys = [...text.matchAll(/"(\w+)":/g)].map((match) => match[1]);
    expect(keys).toEqual([
      "format",
      "version",
      "units",
      "instrument",
      "handed",
      "strings",
      "gauge",
      "note",
      "frets",
      "parts",
      "fingerboard",
      "kind",
      "widthAtJoin",
      "radius",
      "zweite",
      "alpha",
      "zeta",
      "alpha",
    ]);
    expect(text.endsWith("}\n")).toBe(true);
  });
});
