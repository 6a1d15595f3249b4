/**
 * Width, string spread and edge margin at one place of the board: any two give the third.
 *
 *   W = S + 2 m               margin m to the centre of the outer strings
 *   W = S + 2 m + (gB + gT)/2 margin m to their edges, gB and gT the diameters of the outer strings
 *
 * Margins are the same on both sides. Measured to the edges, the middle of the spread then lies (gB - gT)/4 to the treble side of the centre
 * line, since the thicker string reaches further out. Source: geometry.
 */

export type MarginTo = "centre" | "edge";

/** What the outer strings themselves take of the width, mm. Diameters of the outer strings; 0 for a board without strings. */
export const takenByStrings = (marginTo: MarginTo, bassGauge: number, trebleGauge: number): number =>
  marginTo === "edge" ? (bassGauge + trebleGauge) / 2 : 0;

/** How far the middle of the spread lies to the treble side of the centre line, mm. */
export const spreadShift = (marginTo: MarginTo, bassGauge: number, trebleGauge: number): number =>
  marginTo === "edge" ? (bassGauge - trebleGauge) / 4 : 0;

export const widthFrom = (spread: number, margin: number, taken: number): number => spread + 2 * margin + taken;
export const spreadFrom = (width: number, margin: number, taken: number): number => width - 2 * margin - taken;
export const marginFrom = (width: number, spread: number, taken: number): number => (width - spread - taken) / 2;
