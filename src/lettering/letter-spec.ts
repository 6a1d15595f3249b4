import type { Arrangement } from "./arrange.ts";

/** What one letter does otherwise than its neighbours. */
export interface Nudge {
  /** Which letter of the text, counted from 0 as typed, spaces included. */
  readonly letter: number;
  /** Moved along the baseline and up from it, mm; the neighbours stay. */
  readonly dx: number;
  readonly dy: number;
  /** Turned about the middle of its baseline, radians counter-clockwise. */
  readonly turn: number;
  /** Larger than the others by this factor, about the middle of its baseline; the neighbours give way. */
  readonly scale: number;
}

/** Lengths in mm, angles in radians. */
export interface LetterSpec {
  readonly text: string;
  /** Height of capitals, width of all that is drawn (nudges apart), or the em; above 0. */
  readonly size: { readonly by: "cap-height" | "width" | "em"; readonly value: number };
  /** Added between neighbours in a row or on an arc; less than 0 draws them together. */
  readonly tracking: number;
  /** Whether pairs are spaced as the face says. */
  readonly kerning: boolean;
  /** How far uprights lean to the right, at most 60 degrees either way. */
  readonly slant: number;
  readonly arrangement: Arrangement;
  readonly nudges: readonly Nudge[];
}

const STEEPEST = Math.PI / 3;

/** Throws RangeError for a number outside its domain. */
export function checkNumbers({ size, tracking, slant, arrangement, nudges }: LetterSpec): void {
  const { kind: _, ...lengths } = arrangement;
  const numbers = [
    ...Object.values(lengths).filter((value) => typeof value === "number"),
    ...nudges.flatMap(({ dx, dy, turn, scale }) => [dx, dy, turn, scale]),
    size.value,
    tracking,
    slant,
  ];
  if (!numbers.every(Number.isFinite)) throw new RangeError("setLetters: a number is not finite");
  if (!(size.value > 0)) throw new RangeError("setLetters: the size must be above 0");
  if (arrangement.kind === "arc" && !(arrangement.radius > 0)) throw new RangeError("setLetters: the radius must be above 0");
  if (!nudges.every(({ scale }) => scale > 0)) throw new RangeError("setLetters: a letter's scale must be above 0");
  if (!(Math.abs(slant) <= STEEPEST)) throw new RangeError("setLetters: letters lean too far");
}
