import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { deriveLettered } from "../../../src/cli/design-file.ts";
import { newDesign } from "../../../src/document/new-design.ts";
import { BUNDLED_FACES } from "../../../src/lettering/faces.ts";
import { partOf } from "../../../src/parts/registry.ts";
import { accepted } from "../accepted.ts";
import { expectSound } from "../sound.ts";

/** Short texts in faces that come with the program; the rest of the table anything that is accepted. */
const inlays = fc
  .tuple(
    accepted(partOf("inlay")!.params, 0.2),
    fc.string({ maxLength: 3, unit: fc.constantFrom("A", "g", "&", "8", " ", "é", "木", "\u0301") }),
    fc.constantFrom(...BUNDLED_FACES.map(({ id }) => id)),
    fc.double({ min: 4, max: 30, noNaN: true }),
  )
  .map(([numbers, text, face, size]) => {
    const { ornaments = [], changes = [], art: _, beside: __, ...rest } = numbers as Record<string, unknown[]>;
    return {
      ...rest,
      kind: "inlay",
      text,
      face,
      size,
      ornaments: ornaments.slice(0, 1).map((one) => ({ ...(one as object), size: 20 })),
      changes: changes.slice(0, 2),
    };
  });

describe("an inlay", () => {
  it("measures, draws, checks and gives templates in finite numbers for every table of numbers that is accepted", () => {
    let runs = 0;
    let cut = 0;
    fc.assert(
      fc.property(inlays, (inlay) => {
        const fresh = newDesign("steel-string");
        const design = { ...fresh, parts: { ...fresh.parts, headstock: { kind: "headstock" }, plate: { kind: "shape" }, inlay } };
        const part = deriveLettered(design).parts.find(({ id }) => id === "inlay")!;
        expectSound(part);
        runs += 1;
        if (part.templates().length > 1) cut += 1;
      }),
      { numRuns: 20, seed: 4 },
    );
    expect(cut / runs).toBeGreaterThan(0.15);
  }, 240_000);
});
