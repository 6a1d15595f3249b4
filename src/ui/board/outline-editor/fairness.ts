/** Fairness lines: spikes that stand off a curve as long as it is bent, so that the eye sees where a bend jumps or wavers. */
import type { Path } from "../../../geometry/path.ts";
import { curvatureAt, pieceLength, piecesOf, pointAt, tangentAt } from "../../../geometry/segment.ts";
import { add, leftOf, scale, type Vec } from "../../../geometry/vec.ts";

export interface Spike {
  readonly foot: Vec;
  readonly tip: Vec;
}

/** Spikes of one curve, side by side; their tips make a line that is smooth where the curve is fair. */
export type Comb = readonly Spike[];

const LEAST = 8;
const MOST = 40;

/**
 * The combs of a path's curves and arcs, on the outside of each bend.
 * @param gap between the feet, mm
 * @param reach length of a spike where the bend has a radius of 1 mm; none is longer than `longest`
 */
export function combsOf(path: Path, gap: number, reach: number, longest: number): Comb[] {
  return piecesOf(path).flatMap((piece) => {
    if (piece.segment.kind === "line") return [];
    const count = Math.min(MOST, Math.max(LEAST, Math.ceil(pieceLength(piece) / gap)));
    const spikes = Array.from({ length: count + 1 }, (_, k): Spike | undefined => {
      const t = k / count;
      const way = tangentAt(piece, t);
      const bend = curvatureAt(piece, t);
      if (!way || !Number.isFinite(bend)) return undefined;
      const foot = pointAt(piece, t);
      const size = Math.max(-longest, Math.min(longest, bend * reach));
      return { foot, tip: add(foot, scale(leftOf(way), -size)) };
    });
    return [spikes.filter((spike) => spike !== undefined)];
  });
}
