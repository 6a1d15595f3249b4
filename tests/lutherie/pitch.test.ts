import { Note } from "tonal";
import { describe, expect, it } from "vitest";
import { noteFrequencyHz } from "../../src/lutherie/pitch.ts";

describe("noteFrequencyHz", () => {
  it("agrees with a music-theory library (tonal) on every note from octave -1 to 9", () => {
    for (let octave = -1; octave <= 9; octave += 1) {
      for (const letter of "CDEFGAB") {
        for (const accidental of ["", "#", "b", "##", "bb"]) {
          const name = `${letter}${accidental}${octave}`;
          expect(noteFrequencyHz(name)! / Note.freq(name)!).toBeCloseTo(1, 12);
        }
      }
    }
  });

  it("puts A4 at 440 Hz (ISO 16:1975) and reads the printed sharp and flat", () => {
    expect(noteFrequencyHz("A4")).toBe(440);
    expect(noteFrequencyHz(" F♯3 ")).toBe(noteFrequencyHz("Gb3"));
  });

  it("gives undefined for what is no note", () => {
    for (const text of ["", "H4", "E", "4", "e4", "E44", "E#b4", "E 4", "middle C", "E10"])
      expect(noteFrequencyHz(text)).toBeUndefined();
  });
});
