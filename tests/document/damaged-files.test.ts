import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readDesign } from "../../src/document/read.ts";
import { writeDesign } from "../../src/document/write.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { damagedFile } from "./damaged.ts";

/** Nothing may hang: of the processor's own time, since a busy machine is no fault. */
const LONGEST_READ_MS = 1000;

function cpuMs<T>(work: () => T): { readonly result: T; readonly ms: number } {
  const before = process.cpuUsage();
  const result = work();
  const { user, system } = process.cpuUsage(before);
  return { result, ms: (user + system) / 1000 };
}

describe("10,000 damaged design files", () => {
  it(
    "are opened with repairs, so that they can be written, read again and derived, or refused with a reason; none throws or hangs",
    { timeout: 300_000 },
    () => {
      const before = JSON.stringify(Object.getOwnPropertyNames(Object.prototype));
      const derive = createDeriver();
      const outcomes = { opened: 0, repaired: 0, refused: 0 };
      fc.assert(
        fc.property(damagedFile, (file) => {
          const { result: read, ms } = cpuMs(() => readDesign(file));
          expect(ms).toBeLessThan(LONGEST_READ_MS);
          if (!read.ok) {
            outcomes.refused++;
            expect(read.message).toMatch(/^\S[^\n]*$/u);
            expect(read.mend).toMatch(/\.$/);
            return;
          }
          outcomes[read.repairs.length > 0 ? "repaired" : "opened"]++;
          const written = writeDesign(read.design);
          const again = readDesign(written);
          expect(again).toEqual({ ok: true, design: read.design, repairs: [], damaged: false });
          // Settling takes longer than reading: a tenth of them is enough here.
          if ((outcomes.opened + outcomes.repaired) % 10 !== 0) return;
          const derived = derive(read.design);
          expect(derived.parts.length).toBeLessThanOrEqual(Object.keys(read.design.parts).length);
        }),
        { numRuns: 10_000 },
      );
      expect(JSON.stringify(Object.getOwnPropertyNames(Object.prototype))).toBe(before);
      for (const [outcome, count] of Object.entries(outcomes)) expect(count, outcome).toBeGreaterThan(500);
    },
  );
});
