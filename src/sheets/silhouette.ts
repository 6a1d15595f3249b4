/** The shape that a template takes up on paper, as rows of squares: its closed outlines filled, its open lines and lettering traced. */
import { boundsOfPoints, type Bounds } from "../geometry/bounds.ts";
import { visitSquares } from "./grid.ts";
import type { Stroke } from "./ink.ts";

/** A run of squares in one row, the last not included. */
export interface Run {
  readonly row: number;
  readonly from: number;
  readonly to: number;
}

export interface Silhouette {
  readonly columns: number;
  readonly rows: number;
  /** Row by row, from the bottom; within a row from the left, apart from each other. */
  readonly runs: readonly Run[];
  /** The same, the longest first: the likeliest to meet something. */
  readonly longest: readonly Run[];
  /** The ink's box; square (0, 0) lies at its lower left corner. */
  readonly box: Bounds;
  /** Number of squares. */
  readonly area: number;
}

/** The silhouette of the strokes in squares of side `size`, every square that they touch or enclose counted. */
export function silhouetteOf(strokes: readonly Stroke[], size: number): Silhouette {
  const box = boundsOfPoints(strokes.flatMap(({ points }) => points));
  const columns = Math.floor((box.maxX - box.minX) / size) + 1;
  const rows = Math.floor((box.maxY - box.minY) / size) + 1;
  const cells = new Uint8Array(columns * rows);
  const origin = { x: box.minX, y: box.minY };
  for (const { points, closed } of strokes) {
    for (let k = closed ? 0 : 1; k < points.length; k++) {
      visitSquares(points[k === 0 ? points.length - 1 : k - 1]!, points[k]!, origin, size, (i, j) => {
        if (i >= 0 && j >= 0 && i < columns && j < rows) cells[j * columns + i] = 1;
      });
    }
    if (closed) fill(points, origin, size, columns, rows, cells);
  }
  const runs: Run[] = [];
  let area = 0;
  for (let row = 0; row < rows; row++) {
    for (let i = 0; i < columns;) {
      if (cells[row * columns + i] === 0) {
        i++;
        continue;
      }
      const from = i;
      while (i < columns && cells[row * columns + i] === 1) i++;
      runs.push({ row, from, to: i });
      area += i - from;
    }
  }
  return { columns, rows, runs, longest: runs.toSorted((a, b) => b.to - b.from - (a.to - a.from)), box, area };
}

/** Fills squares whose middle lies inside the ring; together with the squares that the ring touches, all that it encloses. */
function fill(
  ring: Stroke["points"],
  origin: { readonly x: number; readonly y: number },
  size: number,
  columns: number,
  rows: number,
  cells: Uint8Array,
): void {
  const crossings: number[][] = Array.from({ length: rows }, () => []);
  for (let k = 0; k < ring.length; k++) {
    const [a, b] = [ring[k === 0 ? ring.length - 1 : k - 1]!, ring[k]!];
    if (a.y === b.y) continue;
    const [low, high] = a.y < b.y ? [a, b] : [b, a];
    // Middles of rows at or above the lower end and below the upper one.
    const first = Math.max(0, Math.ceil((low.y - origin.y) / size - 0.5));
    const last = Math.min(rows - 1, Math.ceil((high.y - origin.y) / size - 0.5) - 1);
    for (let j = first; j <= last; j++) {
      const y = origin.y + (j + 0.5) * size;
      crossings[j]!.push((low.x + ((high.x - low.x) * (y - low.y)) / (high.y - low.y) - origin.x) / size);
    }
  }
  for (const [j, xs] of crossings.entries()) {
    xs.sort((a, b) => a - b);
    for (let k = 0; k + 1 < xs.length; k += 2) {
      cells.fill(
        1,
        j * columns + Math.max(0, Math.ceil(xs[k]! - 0.5)),
        j * columns + Math.max(0, Math.min(columns, Math.floor(xs[k + 1]! - 0.5) + 1)),
      );
    }
  }
}
