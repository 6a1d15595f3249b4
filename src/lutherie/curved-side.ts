/**
 * Flat templates on a side that is bent to a radius R, taken as round where the work is.
 *
 *   over an arc s the straight distance is 2 R sin(s / 2R);  a point u from the middle of a flat template, which touches
 *   the side there, comes down R asin(u / R) from the middle along the face; the face has fallen R - sqrt(R² - u²) below
 *   the template; a wall cut square to the template leans asin(u / R) from square to the face.
 * Source: geometry of the circle.
 */

/** Straight distance between two points of the side, mm, `along` mm apart on the face; along up to half a turn. */
export function chordOver(along: number, radius: number): number {
  if (!(radius > 0 && along >= 0 && along <= Math.PI * radius))
    throw new RangeError("chordOver: the arc must be within half a turn");
  return radius === Infinity ? along : 2 * radius * Math.sin(along / (2 * radius));
}

/** Where a point of a flat template comes to lie on the bent face. */
export interface PlaceOnSide {
  /** Along the face from the middle, mm, with the sign of `u`. */
  readonly along: number;
  /** How much farther that is than on the template, mm, never below 0. */
  readonly stretch: number;
  /** How far the face lies under the template, mm. */
  readonly fall: number;
  /** How far a wall cut square to the template leans there, radians. */
  readonly lean: number;
}

/** The place under a template's point `u` mm round the side from its middle; |u| below the radius (Infinity for a flat side). */
export function placeOnSide(u: number, radius: number): PlaceOnSide {
  if (!(radius > 0 && Math.abs(u) < radius)) throw new RangeError("placeOnSide: the template is wider than the side is round");
  if (radius === Infinity) return { along: u, stretch: 0, fall: 0, lean: 0 };
  const lean = Math.asin(Math.abs(u) / radius);
  const along = Math.sign(u) * radius * lean;
  return { along, stretch: Math.abs(along) - Math.abs(u), fall: (u * u) / (radius + Math.sqrt(radius * radius - u * u)), lean };
}

/** Thickness of the blank for an insert `width` mm wide round the side and `thickness` thick, so that it can be shaped to the curve, mm. */
export function insertBlank(width: number, thickness: number, radius: number): number {
  if (!(width > 0 && thickness > 0)) throw new RangeError("insertBlank: the insert has a width and a thickness");
  return thickness + placeOnSide(width / 2, radius).fall;
}
