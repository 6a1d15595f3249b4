/** What can be done to the chosen points, each as a new list with the points chosen afterwards. */
import {
  insertPoint,
  joinPoints,
  movePoints,
  removePoints,
  riseThrough,
  scalePoints,
  splitPoint,
  withKind,
} from "../../../geometry/drawn/edit.ts";
import { fairRun } from "../../../geometry/drawn/fairing.ts";
import { isSmooth, outlinePoint, placeOfPoint, type PointKind, type SideKind } from "../../../geometry/drawn/point.ts";
import { boundsOfPoints, type Bounds } from "../../../geometry/bounds.ts";
import { tangentAt } from "../../../geometry/segment.ts";
import { add, lerp, vec, type Vec } from "../../../geometry/vec.ts";
import type { PointOutline } from "../../../parts/contract.ts";
import { drawnOf, edited, kept, type EditedPoint } from "./points.ts";

export interface Edit {
  readonly points: readonly EditedPoint[];
  readonly chosen: ReadonlySet<number>;
}

const rounded = (at: Vec): Vec => vec(kept(at.x), kept(at.y));

export const start = (outline: PointOutline, chosen: ReadonlySet<number>): Edit => ({ points: edited(outline.points), chosen });

export const moved = (edit: Edit, by: Vec): Edit => ({
  ...edit,
  points: movePoints(edit.points, edit.chosen, (at) => rounded(add(at, by))),
});

/** A point in the middle of the side that leads on from the last chosen point. */
export function inserted(outline: PointOutline, { points, chosen }: Edit): Edit | undefined {
  const index = Math.max(...chosen);
  return Number.isFinite(index) ? insertedAt(outline, points, index, 0.5) : undefined;
}

export function insertedAt(outline: PointOutline, points: readonly EditedPoint[], index: number, t: number): Edit | undefined {
  if (outline.loose) return insertedLoose(points, index);
  const piece = drawnOf(outline, points)?.sides[outline.before.length + index];
  if (!piece) return undefined;
  // The last side of a list may lead to a point that is not of it, and then only its own end is told of the cut.
  const isLast = index === points.length - 1 && (outline.mirrored || outline.after.length > 0 || outline.before.length > 0);
  const list = isLast ? [...points, { ...points[index]!, ...piece.segment.to }] : points;
  const more: readonly EditedPoint[] = insertPoint<EditedPoint>(list, index, piece, t, (point) => point);
  const now = isLast ? more.slice(0, -1) : more;
  return {
    points: now.map((point, i) => (i === index + 1 ? { ...point, x: kept(point.x), y: kept(point.y) } : point)),
    chosen: new Set([index + 1]),
  };
}

/** Half way to the next point, or as far beyond the last one as it is from the one before. */
function insertedLoose(points: readonly EditedPoint[], index: number): Edit | undefined {
  const [before, here, next] = [points[index - 1], points[index], points[index + 1]];
  if (!here || !(next ?? before)) return undefined;
  const at = next ? lerp(here, next, 0.5) : lerp(before!, here, 2);
  return { points: points.toSpliced(index + 1, 0, outlinePoint(kept(at.x), kept(at.y))), chosen: new Set([index + 1]) };
}

export function removed({ points, chosen }: Edit): Edit {
  const left = removePoints(points, chosen);
  return left === points ? { points, chosen } : { points: left, chosen: new Set([Math.max(0, Math.min(...chosen) - 1)]) };
}

export function joined({ points, chosen }: Edit): Edit | undefined {
  const index = Math.min(...chosen);
  return points[index] && index < points.length - 1 ? { points: joinPoints(points, index), chosen: new Set([index]) } : undefined;
}

/** The first chosen point drawn apart into two, with a straight side of `length` between them. */
export function split(outline: PointOutline, { points, chosen }: Edit, length: number): Edit | undefined {
  const index = Math.min(...chosen);
  const piece = drawnOf(outline, points)?.sides[outline.before.length + index];
  const way = piece && tangentAt(piece, 0);
  if (!points[index] || !way) return undefined;
  return { points: splitPoint<EditedPoint>(points, index, way, length, (point) => point), chosen: new Set([index, index + 1]) };
}

export const ofKind = (edit: Edit, kind: PointKind): Edit => ({ ...edit, points: withKind(edit.points, edit.chosen, kind) });

export const withSide = ({ points, chosen }: Edit, side: SideKind): Edit => ({
  chosen,
  points: points.map((point, i) =>
    chosen.has(i) && point.side !== side ? { ...point, side, radius: undefined, rise: undefined } : point,
  ),
});

/** The chosen points made level with each other, or set across from each other, at the mean. */
export function aligned({ points, chosen }: Edit, axis: "x" | "y"): Edit {
  const places = [...chosen].flatMap((i) => points[i]?.[axis] ?? []);
  const mean = kept(places.reduce((sum, value) => sum + value, 0) / places.length);
  return { chosen, points: movePoints(points, chosen, (at) => ({ ...at, [axis]: mean })) };
}

/** The box about the chosen points. */
export const boxOf = ({ points, chosen }: Edit): Bounds =>
  boundsOfPoints([...chosen].flatMap((i) => (points[i] ? [placeOfPoint(points[i])] : [])));

/** The chosen points scaled about the middle of their box, by `kx` along the centre line and `ky` across it. */
export function scaled(edit: Edit, kx: number, ky = kx): Edit {
  const { points, chosen } = edit;
  const box = boxOf(edit);
  const still = vec((box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2);
  return {
    chosen,
    points: scalePoints(points, chosen, still, kx, ky).map((p, i) => (chosen.has(i) ? { ...p, x: kept(p.x), y: kept(p.y) } : p)),
  };
}

/** The side from a point made an arc that bows out to the right by `rise` mm. */
export const bowed = ({ points, chosen }: Edit, index: number, rise: number): Edit => ({
  chosen,
  points: points.map((point, i) => (i === index ? { ...point, side: "arc", radius: undefined, rise: kept(rise) } : point)),
});

/** Of three chosen points in a row the middle one becomes a place on a true arc between the others. */
export function arcThroughThree({ points, chosen }: Edit): Edit | undefined {
  const [a, b, c] = [...chosen].toSorted((p, q) => p - q);
  const [from, via, to] = [points[a ?? -1], points[b ?? -1], points[c ?? -1]];
  if (chosen.size !== 3 || !from || !via || !to || a === undefined || b !== a + 1 || c !== a + 2) return undefined;
  const rise = riseThrough(placeOfPoint(from), placeOfPoint(via), placeOfPoint(to));
  if (rise === undefined) return undefined;
  const arc: EditedPoint = { ...from, side: "arc", radius: undefined, rise };
  return { points: points.toSpliced(a, 2, arc), chosen: new Set([a, a + 1]) };
}

/**
 * Runs made fair within `deviation` mm: between the first and the last chosen point if four or more are chosen, else every run of fair and
 * even points with its ends. Directions that were set are let go, since they belong to the old run.
 */
export function faired({ points, chosen }: Edit, deviation: number): Edit & { readonly moved: number } {
  const now = [...points];
  let most = 0;
  for (const [from, to] of runsOf(points, chosen)) {
    const { points: fair, moved: reach } = fairRun(points.slice(from, to + 1).map(placeOfPoint), deviation);
    most = Math.max(most, reach);
    // Rounding to hundredths must not carry a point beyond what was stated.
    fair.forEach((at, i) => {
      const point = points[from + i]!;
      const near = rounded(at);
      const place = Math.hypot(near.x - point.x, near.y - point.y) <= deviation ? near : at;
      const inner = i > 0 && i < fair.length - 1;
      now[from + i] = { ...point, ...place, ...(inner ? { direction: undefined, before: undefined, after: undefined } : {}) };
    });
  }
  return { points: now, chosen, moved: most };
}

function runsOf(points: readonly EditedPoint[], chosen: ReadonlySet<number>): (readonly [number, number])[] {
  if (chosen.size >= 4) return [[Math.min(...chosen), Math.max(...chosen)]];
  const runs: [number, number][] = [];
  let from = 0;
  for (let i = 1; i < points.length; i++) {
    if (isSmooth(points[i]!) && i < points.length - 1) continue;
    if (i - from >= 3) runs.push([from, i]);
    from = i;
  }
  return runs;
}
