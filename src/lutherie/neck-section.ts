/**
 * The cross section of a neck's wood, cut square to the centre line and seen along the neck: x towards the treble side,
 * y up, 0 at the plane that the fingerboard is glued to, the back at -depth. Each side is a quarter of a superellipse
 *
 *   (|x - lean| / a)^p + (|y| / depth)^p = 1,   a = halfWidth - lean on the treble side, halfWidth + lean on the bass side
 *
 * p = 2 is an ellipse, p = 1 a flat flank, p > 2 fuller shoulders; from p = 1 up the section is convex. Half way down the
 * wood's depth it is (1 - 2^-p)^(1/p) as wide as on top. Source: the Lamé curve, any text on plane curves.
 */
import { integrate } from "../geometry/quadrature.ts";
import { arc, line, type Path, type Segment } from "../geometry/path.ts";
import { norm, vec, type Vec } from "../geometry/vec.ts";
import { curveSegments } from "../geometry/curve-path.ts";

/** Sizes of a section, mm, and the exponent of each side; `lean` moves the deepest line off the centre, above 0 to the treble side. */
export interface NeckSection {
  readonly halfWidth: number;
  readonly depth: number;
  readonly lean: number;
  readonly bassExponent: number;
  readonly trebleExponent: number;
}

/** A section with its place along the neck, mm from the nut. */
export interface NeckStation extends NeckSection {
  readonly x: number;
}

/** The trade's names as exponents. The words are common, the numbers our choice: nothing is published. */
export const NECK_SHAPES = { V: 1.5, "soft V": 1.75, C: 2, D: 2.4, U: 3 } as const;
export type NeckShape = keyof typeof NECK_SHAPES;

export const LEAST_EXPONENT = 1;
export const GREATEST_EXPONENT = 8;

/** How much of its top width a section with this exponent (1 to 8) has half way down. */
export function fractionAtHalfDepth(exponent: number): number {
  requireExponent(exponent);
  return (1 - 2 ** -exponent) ** (1 / exponent);
}

/** The exponent of a section that is this fraction of its top width half way down; undefined outside 0.5 (p 1) to 0.9995 (p 8). */
export function exponentFromHalfDepth(fraction: number): number | undefined {
  let low = LEAST_EXPONENT;
  let high = GREATEST_EXPONENT;
  if (!(fraction >= fractionAtHalfDepth(low) && fraction <= fractionAtHalfDepth(high))) return undefined;
  while (high - low > 1e-12) {
    const middle = (low + high) / 2;
    if (fractionAtHalfDepth(middle) < fraction) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * The section at `x` between two stations (or beyond them, on the same straight tapers): width and depth change along
 * straight lines, shoulders and lean too but no further than the stations go. RangeError where nothing would be left.
 */
export function sectionBetween(first: NeckStation, second: NeckStation, x: number): NeckSection {
  if (!(first.x !== second.x) || !Number.isFinite(x)) throw new RangeError("sectionBetween: needs two stations and a place");
  const t = (x - first.x) / (second.x - first.x);
  const held = Math.min(Math.max(t, 0), 1);
  const section: NeckSection = {
    halfWidth: blend(first.halfWidth, second.halfWidth, t),
    depth: blend(first.depth, second.depth, t),
    lean: blend(first.lean, second.lean, held),
    bassExponent: blend(first.bassExponent, second.bassExponent, held),
    trebleExponent: blend(first.trebleExponent, second.trebleExponent, held),
  };
  requireSection(section);
  return section;
}

const blend = (a: number, b: number, k: number): number => a + (b - a) * k;

/** One side of a section as a quarter curve about (lean, 0): `a` across, `d` down, sign +1 on the treble side. */
export interface SectionSide {
  readonly sign: 1 | -1;
  readonly a: number;
  readonly d: number;
  readonly p: number;
  readonly lean: number;
}

/** Both sides, bass first. RangeError for a section that has no size or leans out of itself. */
export function sidesOf(section: NeckSection): readonly [SectionSide, SectionSide] {
  requireSection(section);
  const { halfWidth, depth, lean, bassExponent, trebleExponent } = section;
  return [
    { sign: -1, a: halfWidth + lean, d: depth, p: bassExponent, lean },
    { sign: 1, a: halfWidth - lean, d: depth, p: trebleExponent, lean },
  ];
}

/** The side's point at `angle` about (lean, 0), from 0 on the glue plane to pi/2 on the back. */
export function sidePoint({ sign, a, d, p, lean }: SectionSide, angle: number): Vec {
  const c = Math.max(Math.cos(angle), 0);
  const s = Math.sin(angle);
  const r = ((c / a) ** p + (s / d) ** p) ** (-1 / p);
  return vec(lean + sign * r * c, -r * s);
}

/** Unit direction from the glue plane towards the back at the same angle: square to the gradient of the curve's equation. */
export function sideDirection({ sign, a, d, p }: SectionSide, angle: number): Vec {
  const across = (Math.max(Math.cos(angle), 0) / a) ** (p - 1) / a;
  const down = (Math.max(Math.sin(angle), 0) / d) ** (p - 1) / d;
  const n = norm(vec(across, down));
  return vec((-sign * down) / n, -across / n);
}

/** The section's point at `height` (0 on the glue plane down to -depth) on the side of `sign`. */
export function pointAtHeight(section: NeckSection, height: number, sign: 1 | -1): Vec {
  const side = sidesOf(section)[sign < 0 ? 0 : 1];
  const share = -height / side.d;
  if (!(share >= 0 && share <= 1)) throw new RangeError("pointAtHeight: the height must lie within the section");
  return vec(side.lean + sign * side.a * (1 - share ** side.p) ** (1 / side.p), height);
}

/** Area of the section, mm²: half the integral of r² over the angle, to 1e-8. */
export const sectionArea = (section: NeckSection): number =>
  sidesOf(section).reduce((sum, { a, d, p }) => {
    const half = (angle: number): number => ((Math.cos(angle) / a) ** p + (Math.sin(angle) / d) ** p) ** (-2 / p) / 2;
    return sum + integrate(half, 0, Math.PI / 2, 1e-8);
  }, 0);

/**
 * The section's curve from its bass edge over the back to its treble edge, as an open path within `tolerance` mm (0.001
 * unless given). A round side is a true arc, a flat flank a straight line.
 */
export function sectionPath(section: NeckSection, tolerance = 1e-3): Path {
  const [bass, treble] = sidesOf(section);
  const back = vec(section.lean, -section.depth);
  return {
    start: vec(-section.halfWidth, 0),
    segments: [
      ...sideSegments(bass, true, back, tolerance),
      ...sideSegments(treble, false, vec(section.halfWidth, 0), tolerance),
    ],
    closed: false,
  };
}

function sideSegments(side: SectionSide, downwards: boolean, to: Vec, tolerance: number): Segment[] {
  if (side.p === 1) return [line(to)];
  if (side.p === 2 && side.a === side.d) return [arc(to, vec(side.lean, 0), true)];
  const curve = { at: (angle: number) => sidePoint(side, angle), direction: (angle: number) => sideDirection(side, angle) };
  const quarter = Math.PI / 2;
  const segments = curveSegments(curve, downwards ? 0 : quarter, downwards ? quarter : 0, tolerance);
  // The ends are known exactly; the cosine of a quarter turn is not quite 0.
  const last = segments.at(-1);
  return last ? [...segments.slice(0, -1), { ...last, to }] : [line(to)];
}

function requireExponent(p: number): void {
  if (!(p >= LEAST_EXPONENT && p <= GREATEST_EXPONENT)) {
    throw new RangeError(`neck section: an exponent must be between ${LEAST_EXPONENT} and ${GREATEST_EXPONENT}`);
  }
}

function requireSection({ halfWidth, depth, lean, bassExponent, trebleExponent }: NeckSection): void {
  if (!(halfWidth > 0 && halfWidth < Infinity && depth > 0 && depth < Infinity)) {
    throw new RangeError("neck section: width and depth must be above 0");
  }
  if (!(Math.abs(lean) < halfWidth)) throw new RangeError("neck section: the lean must stay within the section");
  requireExponent(bassExponent);
  requireExponent(trebleExponent);
}
