/**
 * The shoulders of a neck from points taken off it with a contour gauge: for each side the exponent whose curve the points miss by the
 * least squares, width, depth and lean given. A trace on paper lies turned and moved; then the turn and the move are found with the
 * exponents. Above the glue plane a gauge runs along the edges of the board, upright through the section's own edges.
 *
 * Source: least squares of the distances square to the curve, by Levenberg and Marquardt (J. Nocedal, S. Wright, Numerical Optimization,
 * 2nd ed., 10.3, from memory). How a distance grows with a number follows from the curve's equation F = 0 at the foot: by the normal
 * grad F / |grad F| with a move, by (dF/dp) / |grad F| with an exponent.
 */
import { compose, rotation, transformPoint, translation, type Affine } from "../geometry/transform.ts";
import { angleOf, distance, sub, vec, type Vec } from "../geometry/vec.ts";
import { GREATEST_EXPONENT, LEAST_EXPONENT, sidesOf, type NeckSection } from "./neck-section.ts";
import { wallAt } from "./neck-walls.ts";

/** How a trace lies: on the section as it is, or anywhere on its paper. */
export type ContourLies = "held" | "free";

/** The section found and how far off it the points lie, mm (root of the mean square, and the worst). */
export interface FittedContour {
  readonly section: NeckSection;
  readonly rms: number;
  readonly worst: number;
  /** The points as the fit lays them on the section, and which of them lies farthest off. */
  readonly laid: readonly Vec[];
  readonly worstAt: Vec;
  /** How it lays them there: turned about the origin, counter-clockwise, then moved. */
  readonly turn: number;
  readonly move: Vec;
}

type Size = Pick<NeckSection, "halfWidth" | "depth" | "lean">;

/** Bass and treble exponent, turn, move across and up. */
type Numbers = readonly [number, number, number, number, number];

/** A trace that lies anywhere needs as many points as there are numbers to find. */
export const LEAST_TRACED = 5;
const ROUNDS = 60;
const START = 2;
/** A free trace that fits no better than this (root of the mean square), mm, is tried from another start too. */
const DOUBTFUL = 0.5;
/** The search has ended where no number changes by more. */
const SETTLED = 1e-6;

/**
 * The section nearest to `points` (as in NeckSection: x to the treble side, y from 0 down) with this half width, depth and
 * lean. Undefined unless each side has a point between its edge and the back, and of a free trace enough of them.
 */
export function sectionFromContour(points: readonly Vec[], size: Size, lies: ContourLies = "held"): FittedContour | undefined {
  const held = lies === "held";
  if (!held && points.length < LEAST_TRACED) return undefined;
  let found = nearest(points, size, held ? [START, START, 0, 0, 0] : laidLevel(points, size), held ? 2 : 5);
  if (!held && found.cost > points.length * DOUBTFUL ** 2) {
    const other = nearest(points, size, moved(points, size, 0), 5);
    if (other.cost < found.cost) found = other;
  }
  const { numbers } = found;
  const laid = laidBy(numbers, points);
  const onSide = (sign: 1 | -1): boolean => laid.some(({ x, y }) => sign * (x - size.lean) > 0 && y < 0);
  if (!onSide(-1) || !onSide(1)) return undefined;
  const section = sectionOf(size, numbers);
  const misses = laid.map((p) => Math.abs(missOf(section, p).distance));
  const worst = Math.max(...misses);
  return {
    section,
    rms: Math.sqrt(misses.reduce((sum, m) => sum + m * m, 0) / misses.length),
    worst,
    laid,
    worstAt: laid[misses.indexOf(worst)]!,
    turn: numbers[2],
    move: vec(numbers[3], numbers[4]),
  };
}

/** From the paper on to the section. */
export const layingOf = ({ turn, move }: Pick<FittedContour, "turn" | "move">): Affine =>
  compose(rotation(turn), translation(move));

const laidBy = ([, , turn, x, y]: Numbers, points: readonly Vec[]): Vec[] => {
  const laying = layingOf({ turn, move: vec(x, y) });
  return points.map((p) => transformPoint(laying, p));
};

const sectionOf = (size: Size, [bassExponent, trebleExponent]: Numbers): NeckSection => ({
  ...size,
  bassExponent,
  trebleExponent,
});

/** The distance to the section, above 0 inside; how it grows as the point moves, and with the exponents. */
interface Miss {
  readonly distance: number;
  readonly inward: Vec;
  readonly byExponents: readonly [number, number];
}

function missOf(section: NeckSection, p: Vec): Miss {
  // On the board's edge.
  if (p.y > 0) return { distance: section.halfWidth - Math.abs(p.x), inward: vec(p.x < 0 ? 1 : -1, 0), byExponents: [0, 0] };
  const { distance: away, to } = wallAt(section, p);
  const which = to.x < section.lean ? 0 : 1;
  const { sign, a, d, p: power } = sidesOf(section)[which];
  const [u, v] = [Math.min(1, Math.abs(to.x - section.lean) / a), Math.min(1, -to.y / d)];
  const across = (power * u ** (power - 1)) / a;
  const down = (power * v ** (power - 1)) / d;
  const steep = Math.hypot(across, down);
  const grown = -(timesLog(u, power) + timesLog(v, power)) / steep;
  return {
    distance: away,
    inward: vec((-sign * across) / steep, down / steep),
    byExponents: which === 0 ? [grown, 0] : [0, grown],
  };
}

/** u^p ln u, 0 at 0. */
const timesLog = (u: number, p: number): number => (u > 0 ? u ** p * Math.log(u) : 0);

/** The first `count` numbers so that the squares of the distances are least, from `start` on. */
function nearest(
  points: readonly Vec[],
  size: Size,
  start: Numbers,
  count: 2 | 5,
): { readonly numbers: Numbers; readonly cost: number } {
  const look = (numbers: Numbers) => {
    const section = sectionOf(size, numbers);
    const laid = laidBy(numbers, points);
    const misses = laid.map((p) => missOf(section, p));
    return { laid, misses, cost: misses.reduce((sum, { distance: d }) => sum + d * d, 0) };
  };
  let numbers = start;
  let seen = look(numbers);
  let damping = 1e-3;
  for (let round = 0; round < ROUNDS; round++) {
    const { laid, misses } = seen;
    const [, , , moveX, moveY] = numbers;
    // A turn is about the origin of the paper, which lies where the trace was moved to.
    const rows = misses.map(({ inward, byExponents }, i) => {
      const arm = vec(laid[i]!.x - moveX, laid[i]!.y - moveY);
      return [...byExponents, inward.y * arm.x - inward.x * arm.y, inward.x, inward.y].slice(0, count);
    });
    const slope = Array.from({ length: count }, (_, k) => rows.reduce((sum, row, i) => sum + row[k]! * misses[i]!.distance, 0));
    // An exponent at its bound that would go on beyond it stays there.
    const still = slope.map(
      (s, k) => k < 2 && ((numbers[k]! <= LEAST_EXPONENT && s > 0) || (numbers[k]! >= GREATEST_EXPONENT && s < 0)),
    );
    const square = slope.map((_, k) =>
      slope.map((__, l) => (still[k] || still[l] ? 0 : rows.reduce((sum, row) => sum + row[k]! * row[l]!, 0))),
    );
    const damped = square.map((row, k) => row.map((value, l) => (k === l ? value + damping * (value || 1) : value)));
    const step = solved(
      damped,
      slope.map((s, k) => (still[k] ? 0 : -s)),
    );
    const next = numbers.map((value, k) =>
      k < 2 ? Math.min(GREATEST_EXPONENT, Math.max(LEAST_EXPONENT, value + (step[k] ?? 0))) : value + (step[k] ?? 0),
    ) as unknown as Numbers;
    const there = look(next);
    if (there.cost <= seen.cost) {
      const gained = Math.max(...next.map((value, k) => Math.abs(value - numbers[k]!)));
      [numbers, seen, damping] = [next, there, Math.max(1e-9, damping / 5)];
      if (gained < SETTLED) break;
    } else {
      damping *= 8;
      if (damping > 1e8) break;
    }
  }
  return { numbers, cost: seen.cost };
}

/** Gaussian elimination; the matrix is positive. */
function solved(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  const n = rows.length;
  for (let k = 0; k < n; k++)
    for (let i = k + 1; i < n; i++) {
      const factor = rows[i]![k]! / rows[k]![k]!;
      for (let j = k; j <= n; j++) rows[i]![j]! -= factor * rows[k]![j]!;
    }
  const x: number[] = [];
  for (let i = n - 1; i >= 0; i--)
    x[i] = rows[i]!.slice(i + 1, n).reduce((sum, value, j) => sum - value * x[i + 1 + j]!, rows[i]![n]!) / rows[i]![i]!;
  return x;
}

/** Both points farthest apart level with each other, the others below them, in the middle and as deep as the section. */
function laidLevel(points: readonly Vec[], size: Size): Numbers {
  let ends: readonly [Vec, Vec] = [points[0]!, points[1]!];
  points.forEach((a, i) => {
    for (const b of points.slice(i + 1)) if (distance(a, b) > distance(ends[0], ends[1])) ends = [a, b];
  });
  const level = -angleOf(sub(ends[1], ends[0]));
  const turned = (turn: number): Vec[] => points.map((p) => transformPoint(rotation(turn), p));
  const start = transformPoint(rotation(level), ends[0]).y;
  const isBelow = turned(level).reduce((sum, { y }) => sum + y - start, 0) < 0;
  const turn = isBelow ? level : level + Math.PI;
  const about = (turn + Math.PI) % (2 * Math.PI);
  return moved(points, size, (about < 0 ? about + 2 * Math.PI : about) - Math.PI);
}

function moved(points: readonly Vec[], { depth }: Size, turn: number): Numbers {
  const turned = points.map((p) => transformPoint(rotation(turn), p));
  const xs = turned.map(({ x }) => x);
  const low = Math.min(...turned.map(({ y }) => y));
  return [START, START, turn, -(Math.min(...xs) + Math.max(...xs)) / 2, -depth - low];
}
