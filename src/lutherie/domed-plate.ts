/** The height of a body's plate anywhere on it: flat, or a sphere through two places on the centre line. */
import type { Vec } from "../geometry/vec.ts";
import { domeHeight, type DomePoint } from "./dome.ts";

/** A plate through a place at the neck and one at the tail, heights counted upwards from the plane of the body's edge, mm. */
export interface DomedPlate {
  /** Radius of its dome; absent where it is flat. */
  readonly radius?: number;
  readonly neck: DomePoint;
  readonly tail: DomePoint;
  /** The side to which it bulges: up for a top, down for a back. */
  readonly bulges: "up" | "down";
}

/** Height of the plate at a place, mm. RangeError where its sphere does not reach it, or cannot span its two places. */
export function plateHeight({ radius = Infinity, neck, tail, bulges }: DomedPlate, at: Vec): number {
  if (bulges === "up") return domeHeight({ radius, first: neck, second: tail }, at);
  return -domeHeight({ radius, first: turned(neck), second: turned(tail) }, at);
}

const turned = ({ x, height }: DomePoint): DomePoint => ({ x, height: -height });

/** More than what only just reaches, since at the sphere's own rim the plate would stand upright. */
const SPARE = 1.1;

/**
 * The least radius that spans both places and reaches everywhere within `reach` mm of the middle between them, with something to spare. On
 * a slant alpha the sphere's middle lies under (R² - h²)^(1/2) sin alpha beside that of the chord, so R (1 - sin alpha) >= reach suffices.
 */
export function leastDome(neck: DomePoint, tail: DomePoint, reach: number): number {
  const chord = Math.hypot(tail.x - neck.x, tail.height - neck.height);
  const slant = Math.abs(tail.height - neck.height) / chord;
  return SPARE * Math.max(chord / 2, reach / (1 - slant));
}
