/**
 * Changes to a list of outline points. Each gives a new list; points that stay as they are stay the same objects, and what else the
 * points carry goes with them.
 */
import { arcRise, arcThrough } from "../arc.ts";
import { cubicPoints, splitCubic } from "../bezier.ts";
import { pointAt, tangentAt, type Piece } from "../segment.ts";
import { add, angleOf, distance, norm, scale, sub, type Vec } from "../vec.ts";
import { isSmooth, outlinePoint, placeOfPoint, type OutlinePoint, type PointKind } from "./point.ts";

/**
 * A new point on the side from point `index` at t in (0, 1) of its piece; the outline does not move. `P` comes of `own`, which gives the
 * new point what else a point carries.
 */
export function insertPoint<P extends OutlinePoint>(
  points: readonly P[],
  index: number,
  piece: Piece,
  t: number,
  own: (point: OutlinePoint) => P,
): P[] {
  const point = points[index]!;
  const nextIndex = (index + 1) % points.length;
  const at = pointAt(piece, t);
  const changed = [...points];
  const inserted = (given: Partial<OutlinePoint>): P => own(outlinePoint(at.x, at.y, { side: point.side, ...given }));
  const { from, segment } = piece;
  if (segment.kind === "cubic") {
    const [first, second] = splitCubic(cubicPoints(from, segment), t);
    const along = (a: Vec, b: Vec): number => angleOf(sub(b, a));
    const middle = tangentAt(piece, t);
    changed[index] = withLeaving(point, along(first[0], first[1]), distance(first[0], first[1]));
    if (nextIndex !== index)
      changed[nextIndex] = withArriving(changed[nextIndex]!, along(second[2], second[3]), distance(second[2], second[3]));
    changed.splice(
      index + 1,
      0,
      inserted({
        kind: "fair",
        ...(middle ? { direction: angleOf(middle) } : {}),
        before: distance(first[2], first[3]),
        after: distance(second[0], second[1]),
      }),
    );
    return changed;
  }
  if (segment.kind === "arc") {
    // Both parts keep the radius by their rise, which bears arcs of more than half a turn too.
    const risesOf = (a: Vec, b: Vec): number => {
      const rise = arcRise(a, { ...segment, to: b });
      return segment.ccw ? rise : -rise;
    };
    changed[index] = { ...point, radius: undefined, rise: risesOf(from, at) };
    changed.splice(index + 1, 0, inserted({ radius: undefined, rise: risesOf(at, segment.to) }));
    return changed;
  }
  changed.splice(index + 1, 0, inserted({}));
  return changed;
}

const withLeaving = <P extends OutlinePoint>(point: P, direction: number, after: number): P => ({
  ...unevened(point),
  direction,
  after,
});

const withArriving = <P extends OutlinePoint>(point: P, direction: number, before: number): P => ({
  ...unevened(point),
  ...(isSmooth(point) ? { direction } : { arriving: direction }),
  before,
});

/** Handles of different lengths at an even point make it a fair one. */
const unevened = <P extends OutlinePoint>(point: P): P => (point.kind === "even" ? { ...point, kind: "fair" } : point);

/** The list without the points at `indices`; at least two stay, else nothing is taken out. */
export function removePoints<P>(points: readonly P[], indices: ReadonlySet<number>): readonly P[] {
  const left = points.filter((_, i) => !indices.has(i));
  return left.length < 2 || left.length === points.length ? points : left;
}

/** The point `index` and the next one made one, at the middle between them. Of two points nothing is left to join. */
export function joinPoints<P extends OutlinePoint>(points: readonly P[], index: number): readonly P[] {
  if (points.length < 3) return points;
  const next = (index + 1) % points.length;
  const [a, b] = [points[index]!, points[next]!];
  const joined: P = {
    ...a,
    x: (a.x + b.x) / 2,
    y: (a.y + b.y) / 2,
    // The side that leads on is that of the second.
    side: b.side,
    radius: b.radius,
    rise: b.rise,
    direction: undefined,
    arriving: undefined,
    before: a.before,
    after: b.after,
  };
  return points.flatMap((point, i) => (i === next ? [] : i === index ? [joined] : [point]));
}

/** The point drawn apart into two, a straight side of `length` mm between them, laid along the way in which the outline passes it. */
export function splitPoint<P extends OutlinePoint>(
  points: readonly P[],
  index: number,
  direction: Vec,
  length: number,
  own: (point: OutlinePoint) => P,
): P[] {
  const point = points[index]!;
  const half = scale(direction, length / 2 / norm(direction));
  const [a, b] = [sub(placeOfPoint(point), half), add(placeOfPoint(point), half)];
  const first: P = { ...point, x: a.x, y: a.y, side: "straight", radius: undefined, rise: undefined, after: undefined };
  const second = own({ ...outlinePoint(b.x, b.y), kind: point.kind, side: point.side, radius: point.radius, rise: point.rise });
  return points.toSpliced(index, 1, first, second);
}

/** The points at `indices` made of one kind; what the new kind does not know is let go. */
export const withKind = <P extends OutlinePoint>(points: readonly P[], indices: ReadonlySet<number>, kind: PointKind): P[] =>
  points.map((point, i) =>
    !indices.has(i) || point.kind === kind
      ? point
      : {
          ...point,
          kind,
          rounding: kind === "corner" ? point.rounding : 0,
          arriving: kind === "corner" ? point.direction : undefined,
          ...(kind === "even" ? { before: undefined, after: undefined } : {}),
        },
  );

/** The points at `indices` carried elsewhere. */
export const movePoints = <P extends OutlinePoint>(
  points: readonly P[],
  indices: ReadonlySet<number>,
  to: (at: Vec, i: number) => Vec,
): P[] =>
  points.map((point, i) => {
    if (!indices.has(i)) return point;
    const { x, y } = to(placeOfPoint(point), i);
    return x === point.x && y === point.y ? point : { ...point, x, y };
  });

/** The points at `indices` scaled by `kx` along x and `ky` along y about `still`; handles and radii grow with an even scale. */
export function scalePoints<P extends OutlinePoint>(
  points: readonly P[],
  indices: ReadonlySet<number>,
  still: Vec,
  kx: number,
  ky: number,
): P[] {
  const even = kx === ky ? kx : undefined;
  const grown = (length: number | undefined): number | undefined =>
    length === undefined || even === undefined ? undefined : length * even;
  return points.map((point, i) =>
    indices.has(i)
      ? {
          ...point,
          x: still.x + (point.x - still.x) * kx,
          y: still.y + (point.y - still.y) * ky,
          ...(even === undefined ? {} : { rounding: point.rounding * even }),
          before: grown(point.before),
          after: grown(point.after),
        }
      : point,
  );
}

/** How far an arc from `from` through `via` to `to` bows out to the right of its chord, mm; undefined where the three stand in a line. */
export function riseThrough(from: Vec, via: Vec, to: Vec): number | undefined {
  const found = arcThrough(from, via, to);
  return found && (found.ccw ? arcRise(from, found) : -arcRise(from, found));
}
