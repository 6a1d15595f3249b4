import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { readFace } from "../../src/lettering/face.ts";
import { BUNDLED_FACES } from "../../src/lettering/faces.ts";
import { faceOfFew, fewLetters } from "../../src/lettering/few-letters.ts";
import { setLetters } from "../../src/lettering/lettering.ts";

describe("the few letters that a text needs", () => {
  it.each(BUNDLED_FACES.map(({ id, file }) => [id, file] as const))("of %s set the text as the whole face does", (_, file) => {
    const read = readFace(new Uint8Array(readFileSync(resolve(import.meta.dirname, "../../public/faces", file))));
    if (!read.ok) throw new Error(read.error.message);
    for (const text of ["AVATAR To", "A木", "Wo & 8"]) {
      const few = fewLetters(read.value, text);
      // As it comes out on the other side of a thread.
      const there = faceOfFew(structuredClone(few));
      const spec = {
        text,
        size: { by: "em", value: 12 },
        tracking: 0.2,
        kerning: true,
        slant: 0,
        arrangement: { kind: "row" },
        nudges: [],
      } as const;
      expect(setLetters(spec, there)).toEqual(setLetters(spec, read.value));
      expect(few.glyphs.length).toBeLessThanOrEqual(text.length + 1);
    }
  });
});
