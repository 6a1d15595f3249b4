/** Ink on a grid of small squares: whether a rectangle holds any, answered at once for most and exactly for all. */
import type { Bounds } from "../geometry/bounds.ts";
import type { Vec } from "../geometry/vec.ts";
import type { Stroke } from "./ink.ts";
import type { Rect } from "./sheet.ts";

/** Sums over all rectangles of a grid of counts, each in four look-ups. */
export class Sums {
  readonly columns: number;
  readonly rows: number;
  readonly #sums: Int32Array;

  /** `cells` holds the counts row by row. */
  constructor(columns: number, rows: number, cells: Uint8Array) {
    this.columns = columns;
    this.rows = rows;
    const stride = columns + 1;
    this.#sums = new Int32Array(stride * (rows + 1));
    for (let j = 0; j < rows; j++) {
      let run = 0;
      for (let i = 0; i < columns; i++) {
        run += cells[j * columns + i]!;
        this.#sums[(j + 1) * stride + i + 1] = this.#sums[j * stride + i + 1]! + run;
      }
    }
  }

  /** The sum over columns i0 to i1 and rows j0 to j1, the last not included; parts outside of the grid count nothing. */
  within(i0: number, j0: number, i1: number, j1: number): number {
    const a = i0 > 0 ? i0 : 0;
    const b = i1 < this.columns ? i1 : this.columns;
    const c = j0 > 0 ? j0 : 0;
    const d = j1 < this.rows ? j1 : this.rows;
    if (a >= b || c >= d) return 0;
    const s = this.columns + 1;
    return this.#sums[d * s + b]! - this.#sums[c * s + b]! - this.#sums[d * s + a]! + this.#sums[c * s + a]!;
  }
}

/**
 * Calls `visit(i, j)` for every square of side `size` that the straight piece from `a` to `b` touches; square (0, 0) has its lower left
 * corner at `origin`. A piece that runs along a line of the grid touches at least the squares on one side of it.
 */
export function visitSquares(a: Vec, b: Vec, origin: Vec, size: number, visit: (i: number, j: number) => void): void {
  const [ax, ay, bx, by] = [(a.x - origin.x) / size, (a.y - origin.y) / size, (b.x - origin.x) / size, (b.y - origin.y) / size];
  const [low, high] = [Math.floor(Math.min(ay, by)), Math.floor(Math.max(ay, by))];
  for (let j = low; j <= high; j++) {
    // The part of the piece within the row, a hair more than exact.
    let [t0, t1] = [0, 1];
    if (ay !== by) {
      const [u, v] = [(j - ay) / (by - ay), (j + 1 - ay) / (by - ay)];
      t0 = Math.max(0, Math.min(u, v));
      t1 = Math.min(1, Math.max(u, v));
    }
    const [p, q] = [ax + (bx - ax) * t0, ax + (bx - ax) * t1];
    const last = Math.floor(Math.max(p, q) + 1e-9);
    for (let i = Math.floor(Math.min(p, q) - 1e-9); i <= last; i++) visit(i, j);
  }
}

/** How far beyond a rectangle ink still counts as in it, mm: ink on the line between two rectangles is in both. */
export const RIM = 1e-6;

/** Where strokes leave ink. */
export class InkGrid {
  readonly box: Bounds;
  /** Side of a square, mm. */
  readonly size: number;
  readonly #sums: Sums;
  readonly #cells: Uint8Array;
  readonly #pieces: readonly (readonly [Vec, Vec])[];
  readonly #bins: ReadonlyMap<number, readonly number[]>;

  constructor(strokes: readonly Stroke[], box: Bounds, size: number) {
    this.box = box;
    this.size = size;
    const columns = Math.floor((box.maxX - box.minX) / size) + 1;
    const rows = Math.floor((box.maxY - box.minY) / size) + 1;
    const cells = new Uint8Array(columns * rows);
    const bins = new Map<number, number[]>();
    const pieces: (readonly [Vec, Vec])[] = [];
    const origin = { x: box.minX, y: box.minY };
    for (const { points, closed } of strokes) {
      for (let k = closed ? 0 : 1; k < points.length; k++) {
        const [a, b] = [points[k === 0 ? points.length - 1 : k - 1]!, points[k]!];
        pieces.push([a, b]);
        visitSquares(a, b, origin, size, (i, j) => {
          const at = Math.min(Math.max(j, 0), rows - 1) * columns + Math.min(Math.max(i, 0), columns - 1);
          cells[at] = 1;
          const bin = bins.get(at);
          if (!bin) bins.set(at, [pieces.length - 1]);
          else if (bin.at(-1) !== pieces.length - 1) bin.push(pieces.length - 1);
        });
      }
    }
    this.#sums = new Sums(columns, rows, cells);
    this.#cells = cells;
    this.#pieces = pieces;
    this.#bins = bins;
  }

  /** True where there is ink in the rectangle or on its rim. */
  touches(x0: number, y0: number, x1: number, y1: number): boolean {
    if (!(x0 <= x1 && y0 <= y1)) return false;
    const { minX, minY } = this.box;
    const i0 = Math.floor((x0 - RIM - minX) / this.size);
    const j0 = Math.floor((y0 - RIM - minY) / this.size);
    const i1 = Math.floor((x1 + RIM - minX) / this.size) + 1;
    const j1 = Math.floor((y1 + RIM - minY) / this.size) + 1;
    if (this.#sums.within(i0, j0, i1, j1) === 0) return false;
    if (this.#sums.within(i0 + 1, j0 + 1, i1 - 1, j1 - 1) > 0) return true;
    const rim = { x0: x0 - RIM, y0: y0 - RIM, x1: x1 + RIM, y1: y1 + RIM };
    // What ink there is lies in the outermost squares: look at its pieces.
    const { columns, rows } = this.#sums;
    const [left, right] = [i0 > 0 ? i0 : 0, i1 < columns ? i1 : columns];
    const last = j1 < rows ? j1 : rows;
    // A long piece lies in many squares; it is looked at once.
    let before = -1;
    const hits = (k: number): boolean => {
      if (k === before) return false;
      before = k;
      const [a, b] = this.#pieces[k]!;
      return crosses(a, b, rim);
    };
    for (let j = j0 > 0 ? j0 : 0; j < last; j++) {
      const step = j === j0 || j === j1 - 1 || right - left < 2 ? 1 : right - left - 1;
      for (let at = j * columns + left; at < j * columns + right; at += step) {
        if (this.#cells[at] === 1 && this.#bins.get(at)!.some(hits)) return true;
      }
    }
    return false;
  }

  /** How many squares with ink the rectangle meets. */
  inked({ x0, y0, x1, y1 }: Rect): number {
    const { minX, minY } = this.box;
    return this.#sums.within(
      Math.floor((x0 - minX) / this.size),
      Math.floor((y0 - minY) / this.size),
      Math.ceil((x1 - minX) / this.size),
      Math.ceil((y1 - minY) / this.size),
    );
  }
}

/** Whether the straight piece from `a` to `b` has a point in the rectangle (Liang and Barsky). */
function crosses(a: Vec, b: Vec, { x0, y0, x1, y1 }: Rect): boolean {
  let [t0, t1] = [0, 1];
  for (const [p, q] of [
    [a.x - b.x, a.x - x0],
    [b.x - a.x, x1 - a.x],
    [a.y - b.y, a.y - y0],
    [b.y - a.y, y1 - a.y],
  ] as const) {
    if (p === 0 ? q < 0 : p < 0 ? (t0 = Math.max(t0, q / p)) > t1 : (t1 = Math.min(t1, q / p)) < t0) return false;
  }
  return true;
}
