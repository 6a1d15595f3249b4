/** The points of an outline while they are edited: drawn with what the part puts about them, and written back as the maker typed them. */
import { drawOutline, type DrawnOutline } from "../../../geometry/drawn/outline.ts";
import { outlinePoint, wholeOutline, type OutlinePoint } from "../../../geometry/drawn/point.ts";
import {
  compose,
  inverse,
  rotation,
  transformPath,
  transformPoint,
  translation,
  type Affine,
} from "../../../geometry/transform.ts";
import { vec, type Vec } from "../../../geometry/vec.ts";
import type { Path } from "../../../geometry/path.ts";
import type { LoosePoints, PointOutline } from "../../../parts/contract.ts";
import type { Raw, RawRecord } from "../../../parts/derived.ts";

/** A point that remembers which entry of the list it was. */
export interface EditedPoint extends OutlinePoint {
  readonly source?: number;
}

export const edited = (points: readonly OutlinePoint[]): EditedPoint[] => points.map((point, source) => ({ ...point, source }));

/** The whole outline, in the list's own axes; side i of the list is side `before.length + i` of it. Loose points have none. */
export function drawnOf(outline: PointOutline, points: readonly OutlinePoint[]): DrawnOutline | undefined {
  return outline.loose ? undefined : drawOutline(wholeOutline({ ...outline, points }));
}

type Axes = Pick<PointOutline, "origin" | "turn">;
/** From the axes in which the points are measured to the drawing. */
const placing = ({ origin, turn = 0 }: Axes): Affine => compose(rotation(turn), translation(origin));

export const onBoard = (axes: Axes, path: Path): Path => transformPath(placing(axes), path);
export const pointOnBoard = (axes: Axes, { x, y }: Vec): Vec => transformPoint(placing(axes), vec(x, y));
/** A place of the drawing in the axes in which the points are measured. */
export const offBoard = (axes: Axes, at: Vec): Vec => transformPoint(inverse(placing(axes)), at);
/** A step on the drawing, in those axes. */
export const stepOffBoard = ({ turn = 0 }: Axes, by: Vec): Vec => (turn === 0 ? by : transformPoint(rotation(-turn), by));

/** What a drag or a key gives is kept to a hundredth of a millimetre: nobody means more. */
export const kept = (mm: number): number => Math.round(mm * 100) / 100 + 0;

const ANGLES: ReadonlySet<string> = new Set(["direction", "arriving"]);
const KEYS = Object.keys(outlinePoint(0, 0)) as (keyof OutlinePoint)[];
const PLAIN = outlinePoint(0, 0);

/** Numbers of a file: mm and degrees. */
const written = (key: string, value: unknown): Raw =>
  typeof value !== "number"
    ? value
    : ANGLES.has(key)
      ? Math.round((value * 18e6) / Math.PI) / 1e5
      : Math.round(value * 1e4) / 1e4;

/**
 * The list as it is to be saved. What has not changed since `before` keeps the maker's own words, formulas too; what has is written in mm
 * and degrees; what says nothing is left out.
 */
export function rawPoints(
  raw: Raw,
  before: readonly OutlinePoint[],
  now: readonly EditedPoint[],
  loose?: LoosePoints,
): RawRecord[] {
  return now.map((point) => {
    const was = point.source === undefined ? undefined : before[point.source];
    const typed = Array.isArray(raw) && point.source !== undefined ? ((raw[point.source] ?? {}) as RawRecord) : undefined;
    const record: Record<string, Raw> = { ...typed };
    if (loose) {
      for (const axis of ["x", "y"] as const)
        if (!typed || was?.[axis] !== point[axis]) record[loose[axis].key] = written(axis, loose[axis].sign * point[axis] + 0);
      return record;
    }
    for (const key of KEYS) {
      const same = was !== undefined && was[key] === point[key];
      if (same && typed) continue;
      const value = written(key, point[key]);
      if (value === undefined || (key !== "x" && key !== "y" && point[key] === PLAIN[key])) delete record[key];
      else record[key] = value;
    }
    return record;
  });
}
