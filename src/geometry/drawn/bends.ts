import { arcRadius } from "../arc.ts";
import type { Path } from "../path.ts";
import { curvatureAt, piecesOf, pointAt, tangentAt } from "../segment.ts";
import { angleBetween, type Vec } from "../vec.ts";

/** The tightest bend of an outline to one side: its radius, mm (0: a sharp corner), and where. */
export interface Bend {
  readonly radius: number;
  readonly at: Vec;
}

/** Places at which a cubic is looked at. */
const SAMPLES = 33;
/** A joint that turns by less than this is no corner. */
const SMOOTH = 0.01;

/**
 * The tightest hollow bend of a closed outline run counter-clockwise, which a cutter going round outside must enter; undefined where it is
 * hollow nowhere. Exact for arcs and corners, from samples for cubics.
 */
export function tightestHollow(path: Path): Bend | undefined {
  const pieces = piecesOf(path);
  let best: Bend | undefined;
  const take = (radius: number, at: Vec): void => {
    if (!best || radius < best.radius) best = { radius, at };
  };
  for (const [i, piece] of pieces.entries()) {
    const next = pieces[(i + 1) % pieces.length]!;
    const [a, b] = [tangentAt(piece, 1), tangentAt(next, 0)];
    if (a && b && angleBetween(a, b) < -SMOOTH) take(0, piece.segment.to);
    if (piece.segment.kind === "arc" && !piece.segment.ccw) take(arcRadius(piece.from, piece.segment), pointAt(piece, 0.5));
    if (piece.segment.kind !== "cubic") continue;
    for (let k = 0; k < SAMPLES; k++) {
      const bend = -curvatureAt(piece, k / (SAMPLES - 1));
      if (bend > 1e-9) take(1 / bend, pointAt(piece, k / (SAMPLES - 1)));
    }
  }
  return best;
}
