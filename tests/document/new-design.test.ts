import { describe, expect, it } from "vitest";
import { NEW_KINDS, newDesign } from "../../src/document/new-design.ts";
import { readDesign } from "../../src/document/read.ts";
import { writeDesign } from "../../src/document/write.ts";
import { createDeriver } from "../../src/parts/derive.ts";

const valueOf = (kind: (typeof NEW_KINDS)[number], key: string): unknown =>
  createDeriver()(newDesign(kind)).instrument.fields.find((field) => field.key === key)?.value;

describe.each(NEW_KINDS)("a new %s", (kind) => {
  it("settles without problems, and no check stops it", () => {
    const derived = createDeriver()(newDesign(kind));
    expect(derived.problems).toEqual([]);
    const findings = [derived.instrument, ...derived.parts].flatMap((part) => part.findings());
    expect(findings.filter(({ severity }) => severity === "stop")).toEqual([]);
    expect(derived.parts.map(({ id }) => id)).toEqual(["fingerboard", "nut", "neck"]);
    for (const part of derived.parts) expect(part.templates(), part.id).not.toEqual([]);
  });

  it("is whole in its file", () => {
    expect(readDesign(writeDesign(newDesign(kind)))).toEqual({ ok: true, design: newDesign(kind), repairs: [], damaged: false });
  });
});

describe("new designs", () => {
  // Usual figures of the trade: 25.4 in and 650 mm and 430 mm scales; nut widths 44.45 (1 3/4 in), 52 and 35 mm. Common practice, no source.
  it("begin with the usual scales and widths", () => {
    expect(valueOf("steel-string", "scale")).toBeCloseTo(645.16, 9);
    expect(valueOf("classical", "scale")).toBe(650);
    expect(valueOf("ukulele", "scale")).toBe(430);
    expect(valueOf("steel-string", "nutWidth")).toBeCloseTo(44.45, 9);
    expect(valueOf("classical", "nutWidth")).toBe(52);
    expect(valueOf("ukulele", "nutWidth")).toBe(35);
  });

  it("list strings from bass to treble: four, six or eight, thick to thin but for the ukulele's high G", () => {
    const counts = NEW_KINDS.map((kind) => (valueOf(kind, "strings") as { gauge: number }[]).length);
    expect(counts).toEqual([6, 6, 4, 4, 6, 8]);
    for (const kind of ["steel-string", "tenor-guitar", "baritone", "octave-mandolin"] as const) {
      const gauges = (valueOf(kind, "strings") as { gauge: number }[]).map(({ gauge }) => gauge);
      expect(gauges).toEqual(gauges.toSorted((a, b) => b - a));
    }
  });
});
