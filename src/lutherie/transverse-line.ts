/**
 * Straight lines that run across the board: nut, frets, the cut of the end. Written as x = x0 + q y, since none of them runs along the
 * centre line; q is 0 where the line is square to it.
 */
import { vec, type Vec } from "../geometry/vec.ts";

export interface TransverseLine {
  /** x where it crosses the centre line, mm. */
  readonly x0: number;
  /** Change of x for each mm of y. */
  readonly q: number;
}

/** The line through a and b; square, through their middle, where they do not lie apart across the board. */
export function lineAcross(a: Vec, b: Vec): TransverseLine {
  const apart = b.y - a.y;
  if (Math.abs(apart) < 1e-9) return { x0: (a.x + b.x) / 2, q: 0 };
  const q = (b.x - a.x) / apart;
  return { x0: a.x - q * a.y + 0, q: q + 0 };
}

/** The point of the line at height y. */
export const pointAt = (line: TransverseLine, y: number): Vec => vec(line.x0 + line.q * y, y);

/** Angle between the line and one square to the centre line, radians; positive where the line leans to the tail with rising y. */
export const slantOf = (line: TransverseLine): number => Math.atan(line.q);

/** Length of the line for each mm of y. */
export const stretchOf = (line: TransverseLine): number => Math.hypot(1, line.q);

/** The parallel line at `by` mm, square to it, towards the tail. */
export const movedBy = (line: TransverseLine, by: number): TransverseLine => ({ x0: line.x0 + by * stretchOf(line), q: line.q });

/**
 * Where the line meets the edge y = m x + c. Undefined where it runs along the edge or so steeply (|m q| from 1) that it meets the edge
 * of the other side first.
 */
export function meetEdge(line: TransverseLine, m: number, c: number): Vec | undefined {
  const divisor = 1 - m * line.q;
  if (!(divisor > 1e-9) || !(1 + m * line.q > 1e-9)) return undefined;
  return pointAt(line, (m * line.x0 + c) / divisor);
}
