import { arcRadius, arcSweep } from "./arc.ts";
import { bernsteinProduct, bernsteinRoots } from "./bernstein.ts";
import { cubicPoints } from "./bezier.ts";
import { boundsMeet, type Bounds } from "./bounds.ts";
import { crossCurves } from "./cross-curves.ts";
import { segmentPath, type Arc, type Cubic, type Line, type Path } from "./path.ts";
import { boxedPiecesOf, pieceBounds, pointAt, type Piece } from "./segment.ts";
import { CROSSING, PARALLEL_SINE } from "./tolerance.ts";
import { add, cross, distance, dot, leftOf, norm, scale, sub, unit, vec, type Vec } from "./vec.ts";

/** A common point of two pieces and its parameter on each. */
export interface Meeting {
  readonly point: Vec;
  readonly s: number;
  readonly t: number;
}

/** A common point of two paths: the segment's index and parameter on each. */
export interface Crossing extends Meeting {
  readonly first: number;
  readonly second: number;
}

type Of<S> = { readonly from: Vec; readonly segment: S };

/**
 * The points that both pieces share, by rising s. Crossings and touches within 1e-9 mm; where two lines or two arcs of one circle run on
 * each other, the ends of the shared stretch. Two cubics that run on each other, and touches of cubics without crossing, are found only
 * as far as rounding lets them.
 */
export function intersectPieces(a: Piece, b: Piece): Meeting[] {
  return boundsMeet(pieceBounds(a), pieceBounds(b), CROSSING) ? meetings(a, b) : [];
}

/** The same of two pieces whose boxes meet. */
const meetings = (a: Piece, b: Piece): Meeting[] => distinct(meet(a, b)).toSorted((m, n) => m.s - n.s);

/** The points that two paths share, joints of segments reported once, in order along `a`. */
export function intersectPaths(a: Path, b: Path): Crossing[] {
  const others = boxedPiecesOf(b);
  const found: Crossing[] = [];
  for (const [first, { piece, box }] of boxedPiecesOf(a).entries()) {
    const here: Crossing[] = [];
    for (const [second, other] of others.entries()) {
      if (!boundsMeet(box, other.box, CROSSING)) continue;
      for (const meeting of meetings(piece, other.piece)) {
        if (![...found, ...here].some((known) => distance(known.point, meeting.point) <= 10 * CROSSING))
          here.push({ ...meeting, first, second });
      }
    }
    found.push(...here.toSorted((m, n) => m.s - n.s));
  }
  return found;
}

/**
 * Distances along the ray from `origin` in `direction` (any length but 0) at which it meets the paths, rising, in mm; a start on a path
 * counts as 0.
 */
export function rayHits(paths: readonly Path[], origin: Vec, direction: Vec): number[] {
  const way = unit(direction);
  const reach = Math.max(0, ...paths.flatMap(boxedPiecesOf).map(({ box }) => farthestIn(box, origin)));
  if (reach === 0) return [];
  const ray = segmentPath(origin, add(origin, scale(way, reach)));
  return paths
    .flatMap((path) => intersectPaths(ray, path))
    .map(({ s }) => s * reach)
    .toSorted((s, t) => s - t)
    .filter((s, i, all) => i === 0 || s - all[i - 1]! > 10 * CROSSING);
}

/** No point of the box is farther away. */
const farthestIn = ({ minX, minY, maxX, maxY }: Bounds, from: Vec): number =>
  norm(vec(Math.max(from.x - minX, maxX - from.x), Math.max(from.y - minY, maxY - from.y)));

/** Where the endless lines through `p` along `u` and through `q` along `v` meet; undefined where they are parallel. */
export function meetLines(p: Vec, u: Vec, q: Vec, v: Vec): Vec | undefined {
  const sine = cross(u, v);
  if (Math.abs(sine) <= PARALLEL_SINE * norm(u) * norm(v)) return undefined;
  return add(p, scale(u, cross(sub(q, p), v) / sine));
}

function meet(a: Piece, b: Piece): Meeting[] {
  const [s, t] = [a.segment, b.segment];
  if (s.kind === "line" && t.kind === "line") return lineLine({ from: a.from, segment: s }, { from: b.from, segment: t });
  if (s.kind === "line" && t.kind === "arc") return lineArc({ from: a.from, segment: s }, { from: b.from, segment: t });
  if (s.kind === "line" && t.kind === "cubic") return lineCubic({ from: a.from, segment: s }, { from: b.from, segment: t });
  if (s.kind === "arc" && t.kind === "arc") return arcArc({ from: a.from, segment: s }, { from: b.from, segment: t });
  if (s.kind === "arc" && t.kind === "cubic") return arcCubic({ from: a.from, segment: s }, { from: b.from, segment: t });
  if (s.kind === "cubic" && t.kind === "cubic") return crossCurves(a, b);
  return meet(b, a).map((m) => ({ point: m.point, s: m.t, t: m.s }));
}

/** `t` drawn to [0, 1] where it misses by no more than `slack`; undefined further out. */
const clamp = (t: number, slack: number): number | undefined =>
  t < -slack || t > 1 + slack ? undefined : Math.min(1, Math.max(0, t));

/** Parameter of p on a line, if p's foot lies on it. */
function onLine({ from, segment }: Of<Line>, p: Vec): number | undefined {
  const along = sub(segment.to, from);
  const length = norm(along);
  return length > 0 ? clamp(dot(sub(p, from), along) / (length * length), CROSSING / length) : undefined;
}

/** Parameter of p, a point of the arc's circle, if it lies on the arc. */
function onArc({ from, segment }: Of<Arc>, p: Vec): number | undefined {
  const sweep = arcSweep(from, segment);
  const u = sub(from, segment.centre);
  const v = sub(p, segment.centre);
  const angle = Math.atan2(cross(u, v), dot(u, v)) * Math.sign(sweep);
  const size = Math.abs(sweep);
  const slack = CROSSING / arcRadius(from, segment);
  for (const ahead of [angle, angle + 2 * Math.PI]) {
    const t = size > 0 ? clamp(ahead / size, slack / size) : undefined;
    if (t !== undefined) return t;
  }
  return undefined;
}

function lineLine(a: Of<Line>, b: Of<Line>): Meeting[] {
  const u = sub(a.segment.to, a.from);
  const v = sub(b.segment.to, b.from);
  const point = meetLines(a.from, u, b.from, v);
  if (point) {
    const s = onLine(a, point);
    const t = onLine(b, point);
    return s === undefined || t === undefined ? [] : [{ point, s, t }];
  }
  // Parallel: the ends that lie on the other line.
  const length = norm(u);
  if (!(length > 0) || Math.abs(cross(u, sub(b.from, a.from))) / length > CROSSING) return [];
  const found: Meeting[] = [];
  for (const [end, point] of [a.from, a.segment.to].entries()) {
    const t = onLine(b, point);
    if (t !== undefined) found.push({ point, s: end, t });
  }
  for (const [end, point] of [b.from, b.segment.to].entries()) {
    const s = onLine(a, point);
    if (s !== undefined) found.push({ point, s, t: end });
  }
  return found;
}

function lineArc(a: Of<Line>, b: Of<Arc>): Meeting[] {
  const along = sub(a.segment.to, a.from);
  const length = norm(along);
  if (!(length > 0)) return [];
  const u = scale(along, 1 / length);
  const radius = arcRadius(b.from, b.segment);
  const away = cross(u, sub(b.segment.centre, a.from));
  if (Math.abs(away) > radius + CROSSING) return [];
  const foot = dot(sub(b.segment.centre, a.from), u);
  const half = Math.sqrt(Math.max(0, radius * radius - away * away));
  return [foot - half, foot + half].flatMap((reach) => {
    const point = add(a.from, scale(u, reach));
    const s = clamp(reach / length, CROSSING / length);
    const t = onArc(b, point);
    return s === undefined || t === undefined ? [] : [{ point, s, t }];
  });
}

function arcArc(a: Of<Arc>, b: Of<Arc>): Meeting[] {
  const p = arcRadius(a.from, a.segment);
  const q = arcRadius(b.from, b.segment);
  const across = sub(b.segment.centre, a.segment.centre);
  const d = norm(across);
  const both = (point: Vec): Meeting[] => {
    const s = onArc(a, point);
    const t = onArc(b, point);
    return s === undefined || t === undefined ? [] : [{ point, s, t }];
  };
  if (d <= CROSSING) {
    if (Math.abs(p - q) > CROSSING) return [];
    return [a.from, a.segment.to, b.from, b.segment.to].flatMap(both);
  }
  if (d > p + q + CROSSING || d < Math.abs(p - q) - CROSSING) return [];
  const reach = (d * d + p * p - q * q) / (2 * d);
  const half = Math.sqrt(Math.max(0, p * p - reach * reach));
  const u = scale(across, 1 / d);
  const foot = add(a.segment.centre, scale(u, reach));
  return [half, -half].flatMap((h) => both(add(foot, scale(leftOf(u), h))));
}

function lineCubic(a: Of<Line>, b: Of<Cubic>): Meeting[] {
  const along = sub(a.segment.to, a.from);
  if (!(norm(along) > 0)) return [];
  const heights = cubicPoints(b.from, b.segment).map((p) => cross(along, sub(p, a.from)));
  return bernsteinRoots(heights).flatMap((t) => {
    const point = pointAt(b, t);
    const s = onLine(a, point);
    return s === undefined ? [] : [{ point, s, t }];
  });
}

function arcCubic(a: Of<Arc>, b: Of<Cubic>): Meeting[] {
  const radius = arcRadius(a.from, a.segment);
  const spokes = cubicPoints(b.from, b.segment).map((p) => sub(p, a.segment.centre));
  const x = spokes.map((p) => p.x);
  const y = spokes.map((p) => p.y);
  const yy = bernsteinProduct(y, y);
  // |B(t) - centre|^2 - r^2, of degree 6; a constant has the same coefficient throughout.
  return bernsteinRoots(bernsteinProduct(x, x).map((value, i) => value + yy[i]! - radius * radius)).flatMap((t) => {
    const point = pointAt(b, t);
    const s = onArc(a, point);
    return s === undefined ? [] : [{ point, s, t }];
  });
}

const distinct = (meetings: readonly Meeting[]): Meeting[] =>
  meetings.filter((m, i) => meetings.findIndex((n) => distance(m.point, n.point) <= 10 * CROSSING) === i);
