/**
 * Where position markers go: along the board in the middle between the marked fret and the one before it, across it in a space between
 * strings. Source: common practice, no source.
 */

/** Frets that are usually marked, and those with two markers; common practice, no source. */
export const USUAL_MARKS: readonly number[] = [3, 5, 7, 9, 12, 15, 17, 19, 21, 24, 27, 29, 31, 33, 36];
export const USUAL_DOUBLES: readonly number[] = [12, 24, 36];

/** A space between neighbouring courses, by the index of the course on its bass side, counted from 0. */
export interface MarkerSpaces {
  readonly single: number;
  readonly pair: readonly [number, number];
}

/**
 * The spaces in which a single marker and a pair go, among `courses` courses: the middle space and its two neighbours, or, where a string
 * stands in the middle, the space on its treble side and both beside it. Undefined below three courses, which leave no two spaces.
 */
export function markerSpaces(courses: number): MarkerSpaces | undefined {
  if (courses < 3) return undefined;
  const middle = courses / 2;
  if (courses % 2 === 0) return { single: middle - 1, pair: [middle - 2, middle] };
  const low = (courses - 3) / 2;
  return { single: low + 1, pair: [low, low + 1] };
}
