/** Lettering on paper: one typeface of fixed advance, so that widths follow from counts. */

/** Advance of every letter over the height of a capital: 632 over 668 units of Atkinson Hyperlegible Mono. */
export const ADVANCE = 632 / 668;
/** Type size over the height of a capital: 1000 over 668 units. */
export const TYPE_SIZE = 1000 / 668;
/** How far a descender reaches below the baseline over the height of a capital (g, p, q, y: 212 of 668 units). */
export const DESCENT = 0.32;

/** Width of `text` whose capitals are `height` mm high, mm; the last letter's side bearing included. */
export const textWidth = (text: string, height: number): number => [...text].length * height * ADVANCE;
