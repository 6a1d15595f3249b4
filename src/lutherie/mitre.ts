/**
 * Two strips that meet at a corner: the mitre runs from the outer corner to the inner one, and so halves the corner only where both are
 * of one thickness. With a and b the thicknesses and theta the angle between the edges,
 *
 *   tan alpha = a sin theta / (b + a cos theta)
 *
 * is the angle between the first strip's edge and the mitre; the other strip takes the rest of theta. The mitre is a / sin alpha long.
 * Source: the inner corner of two parallel strips, plane trigonometry; 45 degrees for two alike at a right angle.
 */

export interface Mitre {
  /** Between each strip's outer edge and the mitre, radians. */
  readonly first: number;
  readonly second: number;
  /** From the outer to the inner corner, mm. */
  readonly length: number;
}

/** The mitre of strips `a` and `b` mm thick (above 0) whose outer edges meet at `corner` radians (above 0, below a half turn). */
export function mitreOf(a: number, b: number, corner: number): Mitre {
  if (!(a > 0 && b > 0 && corner > 0 && corner < Math.PI))
    throw new RangeError("mitreOf: needs two thicknesses and a corner of less than half a turn");
  const first = Math.atan2(a * Math.sin(corner), b + a * Math.cos(corner));
  return { first, second: corner - first, length: a / Math.sin(first) };
}
