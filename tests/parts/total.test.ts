import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { createDeriver } from "../../src/parts/derive.ts";
import type { DesignNumbers } from "../../src/parts/derived.ts";
import { partOf } from "../../src/parts/registry.ts";
import { accepted } from "./accepted.ts";
import { expectSound } from "./sound.ts";

const tableOf = (kind: string) => accepted(partOf(kind)!.params, 0.2);

describe("instrument, fingerboard and nut", () => {
  it("measure, draw, check and give templates in finite numbers for every table of numbers that is accepted", () => {
    let derivedAll = 0;
    let runs = 0;
    fc.assert(
      fc.property(tableOf("instrument"), tableOf("fingerboard"), tableOf("nut"), (instrument, board, nut) => {
        const design: DesignNumbers = {
          units: "mm",
          instrument,
          parts: { fingerboard: { kind: "fingerboard", ...board }, nut: { kind: "nut", ...nut } },
        };
        const derived = createDeriver()(design);
        for (const part of [derived.instrument, ...derived.parts]) expectSound(part);
        runs += 1;
        if (derived.problems.length === 0) derivedAll += 1;
      }),
      { numRuns: 400 },
    );
    // Numbers that contradict each other are told as problems; enough must come through for the rest to mean anything.
    expect(derivedAll / runs).toBeGreaterThan(0.3);
  }, 120_000);
});
