/**
 * The arch across the face of a fingerboard.
 *
 *   fall of the face between the middle and the ends of a chord w: R - sqrt(R^2 - (w/2)^2)
 * A compound board is part of a cone: R changes linearly along the board. Source: geometry of the circle.
 */

/** Radius of the arch; undefined for a flat board. */
export interface BoardRadius {
  /** Radius at the nut, mm. */
  readonly atNut: number;
  readonly atEnd: number;
  /** x of the end, mm, above 0. */
  readonly endX: number;
}

/** Radius at x, mm, carried on in a straight line beyond the board's ends. */
export const radiusAt = ({ atNut, atEnd, endX }: BoardRadius, x: number): number => atNut + ((atEnd - atNut) * x) / endX;

/**
 * How far the face has fallen at the ends of a chord, mm. A chord longer than the diameter gives the whole radius: the half circle ends
 * there.
 * @param radius mm, above 0; undefined for a flat face
 */
export function fallOver(radius: number | undefined, chord: number): number {
  if (radius === undefined) return 0;
  const half = Math.abs(chord) / 2;
  // R - sqrt(R^2 - h^2) written without the difference of two near numbers.
  return half >= radius ? radius : (half * half) / (radius + Math.sqrt(radius * radius - half * half));
}
