/** How tight an outline bends, its corners left out: what a strip or a side has to follow. */
import { arcRadius } from "../../geometry/arc.ts";
import type { Path } from "../../geometry/path.ts";
import { curvatureAt, piecesOf, pointAt } from "../../geometry/segment.ts";
import type { Vec } from "../../geometry/vec.ts";

/** The least radius of a bend, mm, and where it is. */
export interface TightBend {
  readonly radius: number;
  readonly at: Vec;
}

/** The tightest bends of an outline run counter-clockwise; each absent where it never bends that way. */
export interface TightBends {
  /** Where the outline bulges. */
  readonly bout?: TightBend;
  /** Where it is hollow. */
  readonly hollow?: TightBend;
}

/** Places on a cubic that are looked at: the radius is found to about a part in a thousand. */
const LOOKS = 64;
/** Flatter than this radius, mm, nothing bends. */
const FLAT = 1e5;

export function tightBends(outline: Path): TightBends {
  let bout: TightBend | undefined;
  let hollow: TightBend | undefined;
  const take = (bend: number, at: Vec): void => {
    const radius = 1 / Math.abs(bend);
    if (bend > 1 / FLAT && radius < (bout?.radius ?? Infinity)) bout = { radius, at };
    if (bend < -1 / FLAT && radius < (hollow?.radius ?? Infinity)) hollow = { radius, at };
  };
  for (const piece of piecesOf(outline)) {
    const { segment, from } = piece;
    if (segment.kind === "arc") take((segment.ccw ? 1 : -1) / arcRadius(from, segment), pointAt(piece, 0.5));
    if (segment.kind === "cubic") for (let k = 0; k <= LOOKS; k++) take(curvatureAt(piece, k / LOOKS), pointAt(piece, k / LOOKS));
  }
  return { ...(bout ? { bout } : {}), ...(hollow ? { hollow } : {}) };
}
