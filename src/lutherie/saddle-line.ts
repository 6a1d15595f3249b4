/**
 * The straight saddle nearest to the points where the strings want to end: the least-squares line x = x0 + slope · y,
 * errors taken along the strings. Source: ordinary least squares, any text.
 */
import type { Vec } from "../geometry/vec.ts";

/** A straight saddle's crest and what it leaves each string short of its wish. */
export interface SaddleLine {
  /** Where the crest crosses the centre line, mm from the nut. */
  readonly x: number;
  /** Growth of x for each mm towards the treble side. */
  readonly slope: number;
  /** The crest's turn from square to the centre line, radians; above 0 the treble end lies farther from the nut. */
  readonly angle: number;
  /** Wished less given for each point in order, mm; above 0 the string wants its saddle farther back. */
  readonly residuals: readonly number[];
  /** From the least to the greatest residual: the crest's own width must give at least this, mm. */
  readonly spread: number;
}

/** The line through `points` (x from the nut, y across; at least two, not all at one y); RangeError otherwise. */
export function fitSaddle(points: readonly Vec[]): SaddleLine {
  const n = points.length;
  const meanX = points.reduce((sum, { x }) => sum + x, 0) / n;
  const meanY = points.reduce((sum, { y }) => sum + y, 0) / n;
  const syy = points.reduce((sum, { y }) => sum + (y - meanY) ** 2, 0);
  const sxy = points.reduce((sum, { x, y }) => sum + (x - meanX) * (y - meanY), 0);
  if (!(syy > 0 && Number.isFinite(sxy))) throw new RangeError("fitSaddle: needs two strings apart from one another");
  const slope = sxy / syy;
  const x = meanX - slope * meanY;
  const residuals = points.map((point) => point.x - (x + slope * point.y));
  return { x, slope, angle: Math.atan(slope), residuals, spread: Math.max(...residuals) - Math.min(...residuals) };
}
