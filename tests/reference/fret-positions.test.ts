import { Note } from "tonal";
import { describe, expect, it } from "vitest";
import { fretDistance, fretShare } from "../../src/lutherie/fret-positions.ts";
import table from "../data/fret-table.json" with { type: "json" };

// Source: table.source. Inches become mm by the definition of the inch, 25.4 mm (international yard and pound agreement, 1959).
const MM = { in: 25.4, mm: 1 } as const;

describe("fret positions against outside references", () => {
  for (const column of table.scales) {
    it(`agree with the printed table for ${column.name} to half of its last place`, () => {
      const mm = MM[column.unit as keyof typeof MM];
      column.fromNut.forEach((printed, i) => {
        const ours = fretDistance(column.scale * mm, i + 1) / mm;
        expect(Math.abs(ours - printed), `fret ${i + 1}`).toBeLessThanOrEqual(0.00005 + 1e-9);
      });
    });
  }

  it("lie within 0.001 mm of where the frequencies of a music-theory library put them", () => {
    // The library tonal (6.4.3) gives the frequency of any note; the speaking length behind a fret is inverse to the frequency.
    let furthest = 0;
    for (const open of ["E2", "G4", "C3", "A4"]) {
      for (const scale of [430, 645.16, 863.6]) {
        for (let n = 0; n <= 36; n++) {
          const stopped = Note.fromMidi(Note.midi(open)! + n);
          const expected = scale - (scale * Note.freq(open)!) / Note.freq(stopped)!;
          furthest = Math.max(furthest, Math.abs(fretDistance(scale, n) - expected));
        }
      }
    }
    expect(furthest).toBeLessThan(0.001);
  });

  it("put fret 12 at half and fret 24 at three quarters of the scale, exactly", () => {
    // The octave is the ratio 2:1, by definition.
    expect(fretShare(12)).toBe(0.5);
    expect(fretShare(24)).toBe(0.75);
    expect(fretShare(0)).toBe(0);
  });

  it("are not those of the rule of 18, which falls 2.346 mm short at fret 12 of a 25.4 in scale", () => {
    // Rule of 18: each fret takes 1/18 of what is left; 645.16 (1 - (17/18)^12) = 320.234, against 322.58.
    const ruleOf18 = 645.16 * (1 - (17 / 18) ** 12);
    expect(fretDistance(645.16, 12) - ruleOf18).toBeCloseTo(2.346, 3);
  });
});
