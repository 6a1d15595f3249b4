/** The lines of one dimension after ISO 129-1, on the board, `level` px further out than the drawing asks. */
import type { Dimension } from "../../drawing/drawing.ts";
import type { Px, View } from "./viewport.ts";
import { toScreen } from "./viewport.ts";

/** The two points that a dimension is between, on the board, and the directions along its line and away from what it measures. */
export interface Span {
  readonly from: Px;
  readonly to: Px;
  /** Unit vectors. `out` is the left of from -> to where the dimension's offset is positive, else the right. */
  readonly along: Px;
  readonly out: Px;
  /** px; how far out the line stands by the drawing. */
  readonly offset: number;
}

/** Undefined where both points are one along the direction measured: nothing to draw. */
export function spanOf(dimension: Dimension, view: View): Span | undefined {
  const from = toScreen(view, dimension.from);
  const to = toScreen(view, dimension.to);
  const dx = dimension.along === "y" ? 0 : to.x - from.x;
  const dy = dimension.along === "x" ? 0 : to.y - from.y;
  const long = Math.hypot(dx, dy);
  if (!(long > 1e-6)) return undefined;
  const along = { x: dx / long, y: dy / long };
  // Left of the direction as seen with y up is (dy, -dx) with y down.
  const side = dimension.offset < 0 ? -1 : 1;
  return {
    from,
    to,
    along,
    out: { x: side * along.y, y: -side * along.x },
    offset: Math.abs(dimension.offset) * view.camera.pxPerMm,
  };
}

const dot = (a: Px, b: Px): number => a.x * b.x + a.y * b.y;
export const moved = (p: Px, d: Px, by: number): Px => ({ x: p.x + d.x * by, y: p.y + d.y * by });

/**
 * The feet of both points on a dimension line that stands `offset` px out from the outer one of them, so that both extension lines run
 * the same way.
 */
export function feetOf({ from, to, out }: Span, offset: number): readonly [Px, Px] {
  const a = dot(from, out);
  const b = dot(to, out);
  const far = Math.max(a, b) + offset;
  return [moved(from, out, far - a), moved(to, out, far - b)];
}

/** Text as steep as this, radians, reads from the right whichever way it leans, so that no upright one stands on its head beside another. */
const STEEP = Math.PI / 18;

/** The angle at which text along the line reads from the bottom or from the right: radians, from -pi/2 - STEEP up to, not with, pi/2 - STEEP. */
export function readingAngle({ along }: Span): number {
  const angle = Math.atan2(along.y, along.x);
  if (angle >= Math.PI / 2 - STEEP) return angle - Math.PI;
  return angle < -Math.PI / 2 - STEEP ? angle + Math.PI : angle;
}
