/**
 * Carving a neck by flats: each facet lies on a tangent of the section at a chosen angle.
 *
 * The facet is the line with outward normal (sin, cos) of its angle through the point where the section is touched.
 */
import { vec, type Vec } from "../geometry/vec.ts";
import { sidesOf, type NeckSection, type SectionSide } from "./neck-section.ts";

/** The squared-up blank that the facets are marked on: its half width and its depth under the glue plane, mm. */
export interface NeckBlank {
  readonly halfWidth: number;
  readonly depth: number;
}

/** A facet as marked on the blank. */
export interface Facet {
  /** Radians from the back (0) to the side (pi/2). */
  readonly angle: number;
  readonly sign: 1 | -1;
  /** Where the facet touches the section. */
  readonly touch: Vec;
  /** On the blank's back, from the centre line outwards, mm; undefined where the facet does not cross the back on its side. */
  readonly onBack: number | undefined;
  /** On the blank's side, from the glue plane down, mm; undefined where the facet does not cross the side. */
  readonly onSide: number | undefined;
}

/** The facet of one side (+1 treble, -1 bass) at `angle`, between 0 and pi/2 radians; the blank holds the section. */
export function facetAt(section: NeckSection, angle: number, sign: 1 | -1, blank: NeckBlank = section): Facet {
  if (!(angle > 0 && angle < Math.PI / 2)) throw new RangeError("facetAt: the angle must lie between the back and the side");
  if (!(blank.halfWidth >= section.halfWidth && blank.depth >= section.depth))
    throw new RangeError("facetAt: the blank is smaller than the neck");
  const side = sidesOf(section)[sign < 0 ? 0 : 1];
  const across = Math.sin(angle);
  const down = Math.cos(angle);
  const touch = touchPoint(side, across, down);
  // The facet: out · sin + depth · cos = support, out from the centre line, depth from the glue plane.
  const support = sign * touch.x * across - touch.y * down;
  const onBack = (support - blank.depth * down) / across;
  const onSide = (support - blank.halfWidth * across) / down;
  return {
    angle,
    sign,
    touch,
    onBack: onBack >= 0 && onBack <= blank.halfWidth ? onBack : undefined,
    onSide: onSide >= 0 && onSide <= blank.depth ? onSide : undefined,
  };
}

/**
 * Where a line with the outward normal (across, down), a unit vector with neither below 0, touches the side: by Hölder's
 * inequality and its case of equality x = a (a across / H)^(q-1), y = d (d down / H)^(q-1), 1/p + 1/q = 1,
 * H = ((a across)^q + (d down)^q)^(1/q). A flat flank is touched at one of its ends, or all along: then its middle is named.
 */
function touchPoint({ sign, a, d, p, lean }: SectionSide, across: number, down: number): Vec {
  const u = a * across;
  const v = d * down;
  const greater = Math.max(u, v);
  if (p === 1) {
    const [x, y] = u === v ? [a / 2, d / 2] : u > v ? [a, 0] : [0, d];
    return vec(lean + sign * x, -y);
  }
  const q = p / (p - 1);
  const h = greater * ((u / greater) ** q + (v / greater) ** q) ** (1 / q);
  return vec(lean + sign * a * (u / h) ** (q - 1), -d * (v / h) ** (q - 1));
}
