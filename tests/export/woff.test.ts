import { parse } from "opentype.js";
import { describe, expect, it } from "vitest";
import { plainFont } from "../../src/export/pdf/woff.ts";
import { chance } from "../sheets/random-outlines.ts";
import { fonts } from "./fonts.ts";

describe("unpacking WOFF", () => {
  it("gives the same glyphs as another library's own reading of the packed file", () => {
    for (const packed of [fonts.regular, fonts.strong]) {
      const plain = plainFont(packed);
      const [a, b] = [parse(packed.slice().buffer), parse(plain.slice().buffer)];
      for (const letter of "Ag0Ø½·—")
        expect(b.charToGlyph(letter).getPath(0, 0, 1000).toPathData(3)).toBe(
          a.charToGlyph(letter).getPath(0, 0, 1000).toPathData(3),
        );
      expect(b.unitsPerEm).toBe(1000);
    }
  });

  it("every letter advances by 632 units, and a capital is 668 high, as the lettering on sheets reckons", () => {
    for (const packed of [fonts.regular, fonts.strong]) {
      const face = parse(plainFont(packed).slice().buffer);
      for (const letter of "iWm0.,·Øé ½") expect(face.charToGlyph(letter).advanceWidth, letter).toBe(632);
      expect(face.charToGlyph("H").getBoundingBox().y2).toBe(668);
    }
  });

  it("leaves a plain font as it is", () => {
    const plain = plainFont(fonts.regular);
    expect(plainFont(plain)).toBe(plain);
  });

  it("a damaged file is refused or read, never hangs, never asks for much memory", () => {
    const next = chance(7);
    for (let trial = 0; trial < 400; trial++) {
      const bytes = fonts.regular.slice();
      for (let k = 0; k < 3; k++) bytes[Math.floor(next() * (trial % 2 === 0 ? 600 : bytes.length))] = Math.floor(next() * 256);
      const cut = trial % 5 === 0 ? bytes.slice(0, Math.floor(next() * bytes.length)) : bytes;
      try {
        expect(plainFont(cut).length).toBeLessThanOrEqual(8 * 1024 * 1024);
      } catch (error) {
        expect(error).toBeInstanceOf(RangeError);
      }
    }
  });
});
