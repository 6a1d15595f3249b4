import { distance, vec, type Vec } from "./vec.ts";

/** A straight side. */
export interface Line {
  readonly kind: "line";
  readonly to: Vec;
}
/** A true arc about `centre`; its sweep is above 0 and below a full turn (a circle is two arcs). */
export interface Arc {
  readonly kind: "arc";
  readonly to: Vec;
  readonly centre: Vec;
  /** Counter-clockwise in our axes (y up). */
  readonly ccw: boolean;
}
/** A cubic Bezier curve. */
export interface Cubic {
  readonly kind: "cubic";
  readonly c1: Vec;
  readonly c2: Vec;
  readonly to: Vec;
}
export type Segment = Line | Arc | Cubic;

/**
 * A run of segments, each starting where the one before ends, the first at `start`; mm.
 * A closed path ends exactly where it starts: its last segment's `to` equals `start`.
 */
export interface Path {
  readonly start: Vec;
  readonly segments: readonly Segment[];
  readonly closed: boolean;
}

export const line = (to: Vec): Line => ({ kind: "line", to });
export const arc = (to: Vec, centre: Vec, ccw: boolean): Arc => ({ kind: "arc", to, centre, ccw });
export const cubic = (c1: Vec, c2: Vec, to: Vec): Cubic => ({ kind: "cubic", c1, c2, to });

/** The open path from `a` to `b`. */
export const segmentPath = (a: Vec, b: Vec): Path => ({ start: a, segments: [line(b)], closed: false });

/** The open path through `points` (at least two) in straight sides. */
export function polyline(points: readonly Vec[]): Path {
  const [start, ...rest] = points;
  if (!start || rest.length === 0) throw new RangeError("polyline: needs two points");
  return { start, segments: rest.map(line), closed: false };
}

/** The closed path round `points` (at least three, the first not repeated). */
export function polygon(points: readonly Vec[]): Path {
  const [start, ...rest] = points;
  if (!start || rest.length < 2) throw new RangeError("polygon: needs three points");
  return { start, segments: [...rest, start].map(line), closed: true };
}

/** The full circle, counter-clockwise, as two arcs; radius above 0. */
export function circle(centre: Vec, radius: number): Path {
  if (!(radius > 0)) throw new RangeError("circle: the radius must be above 0");
  const a = vec(centre.x + radius, centre.y);
  const b = vec(centre.x - radius, centre.y);
  return { start: a, segments: [arc(b, centre, true), arc(a, centre, true)], closed: true };
}

/** The rectangle from (x0, y0) to (x1, y1), counter-clockwise. */
export const rectangle = (x0: number, y0: number, x1: number, y1: number): Path =>
  polygon([vec(x0, y0), vec(x1, y0), vec(x1, y1), vec(x0, y1)]);

/** Where the path ends. */
export const endOf = (path: Path): Vec => path.segments.at(-1)?.to ?? path.start;

/** The circle that the path is, or undefined if it is none: two arcs about one centre, half a turn each. */
export function asCircle(path: Path): { centre: Vec; radius: number } | undefined {
  const [a, b] = path.segments;
  if (!path.closed || path.segments.length !== 2 || a?.kind !== "arc" || b?.kind !== "arc") return undefined;
  if (a.ccw !== b.ccw || a.centre.x !== b.centre.x || a.centre.y !== b.centre.y) return undefined;
  return { centre: a.centre, radius: distance(path.start, a.centre) };
}
