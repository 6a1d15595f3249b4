import { arcAsCubics } from "./arc.ts";
import { arc, cubic, line, type Path, type Segment } from "./path.ts";
import type { Outline } from "./outline.ts";
import { piecesOf, reversePath } from "./segment.ts";
import { ARC_AS_CUBICS } from "./tolerance.ts";
import { ORIGIN, sub, vec, type Vec } from "./vec.ts";

/** x' = a x + c y + e, y' = b x + d y + f: the six numbers in the order of the SVG `matrix`. */
export interface Affine {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

export const IDENTITY: Affine = { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 };

/** Moves by `by`, mm. */
export const translation = (by: Vec): Affine => ({ ...IDENTITY, e: by.x, f: by.y });

/** Holds `about` still while the linear part acts. */
const about = (a: number, b: number, c: number, d: number, still: Vec): Affine => ({
  a,
  b,
  c,
  d,
  e: still.x - a * still.x - c * still.y,
  f: still.y - b * still.x - d * still.y,
});

/** Turns by `angle` radians, counter-clockwise, about `still`. */
export function rotation(angle: number, still: Vec = ORIGIN): Affine {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  return about(c, s, -s, c, still);
}

/** Scales x by `kx` and y by `ky` (the same unless given) about `still`. */
export const scaling = (kx: number, ky: number = kx, still: Vec = ORIGIN): Affine => about(kx, 0, 0, ky, still);

/** Mirrors in the line through `p` along `direction` (not the zero vector). */
export function mirroring(p: Vec, direction: Vec): Affine {
  const angle = 2 * Math.atan2(direction.y, direction.x);
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  return about(c, s, s, -c, p);
}

/** The map that does `first`, then the others in order. */
export const compose = (first: Affine, ...then: readonly Affine[]): Affine =>
  then.reduce(
    (m, n) => ({
      a: n.a * m.a + n.c * m.b,
      b: n.b * m.a + n.d * m.b,
      c: n.a * m.c + n.c * m.d,
      d: n.b * m.c + n.d * m.d,
      e: n.a * m.e + n.c * m.f + n.e,
      f: n.b * m.e + n.d * m.f + n.f,
    }),
    first,
  );

/** Area factor, negative where the map mirrors. */
export const determinant = (m: Affine): number => m.a * m.d - m.b * m.c;

/** The map that undoes `m`. Throws where `m` flattens the plane. */
export function inverse(m: Affine): Affine {
  const k = determinant(m);
  if (!(Math.abs(k) > 0) || !Number.isFinite(k)) throw new RangeError("inverse: the map flattens the plane");
  const [a, b, c, d] = [m.d / k, -m.b / k, -m.c / k, m.a / k];
  return { a, b, c, d, e: -(a * m.e + c * m.f), f: -(b * m.e + d * m.f) };
}

/** True where circles stay circles: turns, moves, mirrors and even scales. */
export function isSimilarity(m: Affine): boolean {
  const size = Math.max(Math.abs(m.a), Math.abs(m.b), Math.abs(m.c), Math.abs(m.d));
  const slack = size * 1e-12;
  return (
    (Math.abs(m.a - m.d) <= slack && Math.abs(m.b + m.c) <= slack) ||
    (Math.abs(m.a + m.d) <= slack && Math.abs(m.b - m.c) <= slack)
  );
}

export const transformPoint = (m: Affine, p: Vec): Vec => vec(m.a * p.x + m.c * p.y + m.e, m.b * p.x + m.d * p.y + m.f);

/** The vector `v` turned and scaled, not moved. */
export const transformVector = (m: Affine, v: Vec): Vec => sub(transformPoint(m, v), vec(m.e, m.f));

/**
 * The path carried over. Lines and cubics exactly; arcs stay arcs under a similarity (a mirror flips their sense) and become cubics
 * within 0.00001 mm under any other map. A mirror also turns the path's winding; reverse it where that matters.
 */
export function transformPath(m: Affine, path: Path): Path {
  const flips = determinant(m) < 0;
  const segments = isSimilarity(m) ? path.segments : withoutArcs(path, Math.max(1, Math.hypot(m.a, m.b), Math.hypot(m.c, m.d)));
  return {
    start: transformPoint(m, path.start),
    segments: segments.map((segment) => carried(m, flips, segment)),
    closed: path.closed,
  };
}

function carried(m: Affine, flips: boolean, segment: Segment): Segment {
  const to = transformPoint(m, segment.to);
  switch (segment.kind) {
    case "line":
      return line(to);
    case "cubic":
      return cubic(transformPoint(m, segment.c1), transformPoint(m, segment.c2), to);
    case "arc":
      return arc(to, transformPoint(m, segment.centre), segment.ccw !== flips);
  }
}

/** The path carried over; a closed one keeps its turning direction, also in a mirror. */
export function carryPath(m: Affine, path: Path): Path {
  const made = transformPath(m, path);
  return path.closed && determinant(m) < 0 ? reversePath(made) : made;
}

/** The outline carried over, its paths turning as before. */
export const transformOutline = (m: Affine, { outer, holes }: Outline): Outline => ({
  outer: carryPath(m, outer),
  holes: holes.map((hole) => carryPath(m, hole)),
});

/** The path's segments with cubics for arcs, close enough for what stretches them that far. */
const withoutArcs = (path: Path, stretch: number): Segment[] =>
  piecesOf(path).flatMap(({ from, segment }): readonly Segment[] =>
    segment.kind === "arc" ? arcAsCubics(from, segment, ARC_AS_CUBICS / stretch) : [segment],
  );
