/**
 * The chain of heights from the join to the saddle. Heights are counted square to the plane of the body's edge; the fret
 * plane (the tops of the frets on the centre line) leaves the join at the pitch angle theta:
 *
 *   rise of the top at the saddle + bridge + saddle - (2 · action at 12 - nut height, at the scale length)
 *     = rise of the top at the join + board + fret + tan theta (saddle - join)
 *
 * String heights are measured square to the fret plane; at a pitch of 2 degrees that is 0.003 mm in 5, and left alone. Any one
 * of pitch, bridge, saddle, board and action follows from the rest. Source: similar triangles; strings and fret plane
 * are straight. A neck reset takes heel length × rise at the saddle / (join to saddle) off the heel, by the same triangles.
 */

/** Where things stand along the instrument (mm from the nut) and how high (mm); all that the chain needs, but for one height. */
export interface HeightChain {
  readonly joinX: number;
  readonly saddleX: number;
  /** The scale length, at which the strings' height is counted twice over that at fret 12. */
  readonly scale: number;
  /** How far the top's dome stands over the plane of the body's edge at the join and at the saddle. */
  readonly topRiseAtJoin: number;
  readonly topRiseAtSaddle: number;
  readonly boardThickness: number;
  readonly fretHeight: number;
  readonly nutHeight: number;
  /** String over the fret at fret 12. */
  readonly actionAt12: number;
  readonly bridgeThickness: number;
  /** Saddle over the bridge. */
  readonly saddleHeight: number;
  /** Angle of the fret plane against the plane of the body's edge, radians; above 0 it rises towards the saddle. */
  readonly pitch: number;
}

export type ChainUnknown = "pitch" | "bridgeThickness" | "saddleHeight" | "boardThickness" | "actionAt12";

/** How high the strings run over the fret plane at x, mm, on the centre line. */
export const stringOverFrets = (chain: Pick<HeightChain, "scale" | "nutHeight" | "actionAt12">, x: number): number =>
  chain.nutHeight + ((chain.actionAt12 - chain.nutHeight) * 2 * x) / chain.scale;

/** The value of one number of the chain that fits all the others; RangeError where the saddle does not lie beyond the join. */
export function solveChain<U extends ChainUnknown>(chain: Omit<HeightChain, U>, unknown: U): number {
  const c = { ...chain, [unknown]: 0 } as unknown as HeightChain;
  const reach = c.saddleX - c.joinX;
  if (!(reach > 0 && c.scale > 0)) throw new RangeError("solveChain: the saddle must lie beyond the join");
  const excess =
    c.topRiseAtSaddle + c.bridgeThickness + c.saddleHeight - stringOverFrets(c, c.saddleX) - fretPlaneOverTop(c, c.saddleX, 0);
  if (!Number.isFinite(excess)) throw new RangeError("solveChain: every other height must be a number");
  switch (unknown) {
    case "pitch":
      return Math.atan(excess / reach);
    case "boardThickness":
      return excess;
    case "actionAt12":
      return (excess * c.scale) / (2 * c.saddleX);
    default:
      return -excess;
  }
}

/** Height of the fret plane over the top itself at x, where the top rises `topRise` over the plane of the body's edge, mm. */
export const fretPlaneOverTop = (chain: HeightChain, x: number, topRise: number): number =>
  chain.topRiseAtJoin + chain.boardThickness + chain.fretHeight + Math.tan(chain.pitch) * (x - chain.joinX) - topRise;

/** Gap under the board beyond the join at x, mm; below 0 the board digs into a top that rises `topRise` there. */
export const gapUnderExtension = (chain: HeightChain, x: number, topRise: number): number =>
  fretPlaneOverTop(chain, x, topRise) - chain.boardThickness - chain.fretHeight;

/** How far the foot of a heel `depth` mm deep is cut back so that the neck stands at the pitch, mm (a quarter turn at most). */
export function heelUndercut(depth: number, pitch: number): number {
  if (!(depth >= 0 && Math.abs(pitch) < Math.PI / 2))
    throw new RangeError("heelUndercut: needs a depth and a pitch below a quarter turn");
  return depth * Math.tan(pitch);
}

/** Wood off at the foot of the heel (mm) to raise the fret plane by `rise` mm at the saddle. */
export function resetAtHeel(heelLength: number, rise: number, joinToSaddle: number): number {
  if (!(heelLength > 0 && joinToSaddle > 0) || !Number.isFinite(rise))
    throw new RangeError("resetAtHeel: needs a heel and a distance to the saddle");
  return (heelLength * rise) / joinToSaddle;
}
