/**
 * The tilted head: its scarf joint and the angle that each string breaks over the nut.
 *
 *   scarf through a blank of thickness t at the tilt a: the cut face is t / sin a long, its layout on the blank's face t / tan a
 *   break angle = a + atan((height in the nut slot - height at the post) / distance), heights over the head's face
 * Source: geometry of the right triangle.
 */

/** Both lengths that a scarf is marked with, mm: never to be taken one for the other. */
export interface Scarf {
  readonly cutFace: number;
  readonly layout: number;
}

/** The scarf of a blank `thickness` mm thick at `tilt` radians, above 0 and up to a quarter turn. */
export function scarf(thickness: number, tilt: number): Scarf {
  if (!(thickness > 0 && thickness < Infinity)) throw new RangeError("scarf: the blank has a thickness");
  requireTilt(tilt);
  return { cutFace: thickness / Math.sin(tilt), layout: thickness / Math.tan(tilt) };
}

/** A string between the nut and its post: both heights over the head's face and the distance along it, mm. */
export interface StringToPost {
  readonly heightInNut: number;
  readonly heightAtPost: number;
  readonly distance: number;
}

/** How far (radians) a string bends over the nut; the tilt from 0 (a straight head) up to a quarter turn, the distance above 0. */
export function breakAngle({ heightInNut, heightAtPost, distance }: StringToPost, tilt: number): number {
  if (tilt !== 0) requireTilt(tilt);
  if (!(distance > 0) || !Number.isFinite(heightInNut - heightAtPost))
    throw new RangeError("breakAngle: needs a distance and two heights");
  return tilt + Math.atan((heightInNut - heightAtPost) / distance);
}

function requireTilt(tilt: number): void {
  if (!(tilt > 0 && tilt <= Math.PI / 2)) throw new RangeError("head angle: the tilt must be above 0 and up to a quarter turn");
}
