import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { createDeriver } from "../../../src/parts/derive.ts";
import type { DesignNumbers } from "../../../src/parts/derived.ts";
import { arrange } from "../../../src/parts/general-arrangement.ts";
import { partOf } from "../../../src/parts/registry.ts";
import { accepted } from "../accepted.ts";
import { drawingFault, expectSound } from "../sound.ts";

const tableOf = (kind: string, given: number) => accepted(partOf(kind)!.params, given);

describe("body, sides and bracing", () => {
  it("measure, draw, check and give templates in finite numbers for every table of numbers that is accepted", () => {
    let derivedAll = 0;
    let runs = 0;
    fc.assert(
      fc.property(
        tableOf("instrument", 0.1),
        tableOf("body", 0.2),
        tableOf("sides", 0.2),
        tableOf("bracing", 0.1),
        fc.boolean(),
        (instrument, body, sides, bracing, whole) => {
          const others = whole ? ["fingerboard", "nut", "neck", "headstock", "bridge", "soundhole"] : [];
          const design: DesignNumbers = {
            units: "mm",
            instrument,
            parts: {
              ...Object.fromEntries(others.map((kind) => [kind, { kind }])),
              body: { kind: "body", ...body },
              sides: { kind: "sides", ...sides },
              bracing: { kind: "bracing", ...bracing },
            },
          };
          const derived = createDeriver()(design);
          for (const part of derived.parts.filter(({ kind }) => ["body", "sides", "bracing"].includes(kind))) expectSound(part);
          expect(drawingFault(arrange(derived).drawing)).toBeUndefined();
          runs += 1;
          if (derived.problems.length === 0) derivedAll += 1;
        },
      ),
      { numRuns: 150 },
    );
    expect(derivedAll / runs).toBeGreaterThan(0.3);
  }, 240_000);
});
