/**
 * The shop's one series of instrument numbers, the maker's and the students' together. A number that was given once is never given
 * again, though instruments are finished out of order and some never are.
 */
import { fingerprintDigits } from "../document/fingerprint.ts";
import type { Kept } from "../document/storage.ts";

/** Name of the setting that keeps the numbers of designs which were removed. */
export const GIVEN_NUMBERS = "numbersGiven";

/** The numbers of a kept setting; what is no list of texts is left out. */
export const givenOf = (kept: unknown): readonly string[] =>
  Array.isArray(kept) ? kept.filter((number): number is string => typeof number === "string") : [];

/** The number after the greatest that is plain, with as many digits at least: 15 after 14, 008 after 007. Undefined while there is none. */
export function nextNumber(numbers: readonly string[]): string | undefined {
  const plain = numbers.map((text) => text.trim()).filter((text) => /^\d{1,9}$/.test(text));
  const greatest = plain.toSorted((a, b) => Number(a) - Number(b)).at(-1);
  return greatest === undefined ? undefined : String(Number(greatest) + 1).padStart(greatest.length, "0");
}

const alike = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

/** Who has a number already: another kept design than `id`, or one that was removed. Undefined where it is free. */
export function holderOf(
  number: string,
  id: string,
  kept: readonly Kept[],
  given: readonly string[],
): Kept | "removed" | undefined {
  const holder = kept.find((one) => one.id !== id && one.numbers.some((taken) => alike(taken, number)));
  const own = kept.find((one) => one.id === id)?.numbers.some((taken) => alike(taken, number));
  return holder ?? (!own && given.some((taken) => alike(taken, number)) ? "removed" : undefined);
}

/** Whether a design is found by what was typed: number, name, player, builder, or the sign on one of its sheets. */
export function isFoundBy(kept: Kept, typed: string): boolean {
  const wanted = typed.trim().toLowerCase();
  const words = [kept.number, kept.title, kept.player, kept.builtBy, ...kept.numbers].join(" ").toLowerCase();
  return words.includes(wanted) || signOn(kept, typed) !== undefined;
}

/** The sign among those of a design's sheets that was typed, as far as it is typed; four letters at least. */
export function signOn(kept: Kept, typed: string): string | undefined {
  const wanted = fingerprintDigits(typed);
  return wanted.length >= 4 ? kept.signs.find((sign) => fingerprintDigits(sign).startsWith(wanted)) : undefined;
}
