/**
 * Fret wire and its slot.
 *
 *   depth of a slot with a level bottom, from the flat face before the arch is worked: tang + clearance + R - sqrt(R^2 - (w/2)^2),
 *     w the width across the board of the slot
 *   length of the tang: slot - 2 x clearance
 *   length of the crown over the arch: 2 R asin(w / 2R)
 * Source: geometry.
 */
import { integrate } from "../geometry/quadrature.ts";
import { fallOver } from "./board-radius.ts";

/** Depth of a level slot from the flat face, mm, such that the tang has its clearance at both ends too. `across` is the slot's extent in y. */
export const slotDepth = (tangDepth: number, clearance: number, radius: number | undefined, across: number): number =>
  tangDepth + clearance + fallOver(radius, across);

/** Length of the tang nipped `clearance` mm short of both ends of its slot, mm; 0 where nothing is left. */
export const tangLength = (slot: number, clearance: number): number => Math.max(0, slot - 2 * clearance);

/**
 * Length of a crown over the arch, mm: 2 R asin(w / 2R) for a square fret. A slanted fret runs over an ellipse (its run across the board
 * is shortened by the cosine of the slant), whose length is found by quadrature to 1e-10. Beyond the half circle the arch counts no further.
 * @param along straight length of the fret from edge to edge, mm
 * @param slant angle from square, radians
 */
export function crownLength(radius: number | undefined, along: number, slant: number): number {
  if (radius === undefined) return along;
  const cosine = Math.cos(slant);
  const sine = (along * cosine) / (2 * radius);
  const angle = Math.asin(Math.min(1, sine));
  if (slant === 0) return 2 * radius * angle;
  // Over the arch at angle a: across R sin a, down R (1 - cos a), and along the board R sin a tan(slant).
  const lean = Math.tan(slant);
  return 2 * radius * integrate((a) => Math.hypot(1, lean * Math.cos(a)), 0, angle);
}
