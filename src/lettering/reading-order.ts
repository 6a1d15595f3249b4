import type { Result } from "../units/result.ts";
import { trouble, type Trouble } from "./trouble.ts";

const FROM_RIGHT = /^\p{Script=Hebrew}/u;
const FROM_LEFT = /^(?!\p{Script=Hebrew})\p{L}/u;
const DIGIT = /^\p{Nd}$/u;
const BETWEEN_DIGITS = /^[.,:/]$/;

/** Characters that turn round where text runs from the right (Unicode's Bidi_Mirrored), as far as inscriptions use them. */
const MIRRORED = "()[]{}<>«»‹›";

/**
 * The letters in the order in which they stand from left to right. Hebrew runs from the right, the numbers in it from the left (the rules of
 * the Unicode bidirectional algorithm, UAX #9, for text of one direction). Refused: text that mixes letters of both directions, and
 * brackets that would have to turn round.
 */
export function leftToRight<T extends { readonly character: string }>(letters: readonly T[]): Result<T[], Trouble> {
  if (!letters.some(({ character }) => FROM_RIGHT.test(character))) return { ok: true, value: [...letters] };
  if (letters.some(({ character }) => FROM_LEFT.test(character)))
    return trouble(
      "text",
      "The text mixes letters read from the right with letters read from the left",
      "Set them as two inlays.",
    );
  const bracket = letters.find(({ character }) => MIRRORED.includes(character));
  if (bracket)
    return trouble(
      "text",
      `The bracket ${bracket.character} would have to turn round in text read from the right`,
      "Take the brackets out.",
    );
  const runs: T[][] = [];
  for (const [i, letter] of letters.entries()) {
    const before = letters[i - 1]?.character ?? "";
    const after = letters[i + 1]?.character ?? "";
    const carriesOn =
      DIGIT.test(before) && (DIGIT.test(letter.character) || (BETWEEN_DIGITS.test(letter.character) && DIGIT.test(after)));
    const follows = carriesOn || (BETWEEN_DIGITS.test(before) && DIGIT.test(letter.character) && (runs.at(-1)?.length ?? 0) > 1);
    if (follows) runs.at(-1)!.push(letter);
    else runs.push([letter]);
  }
  return { ok: true, value: runs.toReversed().flat() };
}
