import { describe, expect, it } from "vitest";
import { pathArea, pathsBounds } from "../../src/geometry/measure.ts";
import { readFace } from "../../src/lettering/face.ts";
import { BUNDLED_FACES } from "../../src/lettering/faces.ts";
import { kernBetween } from "../../src/lettering/kerning.ts";
import { bundledFile, faceById, fontFile, madeFile, mustRead, tablesOf } from "./font-files.ts";
import witness from "../data/faces.json" with { type: "json" };

type Glyphs = Readonly<Record<string, readonly number[]>>;
const LETTERS = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"];
const ttf = mustRead(madeFile("strokes.ttf"));
const otf = mustRead(madeFile("strokes.otf"));

describe.each(Object.entries(witness.faces))("the bundled file %s", (file, expected) => {
  const face = faceById(BUNDLED_FACES.find((entry) => entry.file === file)!.id);

  it("has the widths, boxes and areas that fontTools and GEOS find (tests/data/faces.json)", () => {
    for (const [character, [advance, minX, minY, maxX, maxY, area]] of Object.entries(expected.glyphs as Glyphs)) {
      const glyph = face.glyphs.get(character)!;
      expect(glyph.advance, character).toBe(advance);
      const box = pathsBounds(glyph.contours);
      for (const [ours, theirs] of [
        [box.minX, minX],
        [box.minY, minY],
        [box.maxX, maxX],
        [box.maxY, maxY],
      ])
        expect(Math.abs(ours! - theirs!), character).toBeLessThan(1e-3);
      // No contours of these letters overlap, so that their signed areas add up; the chords of the witness lose up to 1e-4 of it.
      const ours = Math.abs(glyph.contours.reduce((sum, path) => sum + pathArea(path), 0));
      expect(Math.abs(ours / area! - 1), character).toBeLessThan(1e-4);
    }
  });

  it("has the kerning that HarfBuzz finds, for every pair of letters (tests/data/faces.json)", () => {
    const pairs = new Map(
      expected.kerning.split(" ").flatMap((entry) => (entry === "" ? [] : [[entry.slice(0, 2), Number(entry.slice(2))]])),
    );
    for (const a of LETTERS)
      for (const b of LETTERS) {
        const ours = kernBetween(face.kerning, face.glyphs.get(a)!.index, face.glyphs.get(b)!.index);
        expect(ours, a + b).toBe(pairs.get(a + b) ?? 0);
      }
  });
});

describe("the catalogue", () => {
  it("lists every kind of face, each file once, with the height of its capitals and its licence", () => {
    expect(BUNDLED_FACES.map(({ file }) => file).toSorted()).toEqual(Object.keys(witness.faces).toSorted());
    expect(new Set(BUNDLED_FACES.map(({ kind }) => kind)).size).toBe(6);
    for (const { id, licence } of BUNDLED_FACES) {
      const face = faceById(id);
      expect(face.capHeight).toBeGreaterThan(0);
      expect(face.whole).toBe(true);
      expect(new TextDecoder().decode(bundledFile(licence))).toContain("SIL Open Font License");
    }
  });

  it("says which face has no kerning", () => {
    const without = BUNDLED_FACES.filter(({ id }) => faceById(id).kerning.from === "none");
    expect(without.map(({ id }) => id)).toEqual(["unifrakturmaguntia"]);
  });
});

describe("a TrueType file (shapes by hand in make-test-fonts.py)", () => {
  it("says what it is called and how large its em is", () => {
    expect(ttf).toMatchObject({ name: "Gramil Strokes", unitsPerEm: 1000, ascender: 800, descender: -200, whole: true });
  });

  it("takes the height of capitals from the H where the file does not say it", () => {
    expect(ttf.capHeight).toBe(700);
    expect(ttf.xHeight).toBeUndefined();
  });

  it("carries quadratic curves over as the same curves, also where no point lies on the contour", () => {
    // The four handles (0 0) (0 600) (600 600) (600 0): each corner of the square through the middles loses a parabola's 1/3 of the
    // half-square triangle: 600^2 - 4 (1/3 * 300 * 300 / 2 * 1) = 360000 - 4 * 15000 = 300000; the hole is 200^2.
    const area = ttf.glyphs.get("O")!.contours.reduce((sum, path) => sum + pathArea(path), 0);
    expect(Math.abs(area)).toBeCloseTo(300000 - 40000, 6);
  });

  it("puts parts together, moved and scaled", () => {
    // H and the square 0..100 by 500..600, half as large again and moved by (200, 50).
    expect(ttf.glyphs.get("Á")!.contours.map((path) => pathsBounds([path]))).toEqual([
      { minX: 50, minY: 0, maxX: 550, maxY: 700 },
      { minX: 200, minY: 800, maxX: 350, maxY: 950 },
    ]);
  });

  it("draws a letter at its left bearing, wherever its own numbers stand", () => {
    expect(pathsBounds(ttf.glyphs.get("L")!.contours)).toEqual({ minX: 0, minY: 0, maxX: 200, maxY: 700 });
  });

  it("reads the old table of kerning, and characters beyond the first 65,536", () => {
    const kern = (a: string, b: string) => kernBetween(ttf.kerning, ttf.glyphs.get(a)!.index, ttf.glyphs.get(b)!.index);
    expect(ttf.kerning.from).toBe("kern");
    expect([kern("H", "O"), kern("O", "H"), kern("H", "H"), kern("O", "O")]).toEqual([-40, -30, 7, 0]);
    expect(ttf.glyphs.get("😀")?.contours).toHaveLength(1);
  });

  it("reads the wanted characters first", () => {
    expect([...mustRead(madeFile("strokes.ttf"), "XזH").glyphs.keys()].slice(0, 3)).toEqual(["X", "H", " "]);
  });
});

describe("an OpenType file with cubic outlines", () => {
  it("keeps the cubics", () => {
    // Four quarters with handles of 387 at a radius of 700. Green's theorem over one: r^2 / 2 + 3 r h / 5 - 3 h^2 / 20 = 385074.65.
    const [round, hole] = otf.glyphs.get("O")!.contours;
    expect(round!.segments.map(({ kind }) => kind)).toEqual(["cubic", "cubic", "cubic", "cubic"]);
    expect(Math.abs(pathArea(round!))).toBeCloseTo(4 * 385074.65, 6);
    expect(Math.abs(pathArea(hole!))).toBe(160000);
  });

  it("adds up the kerning of extension lookups, by pairs and by classes", () => {
    const kern = (a: string, b: string) => kernBetween(otf.kerning, otf.glyphs.get(a)!.index, otf.glyphs.get(b)!.index);
    expect(otf.kerning.from).toBe("GPOS");
    expect([kern("A", "V"), kern("V", "A"), kern("A", "O"), kern("V", "O"), kern("O", "O")]).toEqual([-160, 0, -60, -60, 0]);
  });
});

describe("the face as data", () => {
  it("passes between threads unchanged", () => {
    expect(structuredClone(ttf)).toEqual(ttf);
  });

  it("is the same from a packed file and from its unpacked tables", () => {
    const packed = bundledFile("cinzel-latin-600-normal.woff");
    expect(readFace(fontFile(tablesOf(packed)))).toEqual(readFace(packed));
  });
});
