/**
 * A short name for a state of the numbers, printed on sheets and kept with cuts, so that a sheet of paper finds the numbers that it was
 * drawn from. Not a proof against forgery: about one pair in a thousand million differs in its numbers and has the same fingerprint.
 */
import type { Raw, RawRecord } from "../parts/derived.ts";
import { SHEET_KEYS } from "../parts/making-choices.ts";
import type { Numbers } from "./design.ts";
import { pinUnits } from "./pin-units.ts";
import { isRecord } from "./shape.ts";

/** Digits and letters that are not mistaken for each other when read from paper (Crockford's base 32). */
const DIGITS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/**
 * The fingerprint of what the drawings come from: the instrument, the parts, what was measured and how templates are made, as typed. The
 * order of keys does not matter, nor do the units shown, the order sheet or the limits of checks.
 * @returns six digits and letters, "7F3-A2C"
 */
export function fingerprintOf(numbers: Numbers): string {
  const { instrument, parts, measured, templates, stuck } = pinUnits(numbers);
  const made = Object.entries(templates).flatMap(([id, record]) => {
    const kept = withoutSheets(record);
    return Object.keys(kept).length > 0 ? [[id, kept] as const] : [];
  });
  const units = stuck.length > 0 ? numbers.units : "";
  const hash = fnv1a64(canonical([units, instrument, parts, measured, ...(made.length > 0 ? [Object.fromEntries(made)] : [])]));
  // Folded to the 30 bits of six digits, so that every bit of the hash counts.
  const folded = (hash >> 60n) ^ ((hash >> 30n) & MASK) ^ (hash & MASK);
  const digits = Array.from({ length: 6 }, (_, i) => DIGITS[Number((folded >> BigInt(25 - 5 * i)) & 31n)]).join("");
  return `${digits.slice(0, 3)}-${digits.slice(3)}`;
}

/**
 * The digits of a fingerprint as read from paper: capitals, blanks and the dash do not matter, and letters that it does not use stand for
 * the digits that they look like (as in Crockford's base 32).
 */
export const fingerprintDigits = (text: string): string =>
  text
    .toUpperCase()
    .replace(/[^0-9A-Z]/g, "")
    .replace(/O/g, "0")
    .replace(/[IL]/g, "1");

/** How a template is made, wherever the joints of its sheets run. */
const withoutSheets = (record: RawRecord): RawRecord =>
  Object.fromEntries(Object.entries(record).filter(([key]) => !(SHEET_KEYS as readonly string[]).includes(key)));

const MASK = (1n << 30n) - 1n;

/** JSON without blanks, the keys of every record sorted. */
function canonical(value: Raw): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(",")}]`;
  if (!isRecord(value)) return JSON.stringify(value);
  const keys = Object.keys(value)
    .filter((key) => value[key] !== undefined)
    .toSorted();
  return `{${keys.map((key) => `${JSON.stringify(key)}:${canonical(value[key])}`).join(",")}}`;
}

/** FNV-1a, 64 bits, over the UTF-16 units of the text, low byte first (Fowler, Noll, Vo; RFC 9923). */
export function fnv1a64(text: string): bigint {
  let hash = 0xcbf29ce484222325n;
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    hash = BigInt.asUintN(64, (hash ^ BigInt(unit & 255)) * 0x100000001b3n);
    if (unit > 255) hash = BigInt.asUintN(64, (hash ^ BigInt(unit >> 8)) * 0x100000001b3n);
  }
  return hash;
}
