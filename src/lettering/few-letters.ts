/** What of a face a text needs, as plain lists: small enough to be compared, and to be passed between threads at every key. */
import type { Face, Glyph } from "./face.ts";
import { kernBetween, pairTable, type Kerning } from "./kerning.ts";
import { lettersOf } from "./typed-letters.ts";

export interface FewLetters extends Omit<Face, "glyphs" | "kerning"> {
  readonly glyphs: readonly (readonly [character: string, glyph: Glyph])[];
  /** Numbers of two glyphs and the room between them, font units; pairs of which the face says nothing are left out. */
  readonly kerns: readonly (readonly [first: number, second: number, room: number])[];
}

/** The glyphs of the text's letters, each once, with the kerning between neighbours. Letters that the face lacks are left out. */
export function fewLetters(face: Face, text: string): FewLetters {
  const characters = lettersOf(text);
  const wanted = [...new Set([...characters, " "])];
  const glyphs = wanted.flatMap((character) => {
    const glyph = face.glyphs.get(character);
    return glyph ? [[character, glyph] as const] : [];
  });
  const indexOf = (character: string): number | undefined => face.glyphs.get(character)?.index;
  const kerns = new Map<string, readonly [number, number, number]>();
  for (const [i, character] of characters.entries()) {
    const [a, b] = [indexOf(character), indexOf(characters[i + 1] ?? "")];
    if (a === undefined || b === undefined) continue;
    const room = kernBetween(face.kerning, a, b);
    if (room !== 0) kerns.set(`${a} ${b}`, [a, b, room]);
  }
  const { name, unitsPerEm, ascender, descender, capHeight, xHeight, whole } = face;
  return { name, unitsPerEm, ascender, descender, capHeight, xHeight, whole, glyphs, kerns: [...kerns.values()] };
}

/** The face again, of these letters alone. It sets their text as the whole face does. */
export function faceOfFew({ glyphs, kerns, ...face }: FewLetters): Face {
  const kerning: Kerning = { from: "GPOS", lookups: [[pairTable(kerns)]] };
  return { ...face, glyphs: new Map(glyphs), kerning };
}
