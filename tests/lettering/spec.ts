import type { LetterSpec } from "../../src/lettering/letter-spec.ts";
import type { Face } from "../../src/lettering/face.ts";
import { setLetters, type Lettering } from "../../src/lettering/lettering.ts";
import type { Trouble } from "../../src/lettering/trouble.ts";

/** What is not said: 10 mm high capitals in a row, spaced as the face says. */
const PLAIN: LetterSpec = {
  text: "",
  size: { by: "cap-height", value: 10 },
  tracking: 0,
  kerning: true,
  slant: 0,
  arrangement: { kind: "row" },
  nudges: [],
};

export const specOf = (text: string, over: Partial<LetterSpec> = {}): LetterSpec => ({ ...PLAIN, text, ...over });

export function set(face: Face, text: string, over: Partial<LetterSpec> = {}): Lettering {
  const result = setLetters(specOf(text, over), face);
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
}

export function refused(face: Face, text: string, over: Partial<LetterSpec> = {}): Trouble {
  const result = setLetters(specOf(text, over), face);
  if (result.ok) throw new Error(`${text} was set`);
  return result.error;
}

export const nudge = (letter: number, over: Partial<LetterSpec["nudges"][number]>): LetterSpec["nudges"][number] => ({
  letter,
  dx: 0,
  dy: 0,
  turn: 0,
  scale: 1,
  ...over,
});
