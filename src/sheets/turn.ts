/** Quarter turns of ink, counter-clockwise about the origin; exact. */
import type { Vec } from "../geometry/vec.ts";
import type { Stroke } from "./ink.ts";
import type { Placement } from "./sheet.ts";

export function turnStroke({ points, closed }: Stroke, turn: Placement["turn"]): Stroke {
  return { points: points.map((p) => turnPoint(p, turn)), closed };
}

function turnPoint({ x, y }: Vec, turn: Placement["turn"]): Vec {
  return turn === 0 ? { x, y } : turn === 1 ? { x: -y, y: x } : turn === 2 ? { x: -x, y: -y } : { x: y, y: -x };
}
