/**
 * How high the bottoms of the nut slots stand above the board.
 *
 * Held down at fret 3, the string runs straight from the slot's bottom (height H over the board) to the top of fret 3 and passes fret 1 with
 * the clearance c. By similar triangles
 *   H = h + c d3 / (d3 - d1), h the height of the crowns, d(n) the distance of fret n from the nut.
 * d3 / (d3 - d1) = 1.5450 on every scale. Source: geometry.
 */
import { fretShare } from "./fret-positions.ts";

const LEVER = fretShare(3) / (fretShare(3) - fretShare(1));

/** Height of the slot's bottom above the board, mm. */
export const nutSlotHeight = (crownHeight: number, clearance: number): number => crownHeight + clearance * LEVER;

/** Clearance over fret 1, held at fret 3, that a slot bottom at `height` above the board leaves, mm: the inverse. */
export const clearanceAtFret1 = (crownHeight: number, height: number): number => (height - crownHeight) / LEVER;
