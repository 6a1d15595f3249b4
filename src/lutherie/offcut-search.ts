/**
 * A place for a piece on a piece of wood, by branch and bound over place and turn.
 *
 * What a piece needs is kept as discs: points of its edge (radius 0) and discs within it. Where the piece lies in the wood with a margin m,
 * every disc's middle lies at least its radius and m deep. So the least of depth less radius over the discs is never below the true
 * margin, and as a pose changes by a shift s and a turn t, it changes by at most s + 2 rho sin(t/2), rho the disc's distance from the point
 * that the piece is turned about. A box of poses whose bound stays below what is needed holds no place: when none is left, the piece does
 * not fit. That it fits is only ever said after the exact test of offcut-fit.ts.
 */
import { regionArea, regionBounds, type Region } from "../geometry/region.ts";
import { lerp, vec, type Vec } from "../geometry/vec.ts";
import { depthField, type DepthField } from "./offcut-distance.ts";
import { containedSpare, laidAt, type Pose } from "./offcut-fit.ts";

/** What is to be laid. */
export interface Wanted {
  readonly piece: Region;
  /** Least distance from the piece's edge to the wood's, mm, at least 0. */
  readonly margin: number;
  /** Turns that its grain allows: ranges in radians, each at most one full turn long. */
  readonly turns: readonly { readonly from: number; readonly to: number }[];
  /** It may be turned over. */
  readonly mayFlip: boolean;
}

export type Answer =
  | { readonly answer: "fits"; readonly pose: Pose; /** Beyond the margin, mm. */ readonly spare: number }
  /** `nearest` is the best place that was met, and `spare`, below 0, about what it lacks. */
  | { readonly answer: "does-not-fit" | "too-close"; readonly nearest: Pose | undefined; readonly spare: number };

/** Boxes of poses looked at before giving up. */
const MOST_BOXES = 60_000;
/** Boxes smaller than this are not parted any more, mm. */
const FINEST = 0.04;
/** Discs of a piece. */
const EDGE_DISCS = 160;
const INNER_DISCS = 24;

/**
 * Looks for a place. `onProgress` hears the share of what is done, from 0 to 1.
 * @throws RangeError for an empty region or a margin below 0
 */
export function findPlace(wood: Region, wanted: Wanted, onProgress: (done: number) => void = () => undefined): Answer {
  if (!(wanted.margin >= 0 && wanted.margin < Infinity)) throw new RangeError("findPlace: the margin must be at least 0");
  if (wood.length === 0) return { answer: "does-not-fit", nearest: undefined, spare: -Infinity };
  const field = depthField(wood);
  const about = middleOf(wanted.piece);
  const piece = laidAt(wanted.piece, { x: -about.x, y: -about.y, turn: 0, flipped: false });
  const found = search(wood, field, piece, wanted, onProgress);
  onProgress(1);
  const back = (pose: Pose): Pose => movedBack(pose, about);
  return found.answer === "fits"
    ? { ...found, pose: back(found.pose) }
    : { ...found, nearest: found.nearest && back(found.nearest) };
}

/** A pose of the piece about its middle as one of the piece as it was given. */
function movedBack(pose: Pose, about: Vec): Pose {
  const c = Math.cos(pose.turn);
  const s = Math.sin(pose.turn);
  const y = pose.flipped ? -about.y : about.y;
  return { ...pose, x: pose.x - (c * about.x - s * y), y: pose.y - (s * about.x + c * y) };
}

function middleOf(piece: Region): Vec {
  const { minX, maxX, minY, maxY } = regionBounds(piece);
  return vec((minX + maxX) / 2, (minY + maxY) / 2);
}

/** Middles and radii of discs that a piece covers, and each middle's distance from the origin. */
interface Discs {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly radius: Float64Array;
  readonly rho: Float64Array;
  readonly farthest: number;
  readonly count: number;
  /** The disc that told last; asked first, it tells soonest. */
  hint: number;
}

function discsOf(piece: Region, flipped: boolean): Discs {
  const discs: { p: Vec; radius: number }[] = [];
  const length = piece.reduce((sum, { outer }) => sum + perimeter(outer), 0);
  const step = length / EDGE_DISCS;
  for (const { outer } of piece) {
    for (const [i, a] of outer.entries()) {
      const b = outer[(i + 1) % outer.length]!;
      const parts = Math.max(1, Math.round(Math.hypot(b.x - a.x, b.y - a.y) / step));
      for (let k = 0; k < parts; k++) discs.push({ p: lerp(a, b, k / parts), radius: 0 });
    }
  }
  const { depthAt, minX, minY, maxX, maxY } = depthField(piece.map(({ outer }) => ({ outer, holes: [] })));
  const grid = Math.sqrt(((maxX - minX) * (maxY - minY)) / 600);
  const inner: { p: Vec; radius: number }[] = [];
  for (let x = minX + grid / 2; x < maxX; x += grid)
    for (let y = minY + grid / 2; y < maxY; y += grid) {
      const radius = depthAt(x, y);
      if (radius > 0) inner.push({ p: vec(x, y), radius });
    }
  inner.sort((a, b) => b.radius - a.radius);
  const kept: { p: Vec; radius: number }[] = [];
  for (const disc of inner) {
    if (kept.length >= INNER_DISCS) break;
    if (kept.every(({ p, radius }) => Math.hypot(p.x - disc.p.x, p.y - disc.p.y) > 0.6 * radius)) kept.push(disc);
  }
  const all = [...kept, ...discs];
  const y = (p: Vec): number => (flipped ? -p.y : p.y);
  return {
    x: Float64Array.from(all, ({ p }) => p.x),
    y: Float64Array.from(all, ({ p }) => y(p)),
    radius: Float64Array.from(all, ({ radius }) => radius),
    rho: Float64Array.from(all, ({ p }) => Math.hypot(p.x, p.y)),
    farthest: Math.max(...all.map(({ p }) => Math.hypot(p.x, p.y))),
    count: all.length,
    hint: 0,
  };
}

function perimeter(ring: readonly Vec[]): number {
  let sum = 0;
  let a = ring.at(-1)!;
  for (const b of ring) {
    sum += Math.hypot(b.x - a.x, b.y - a.y);
    a = b;
  }
  return sum;
}

/** Poses about a middle. */
interface Extent {
  readonly x: number;
  readonly y: number;
  readonly turn: number;
  readonly halfX: number;
  readonly halfY: number;
  readonly halfTurn: number;
}

interface Box extends Extent {
  readonly flipped: boolean;
  /** No pose in it has a greater margin. */
  readonly bound: number;
  /** Share of all poses. */
  readonly share: number;
}

function search(
  wood: Region,
  field: DepthField,
  piece: Region,
  { margin, turns, mayFlip }: Wanted,
  onProgress: (done: number) => void,
): Answer {
  const faces = [false, ...(mayFlip ? [true] : [])].map((flipped) => ({ flipped, discs: discsOf(piece, flipped) }));
  const discsFor = (flipped: boolean): Discs => faces.find((face) => face.flipped === flipped)!.discs;
  let best: { readonly pose: Pose; readonly spare: number } | undefined;
  let done = 0;

  if (regionArea(piece.map(({ outer }) => ({ outer, holes: [] }))) > regionArea(wood))
    return { answer: "does-not-fit", nearest: undefined, spare: -Infinity };

  /**
   * The greatest margin that any pose of a box can have: the least over the discs of depth less radius, and what the disc may move by. With no
   * extent it is the middle's own, which is no less than its true margin. Stops once it is below `enough`.
   */
  function boundOf(discs: Discs, { x, y, turn, halfX, halfY, halfTurn }: Extent, enough: number): number {
    const c = Math.cos(turn);
    const s = Math.sin(turn);
    const shift = Math.hypot(halfX, halfY);
    const turning = 2 * Math.sin(Math.min(Math.PI, halfTurn) / 2);
    let least = Infinity;
    for (let k = -1; k < discs.count; k++) {
      const i = k < 0 ? discs.hint : k;
      const px = discs.x[i]!;
      const py = discs.y[i]!;
      const depth = field.depthAt(x + c * px - s * py, y + s * px + c * py);
      const here = depth - discs.radius[i]! + shift + turning * discs.rho[i]!;
      if (here < least) {
        least = here;
        if (least < enough) {
          discs.hint = i;
          return least;
        }
      }
    }
    return least;
  }

  const marginAt = (discs: Discs, x: number, y: number, turn: number, enough: number): number =>
    boundOf(discs, { x, y, turn, halfX: 0, halfY: 0, halfTurn: 0 }, enough);

  const isAllowed = (turn: number): boolean => turns.some(({ from, to }) => turn >= from - 1e-12 && turn <= to + 1e-12);

  /** Climbs from a pose to one of greater margin, and keeps the best that was met. */
  function climb(box: Box): void {
    const discs = discsFor(box.flipped);
    let { x, y, turn } = box;
    let value = marginAt(discs, x, y, turn, -Infinity);
    const rho = Math.max(1, discs.farthest);
    let step = Math.max(box.halfX, box.halfY, box.halfTurn * rho, 0.5);
    while (step > 0.003) {
      let moved = false;
      for (const [dx, dy, dt] of WAYS) {
        const [nx, ny, nt] = [x + dx * step, y + dy * step, turn + (dt * step) / rho];
        if (!isAllowed(nt)) continue;
        const there = marginAt(discs, nx, ny, nt, value);
        if (there > value + 1e-9) {
          [x, y, turn, value, moved] = [nx, ny, nt, there, true];
        }
      }
      if (!moved) step /= 2;
    }
    if (best === undefined || value > best.spare) best = { pose: { x, y, turn, flipped: box.flipped }, spare: value };
  }

  function confirmed(): Answer | undefined {
    if (!best || best.spare < margin) return undefined;
    const exact = containedSpare(wood, laidAt(piece, best.pose));
    return exact && exact.spare >= margin ? { answer: "fits", pose: best.pose, spare: exact.spare - margin } : undefined;
  }

  const queue = new Queue();
  const volume = turns.reduce((sum, { from, to }) => sum + Math.max(to - from, 1e-9), 0) * faces.length;
  const halfX = (field.maxX - field.minX) / 2;
  const halfY = (field.maxY - field.minY) / 2;
  for (const { flipped, discs } of faces)
    for (const { from, to } of turns) {
      const parts = Math.max(1, Math.ceil((to - from) / 0.5));
      const halfTurn = (to - from) / 2 / parts;
      for (let k = 0; k < parts; k++) {
        const box = {
          x: field.minX + halfX,
          y: field.minY + halfY,
          turn: from + (2 * k + 1) * halfTurn,
          halfX,
          halfY,
          halfTurn,
          flipped,
        };
        const bound = boundOf(discs, box, margin);
        const share = Math.max(2 * halfTurn, 1e-9 / parts) / volume;
        if (bound >= margin) queue.push({ ...box, bound, share });
        else done += share;
      }
    }

  let close = false;
  let boxes = 0;
  for (let box = queue.pop(); box; box = queue.pop()) {
    if (++boxes > MOST_BOXES) {
      close = true;
      break;
    }
    if (boxes % 256 === 0) onProgress(Math.min(0.99, done));
    const discs = discsFor(box.flipped);
    // Only from where it is better already than anything met: climbing costs as much as some hundred boxes.
    const known = best?.spare ?? -Infinity;
    if (marginAt(discs, box.x, box.y, box.turn, known) > known) {
      climb(box);
      const answer = confirmed();
      if (answer) return answer;
    }
    const parts = partsOf(box, discs.farthest);
    if (!parts) {
      close = true;
      continue;
    }
    for (const part of parts) {
      const bound = boundOf(discs, part, margin);
      const share = box.share / parts.length;
      if (bound >= margin) queue.push({ ...part, bound, share });
      else done += share;
    }
  }
  return { answer: close ? "too-close" : "does-not-fit", nearest: best?.pose, spare: best ? best.spare - margin : -Infinity };
}

/** The box cut into two or more; undefined where it is small enough to be left. */
function partsOf(box: Box, farthest: number): readonly Omit<Box, "bound" | "share">[] | undefined {
  const turning = box.halfTurn * farthest;
  const most = Math.max(box.halfX, box.halfY, turning);
  if (most < FINEST) return undefined;
  const cut = (wide: number): boolean => wide > 0.6 * most;
  const split = (middle: number, half: number, apart: boolean): readonly number[] =>
    apart ? [middle - half / 2, middle + half / 2] : [middle];
  const [cutX, cutY, cutTurn] = [cut(box.halfX), cut(box.halfY), cut(turning)];
  const half = (wide: number, apart: boolean): number => (apart ? wide / 2 : wide);
  return split(box.x, box.halfX, cutX).flatMap((x) =>
    split(box.y, box.halfY, cutY).flatMap((y) =>
      split(box.turn, box.halfTurn, cutTurn).map((turn) => ({
        x,
        y,
        turn,
        halfX: half(box.halfX, cutX),
        halfY: half(box.halfY, cutY),
        halfTurn: half(box.halfTurn, cutTurn),
        flipped: box.flipped,
      })),
    ),
  );
}

/** Ways to step along x, y and turn: every mixture of forwards, back and not. */
const WAYS: readonly (readonly [number, number, number])[] = [-1, 0, 1]
  .flatMap((a) => [-1, 0, 1].flatMap((b) => [-1, 0, 1].map((c) => [a, b, c] as const)))
  .filter((way) => way.some((step) => step !== 0));

/** Boxes, the one of the greatest bound first. */
class Queue {
  readonly #heap: Box[] = [];

  push(box: Box): void {
    const heap = this.#heap;
    let i = heap.length;
    heap.push(box);
    while (i > 0) {
      const up = (i - 1) >> 1;
      if (heap[up]!.bound >= box.bound) break;
      heap[i] = heap[up]!;
      i = up;
    }
    heap[i] = box;
  }

  pop(): Box | undefined {
    const heap = this.#heap;
    const first = heap[0];
    const last = heap.pop();
    if (!first || !last || heap.length === 0) return first;
    let i = 0;
    for (;;) {
      let down = 2 * i + 1;
      if (down >= heap.length) break;
      if (down + 1 < heap.length && heap[down + 1]!.bound > heap[down]!.bound) down++;
      if (last.bound >= heap[down]!.bound) break;
      heap[i] = heap[down]!;
      i = down;
    }
    heap[i] = last;
    return first;
  }
}
