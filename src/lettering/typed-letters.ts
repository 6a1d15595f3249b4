/** From typed text to the letters of a face, in the order in which they are read from the left. */
import type { Result } from "../units/result.ts";
import type { Face, Glyph } from "./face.ts";
import { leftToRight } from "./reading-order.ts";
import { trouble, type Trouble } from "./trouble.ts";

export interface TypedLetter {
  /** Which letter of the text it is, counted from 0 as typed, spaces included. */
  readonly index: number;
  readonly character: string;
  readonly glyph: Glyph;
  readonly isSpace: boolean;
}

/** Letters in a text at most. */
export const MOST_LETTERS = 300;

const segmenter = new Intl.Segmenter("en", { granularity: "grapheme" });

/**
 * What a reader would count as one letter each: "é" is one however it was typed, and so is a flag or a family of emoji. Composed (Unicode
 * normalisation form C), so that an accent typed apart finds the accented letter of the face.
 */
export const lettersOf = (text: string): string[] =>
  Array.from(segmenter.segment(text.normalize("NFC")), ({ segment }) => segment);

/** Writing whose letters stand side by side without changing their form: those that can be set letter by letter. */
const STANDS_ALONE =
  /^[\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}\p{Script=Armenian}\p{Script=Georgian}\p{Script=Hebrew}\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\p{Script=Bopomofo}\p{Script=Cherokee}\p{Script=Ogham}\p{Script=Runic}\p{Script=Gothic}\p{Script=Common}\p{Script=Unknown}]+$/u;
const SPACE = /^\p{Zs}$/u;
const NO_LETTER = /[\p{Cc}\p{Zl}\p{Zp}]|^[\p{Cf}\p{M}]/u;

/**
 * The letters of the text. Refused: no letters at all or too many, line breaks, invisible marks and accents that stand alone, a character that the face does not have
 * (each is named), writing whose letters join or move about, and text that runs both ways.
 */
export function typedLetters(text: string, face: Face): Result<TypedLetter[], Trouble> {
  const characters = lettersOf(text);
  if (characters.length > MOST_LETTERS)
    return trouble("text", `The text has ${characters.length} letters, more than ${MOST_LETTERS}`, "Set it as several inlays.");
  if (characters.every((character) => SPACE.test(character)))
    return trouble("text", "There are no letters yet", "Type the letters.");
  const stray = characters.find((character) => NO_LETTER.test(character));
  if (stray !== undefined) return trouble("text", `The text holds ${kindOfStray(stray)}, ${codesOf(stray)}`, "Take it out.");
  const letters = characters.map((character, index) => {
    const isSpace = SPACE.test(character);
    const glyph = face.glyphs.get(character) ?? (isSpace ? face.glyphs.get(" ") : undefined);
    return glyph && (isSpace || glyph.contours.length > 0) ? { index, character, glyph, isSpace } : character;
  });
  const missing = [...new Set(letters.filter((letter) => typeof letter === "string"))];
  if (missing.length > 0) return missingTrouble(missing, face);
  const joined = characters.find((character) => !STANDS_ALONE.test(character));
  if (joined !== undefined)
    return trouble(
      "text",
      `${named(joined)} belongs to a writing whose letters change with their neighbours, which cannot be set here`,
      "Draw these letters as an outline and bring that in.",
    );
  return leftToRight(letters.filter((letter) => typeof letter !== "string"));
}

function kindOfStray(stray: string): string {
  if (/^[\r\n\p{Zl}\p{Zp}]/u.test(stray)) return "a line break";
  return /^\p{M}/u.test(stray) ? "an accent without its letter" : "an invisible mark";
}

function missingTrouble(missing: readonly string[], face: Face): Result<never, Trouble> {
  const names = missing.slice(0, 8).map(named).join(", ") + (missing.length > 8 ? ` and ${missing.length - 8} more` : "");
  const which = face.name === "" ? "The face" : face.name;
  return {
    ok: false,
    error: {
      kind: "glyph",
      message: face.whole
        ? `${which} has no ${names}`
        : `${names} ${missing.length > 1 ? "are" : "is"} not among the letters read of ${which}`,
      mend: "Choose a face that has it, or type another letter.",
      missing,
    },
  };
}

/** The character with its code points: `é (U+00E9)`. What shows nothing by itself is given by its code points alone. */
export function named(character: string): string {
  const codes = codesOf(character);
  return /^[\p{M}\p{C}\p{Z}]/u.test(character) ? codes : `${character} (${codes})`;
}

const codesOf = (character: string): string =>
  Array.from(character, (point) => `U+${point.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}`).join(" ");
