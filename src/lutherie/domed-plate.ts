/** The height of a body's plate anywhere on it: flat, or a sphere through two places on the centre line. */
import type { Vec } from "../geometry/vec.ts";
import { domeHeight, type DomePoint } from "./dome.ts";

/** A plate through a place at the neck and one at the tail, heights counted upwards from the plane of the body's edge, mm. */
export interface DomedPlate {
  /** Radius of its dome; Infinity where it is flat. */
  readonly radius: number;
  readonly neck: DomePoint;
  readonly tail: DomePoint;
  /** The side to which it bulges: up for a top, down for a back. */
  readonly bulges: "up" | "down";
}

/** Height of the plate at a place, mm. RangeError where its sphere does not reach it, or cannot span its two places. */
export function plateHeight({ radius, neck, tail, bulges }: DomedPlate, at: Vec): number {
  if (bulges === "up") return domeHeight({ radius, first: neck, second: tail }, at);
  const turned = (point: DomePoint): DomePoint => ({ x: point.x, height: -point.height });
  return -domeHeight({ radius, first: turned(neck), second: turned(tail) }, at);
}

/**
 * The least radius that spans both places and reaches everywhere within `reach` mm of the middle between them, with something to spare:
 * below it a plate is held at it.
 */
export function leastDome(neck: DomePoint, tail: DomePoint, reach: number): number {
  return 1.1 * Math.max(Math.hypot(tail.x - neck.x, tail.height - neck.height) / 2, reach) + Math.abs(tail.height - neck.height);
}
