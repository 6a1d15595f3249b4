import * as fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import type { Design } from "../../src/document/design.ts";
import { NEW_KINDS, newDesign } from "../../src/document/new-design.ts";
import { fingerprintOf } from "../../src/document/fingerprint.ts";
import { setUnits } from "../../src/document/set-units.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { Derived, Field } from "../../src/parts/derived.ts";
import { design as anyDesign } from "./arbitrary-design.ts";

// A busy machine must not fail a property.
vi.setConfig({ testTimeout: 120_000 });

const bare: Design = {
  format: "gramil-design",
  version: 1,
  units: "in",
  instrument: {
    scale: "25.4",
    nutWidth: "1 11/16",
    nutMargin: "3.2 mm",
    saddleSpread: 55,
    strings: [".05", { gauge: "0.01" }],
    frets: "20",
  },
  parts: {
    fingerboard: { kind: "fingerboard", binding: "0.06", widthAtJoin: "= nutWidth + 2 * 0.25", endAngle: "3", unknown: "1" },
  },
  measured: { "instrument.nutWidth": { value: "1.7", how: "rule" } },
};

function values(derived: Derived): Record<string, unknown> {
  const all: Record<string, unknown> = {};
  const add = (field: Field): void => {
    if (field.records) field.records.forEach((record) => record.forEach(add));
    else all[field.path] = field.value;
  };
  for (const part of [derived.instrument, ...derived.parts]) part.fields.forEach(add);
  return all;
}

describe("other units", () => {
  it("put the unit behind every number that was typed without one, and leave the rest as typed", () => {
    const result = setUnits(bare, "mm");
    expect(result.ok && result.value).toEqual({
      ...bare,
      units: "mm",
      instrument: {
        scale: "25.4 in",
        nutWidth: "1 11/16 in",
        nutMargin: "3.2 mm",
        saddleSpread: 55,
        strings: [".05 in", { gauge: "0.01 in" }],
        frets: "20",
      },
      parts: {
        fingerboard: {
          kind: "fingerboard",
          binding: "0.06 in",
          widthAtJoin: "= nutWidth + 2 * 0.25 in",
          endAngle: "3",
          unknown: "1",
        },
      },
      measured: { "instrument.nutWidth": { value: "1.7 in", how: "rule" } },
    });
  });

  it("change no number that is settled, in any design", () => {
    fc.assert(
      fc.property(anyDesign, (design) => {
        const result = setUnits(design, design.units === "in" ? "mm" : "in");
        if (!result.ok) return;
        const before = values(createDeriver()(design));
        const after = values(createDeriver()(result.value));
        for (const [path, value] of Object.entries(before)) {
          if (typeof value === "number") expect(after[path], path).toBeCloseTo(value, 9);
          else if (value !== undefined) expect(after[path], path).toEqual(value);
        }
        expect(Object.keys(after)).toEqual(Object.keys(before));
      }),
      { numRuns: 100 },
    );
  });

  it("leave the fingerprint, so that a printed sheet still finds its numbers", () => {
    for (const design of [bare, ...NEW_KINDS.map(newDesign)]) {
      const other = setUnits(design, design.units === "in" ? "mm" : "in");
      expect(other.ok && fingerprintOf(other.value)).toBe(fingerprintOf(design));
    }
  });

  it("wait while a formula cannot be read, since nobody knows what its numbers mean", () => {
    const broken = { ...bare, instrument: { scale: "= 25.4 +" } };
    const result = setUnits(broken, "mm");
    expect(!result.ok && result.error).toMatchObject({
      path: "instrument.scale",
      message: expect.stringMatching(/^the units wait for a formula: /) as string,
    });
  });

  it("are the same object where they are the same, and take fractions along", () => {
    const same = setUnits(bare, "in");
    expect(same.ok && same.value).toBe(bare);
    const fractions = setUnits(bare, "in", true);
    expect(fractions.ok && fractions.value).toEqual({ ...bare, fractions: true });
  });
});
