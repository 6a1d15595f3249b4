import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { createDeriver } from "../../../src/parts/derive.ts";
import { partOf } from "../../../src/parts/registry.ts";
import { accepted } from "../accepted.ts";
import { expectSound } from "../sound.ts";

const tableOf = (kind: string, given: number) => accepted(partOf(kind)!.params, given);

describe("a neck", () => {
  it("measures, draws, checks and gives templates in finite numbers for every table of numbers that is accepted", () => {
    let whole = 0;
    let runs = 0;
    fc.assert(
      fc.property(
        tableOf("instrument", 0.15),
        tableOf("fingerboard", 0.1),
        tableOf("nut", 0.1),
        fc.oneof(tableOf("neck", 0.15), tableOf("neck", 0.5)),
        fc.boolean(),
        (instrument, fingerboard, nut, neck, bare) => {
          const derived = createDeriver()({
            units: "mm",
            instrument,
            parts: {
              ...(bare ? {} : { fingerboard: { kind: "fingerboard", ...fingerboard }, nut: { kind: "nut", ...nut } }),
              neck: { kind: "neck", ...neck },
            },
          });
          const part = derived.parts.find(({ kind }) => kind === "neck")!;
          expectSound(part);
          runs += 1;
          if (part.problems.length === 0) whole += 1;
        },
      ),
      { numRuns: 100 },
    );
    expect(whole / runs).toBeGreaterThan(0.3);
  }, 240_000);
});
