import { cubic, type Path, type Segment } from "../path.ts";
import { partOf, type Piece } from "../segment.ts";
import { SAME_POINT } from "../tolerance.ts";
import { add, angleOf, distance, scale, sub, turned, vec, type Vec } from "../vec.ts";
import { clipCorner, roundCorner, type CutCorner } from "./corner.ts";
import { sidesOf, type Side } from "./directions.ts";
import { handleOf } from "./handles.ts";
import { placeOfPoint, type OutlinePoint } from "./point.ts";

/** Something that was asked for and cannot be had: drawn without it. */
export interface OutlineTrouble {
  /** `rounding`: no room at the corner; `arc`: a radius under half the side, or nothing to be tangent to. */
  readonly what: "rounding" | "arc";
  /** Index of the point. */
  readonly point: number;
}

export interface DrawnOutline {
  /** The closed outline. */
  readonly path: Path;
  /** The side from point i, before corners are cut; undefined where the next point is at the same place. */
  readonly sides: readonly (Piece | undefined)[];
  readonly troubles: readonly OutlineTrouble[];
}

/**
 * The closed outline through the points, in lines, true arcs and cubics. Undefined for fewer than two points apart, or where all of them
 * lie on one straight line.
 */
export function drawOutline(points: readonly OutlinePoint[]): DrawnOutline | undefined {
  const kept = apart(points);
  const n = kept.length;
  if (n < 2) return undefined;
  const own = kept.map((index) => points[index]!);
  const sides = sidesOf(own);
  const handles = own.map((point, i) => handlesAt(point, sides[(i + n - 1) % n]!, sides[i]!));
  const pieces = sides.map((side, i): Piece => ({
    from: side.from,
    segment: side.fixed ?? curveOf(side, handles[i]!.after, handles[(i + 1) % n]!.before),
  }));
  if (pieces.every(({ segment }) => segment.kind === "line") && isFlat(own)) return undefined;

  const troubles: OutlineTrouble[] = [];
  sides.forEach((side, i) => side.refused && troubles.push({ what: "arc", point: kept[i]! }));
  const cuts = cutCorners(own, pieces, (i) => troubles.push({ what: "rounding", point: kept[i]! }));
  const all: (Piece | undefined)[] = points.map(() => undefined);
  kept.forEach((index, i) => (all[index] = pieces[i]!));
  return { path: joined(pieces, cuts), sides: all, troubles: troubles.toSorted((a, b) => a.point - b.point) };
}

/** Indices of the points that are away from the one after them. */
function apart(points: readonly OutlinePoint[]): number[] {
  const kept: number[] = [];
  const near = (i: number, k: number | undefined): boolean =>
    k !== undefined && distance(placeOfPoint(points[i]!), placeOfPoint(points[k]!)) <= SAME_POINT;
  for (let i = points.length - 1; i >= 0; i--) if (!near(i, kept[0])) kept.unshift(i);
  while (kept.length > 1 && near(kept.at(-1)!, kept[0])) kept.pop();
  return kept;
}

/** The lengths of both handles at a point. */
function handlesAt(point: OutlinePoint, before: Side, after: Side): { readonly before: number; readonly after: number } {
  const own = { before: point.before ?? handleOf(before, "end"), after: point.after ?? handleOf(after, "start") };
  if (point.kind !== "even" || before.fixed || after.fixed) return own;
  const length = point.after ?? point.before ?? (own.before + own.after) / 2;
  return { before: length, after: length };
}

function curveOf(side: Side, after: number, before: number): Segment {
  const chord = angleOf(sub(side.to, side.from));
  const way = (angle: number): Vec => turned(vec(1, 0), chord + angle);
  return cubic(add(side.from, scale(way(side.leaving), after)), sub(side.to, scale(way(side.arriving), before)), side.to);
}

/** True where no three points span any area. */
function isFlat(points: readonly OutlinePoint[]): boolean {
  const a = points[0]!;
  const far = points.reduce(
    (best, p) => (Math.hypot(p.x - a.x, p.y - a.y) > Math.hypot(best.x - a.x, best.y - a.y) ? p : best),
    a,
  );
  const reach = Math.hypot(far.x - a.x, far.y - a.y);
  return points.every(
    (p) => Math.abs((far.x - a.x) * (p.y - a.y) - (far.y - a.y) * (p.x - a.x)) <= SAME_POINT * Math.max(reach, SAME_POINT),
  );
}

/** What is taken off each corner. Of two that meet on a side the larger goes, until all have room. */
function cutCorners(
  points: readonly OutlinePoint[],
  pieces: readonly Piece[],
  refuse: (i: number) => void,
): (CutCorner | undefined)[] {
  const n = pieces.length;
  const cuts = points.map((point, i) => {
    if (point.kind !== "corner" || !(point.rounding > 0)) return undefined;
    const [before, after] = [pieces[(i + n - 1) % n]!, pieces[i]!];
    const cut = (point.cut === "clip" ? clipCorner : roundCorner)(before, after, point.rounding);
    if (!cut) refuse(i);
    return cut;
  });
  for (;;) {
    const tight = pieces.findIndex((_, i) => (cuts[i]?.start ?? 0) > (cuts[(i + 1) % n]?.end ?? 1) + 1e-12);
    if (tight < 0) return cuts;
    const next = (tight + 1) % n;
    const goes = !cuts[next] || (cuts[tight] && points[tight]!.rounding > points[next]!.rounding) ? tight : next;
    cuts[goes] = undefined;
    refuse(goes);
  }
}

function joined(pieces: readonly Piece[], cuts: readonly (CutCorner | undefined)[]): Path {
  const n = pieces.length;
  const start = cuts[0]?.segment.to ?? pieces[0]!.from;
  const segments: Segment[] = [];
  let at = start;
  pieces.forEach((piece, i) => {
    const cut = cuts[(i + 1) % n];
    const [t0, t1] = [cuts[i]?.start ?? 0, cut?.end ?? 1];
    const end = cut?.from ?? piece.segment.to;
    if (t1 - t0 > 1e-12 && distance(at, end) > 0) {
      const { segment } = t0 > 0 || t1 < 1 ? partOf(piece, t0, t1) : piece;
      segments.push({ ...segment, to: end });
      at = end;
    }
    if (cut) {
      segments.push(cut.segment);
      at = cut.segment.to;
    }
  });
  return { start, segments: [...segments.slice(0, -1), { ...segments.at(-1)!, to: start }], closed: true };
}
