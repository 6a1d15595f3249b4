import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { newDesign } from "../../src/document/new-design.ts";
import { compensationFound, numbersFound, scaleFound } from "../../src/measuring/found.ts";
import { keyOfFret, READINGS } from "../../src/measuring/readings.ts";
import { SKETCHES } from "../../src/measuring/sketch.ts";
import { beginFrom, pathOf, readTaken, takenFrom, withPart } from "../../src/measuring/taken.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { partOf } from "../../src/parts/registry.ts";

const found = (taken: Readonly<Record<string, number>>, kind: string, key: string) =>
  numbersFound(taken).find((one) => one.kind === kind && one.key === key)?.value;

describe("what follows from readings", () => {
  it("finds the scale of 645 mm from frets 1, 5, 12, 14 at 36.1, 162.0, 322.5, 357.6, with what each is off", () => {
    // Least squares through the origin, worked by hand: L = sum(m k) / sum(k^2), k = 1 - 2^(-n/12).
    const scale = scaleFound({ nutToFret1: 36.1, nutToFret5: 162, nutToFret12: 322.5, nutToFret14: 357.6 })!;
    expect(scale.scale).toBeCloseTo(645, 2);
    for (const [i, residual] of [-0.1, 0.2, 0, -0.08].entries()) expect(scale.frets[i]!.residual).toBeCloseTo(residual, 2);
  });

  it("names the slot that is out", () => {
    const scale = scaleFound({ nutToFret5: 162, nutToFret7: 214.5, nutToFret12: 323, nutToFret9: 263 })!;
    // At 646 mm fret 7 stands at 646 (1 - 2^(-7/12)) = 214.85, fret 9 at 261.88: 263 is 1.1 mm out.
    expect(scale.out).toBe(9);
  });

  it("takes twice nut to fret 12 for the scale, and what the strings have more for the compensation", () => {
    expect(found({ nutToFret12: 325 }, "instrument", "scale")).toBeCloseTo(650, 12);
    expect(compensationFound({ nutToFret12: 325, nutToSaddleTreble: 651.5, nutToSaddleBass: 653.2 })).toEqual({
      treble: expect.closeTo(1.5, 9) as number,
      bass: expect.closeTo(3.2, 9) as number,
    });
  });

  it("finds the radius of an arched board from the gap under a straightedge", () => {
    // A chord of 40 mm on a circle of 254 mm (10 in) has the sagitta 254 - sqrt(254^2 - 20^2) = 0.78863 mm.
    const rise = 254 - Math.sqrt(254 ** 2 - 20 ** 2);
    expect(found({ edgeChord: 40, edgeRise: rise }, "fingerboard", "radius")).toBeCloseTo(254, 6);
    expect(found({ edgeChord: 40 }, "fingerboard", "radius")).toBeUndefined();
  });

  it("takes the fret off a depth that was measured over it, and prefers one measured on the board", () => {
    const over = { firstDepthOverFret: 22.5, fretHeight: 1.1 };
    expect(found(over, "neck", "firstDepth")).toBeCloseTo(21.4, 12);
    expect(found({ ...over, firstDepth: 21.2 }, "neck", "firstDepth")).toBe(21.2);
  });

  it("finds how much more action the thickest string has, and the saddle's height over the bridge", () => {
    expect(found({ actionTreble: 1.8, actionBass: 2.4 }, "neck", "moreAtBass")).toBeCloseTo(0.6, 12);
    expect(found({ stringsOverTop: 12.5, bridgeThickness: 9 }, "neck", "saddleHeight")).toBeCloseTo(3.5, 12);
  });
});

describe("the catalogue of readings", () => {
  it("leads only to numbers that parts have, and has a drawing for each", () => {
    for (const { key, target, sketch } of READINGS) {
      expect(SKETCHES[sketch]().layers[0]!.shapes.length, key).toBeGreaterThan(2);
      if (!target) continue;
      const spec = (partOf(target.kind)?.params as Record<string, { type: string }> | undefined)?.[target.key];
      expect(spec?.type, `${target.kind}.${target.key}`).toMatch(/length|count/);
    }
  });

  it("has every key once", () => {
    expect(new Set(READINGS.map(({ key }) => key)).size).toBe(READINGS.length);
  });
});

describe("a design begun from readings", () => {
  const reference = {
    nutWidth: "1 3/4 in",
    nutToFret12: "12.7 in",
    frets: "20",
    joinFret: "14",
    firstDepth: "0.86 in",
    [keyOfFret(5)]: "",
  };

  it("has every number that was read, as it was written, and nothing else that its kind has not", () => {
    const design = beginFrom("steel-string", reference, "in");
    expect(design.instrument).toMatchObject({ nutWidth: "1 3/4 in", frets: "20", joinFret: "14" });
    expect(design.instrument["scale"]).toBeCloseTo(645.16, 9);
    expect(design.parts["neck"]).toMatchObject({ firstDepth: "0.86 in" });
    expect(design.order?.reference).toEqual(reference);
    const derived = createDeriver()(design);
    expect(derived.problems).toEqual([]);
    const { instrument } = newDesign("steel-string");
    expect({ ...instrument, ...design.instrument }).toEqual({
      ...design.instrument,
      ...Object.fromEntries(Object.entries(instrument).filter(([key]) => !(key in design.instrument))),
    });
  });

  it("settles for any readings at all that are accepted as lengths", () => {
    fc.assert(
      fc.property(
        fc.dictionary(fc.constantFrom(...READINGS.map(({ key }) => key)), fc.double({ min: 0.1, max: 900, noNaN: true })),
        (taken) => {
          const texts = Object.fromEntries(
            Object.entries(taken).map(([key, mm]) => [
              key,
              READINGS.find((r) => r.key === key)!.count ? String(Math.ceil(mm / 40)) : `${mm.toFixed(2)} mm`,
            ]),
          );
          const design = beginFrom("steel-string", texts, "mm");
          // Numbers that a part does not accept are told at their fields; nothing breaks.
          for (const part of createDeriver()(design).parts) expect(part.drawing().layers.length).toBeGreaterThanOrEqual(0);
        },
      ),
      { numRuns: 40 },
    );
  });

  it("reads texts as they are written, and nothing from what is none", () => {
    expect(readTaken("nutWidth", "1 11/16", "in")).toBeCloseTo(42.8625, 9);
    expect(readTaken("frets", "20", "in")).toBe(20);
    expect(readTaken("nutWidth", "wide", "mm")).toBeUndefined();
    expect(readTaken("nutWidth", "-3", "mm")).toBeUndefined();
    expect(takenFrom({ nutWidth: "", scale: 650, nutToFret12: 325 }, "mm")).toEqual({ nutToFret12: 325 });
  });

  it("adds a part that is missing, once", () => {
    const bare = { ...newDesign("steel-string"), parts: {} };
    const once = withPart(bare, "neck");
    expect(Object.keys(once.parts)).toEqual(["neck"]);
    expect(withPart(once, "neck")).toBe(once);
    expect(pathOf(once, { kind: "neck", key: "firstDepth" })).toBe("parts.neck.firstDepth");
    expect(pathOf(once, { kind: "nut", key: "width" })).toBeUndefined();
  });
});
