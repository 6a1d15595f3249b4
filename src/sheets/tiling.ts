/**
 * The fewest sheets that a template needs on frames of one size: a grid of frames is shifted over its ink, and frames without ink of
 * their own are left out.
 */
import type { Bounds } from "../geometry/bounds.ts";
import { boundsOfPoints, growBounds } from "../geometry/bounds.ts";
import { InkGrid } from "./grid.ts";
import type { Stroke } from "./ink.ts";
import type { Rect } from "./sheet.ts";

/** Frames in a row and column overlap by `overlap`; each frame lies over its left and upper neighbour's far strip. */
export interface FrameSize {
  readonly width: number;
  readonly height: number;
  readonly overlap: number;
}

export interface Cell {
  readonly row: number;
  readonly column: number;
}

/** A grid of frames over the ink. Column c begins at `left + c (width - overlap)`; row r, counted down, at `top - r (height - overlap)`. */
export interface Grid {
  readonly columns: number;
  readonly rows: number;
  readonly left: number;
  readonly top: number;
  /** Frames that are printed, row by row. */
  readonly cells: readonly Cell[];
}

/** Room kept between the ink and the outer rim of the frames, mm. */
export const RIM_ROOM = 1;

/** Squares along the longer side of the ink at most; below that they are 1 mm. */
const MOST_SQUARES = 1500;
/** Shifts tried along each direction at most; below that they are 0.5 mm apart. */
const MOST_SHIFTS = 240;
const SHIFT = 0.5;

/** The ink of a template, ready for many questions. */
export function inkGridOf(strokes: readonly Stroke[]): InkGrid {
  const box = boundsOfPoints(strokes.flatMap(({ points }) => points));
  return new InkGrid(strokes, box, Math.max(1, Math.max(box.maxX - box.minX, box.maxY - box.minY) / MOST_SQUARES));
}

/** How many frames in a row cover `length`. */
export function framesFor(length: number, frame: number, overlap: number): number {
  return Math.max(1, Math.ceil((length - overlap) / (frame - overlap) - 1e-9));
}

/** The frame of one cell. */
export function frameOf(grid: Pick<Grid, "left" | "top">, size: FrameSize, { row, column }: Cell): Rect {
  const x0 = grid.left + column * (size.width - size.overlap);
  const y1 = grid.top - row * (size.height - size.overlap);
  return { x0, y0: y1 - size.height, x1: x0 + size.width, y1 };
}

/**
 * The grid with the fewest printed frames, over all shifts in steps of 0.5 mm (coarser for very large frames) and up to one row and one
 * column more than needed; among equals the one whose joints run through the least ink, then the one that lies most evenly.
 */
export function fewestFrames(ink: InkGrid, size: FrameSize): Grid {
  const box = growBounds(ink.box, RIM_ROOM);
  const columns = framesFor(box.maxX - box.minX, size.width, size.overlap);
  const rows = framesFor(box.maxY - box.minY, size.height, size.overlap);
  if (columns * rows === 1) {
    const [left, top] = [(box.minX + box.maxX - size.width) / 2, (box.minY + box.maxY + size.height) / 2];
    return { columns, rows, left, top, cells: [{ row: 0, column: 0 }] };
  }
  // Frames can drop out only where both ways are tiled, so only there may more of them be fewer.
  const more = columns > 1 && rows > 1 ? [0, 1] : [0];
  let best: { grid: Grid; cost: number } | undefined;
  for (const m of more.map((n) => columns + n)) {
    for (const n of more.map((k) => rows + k)) {
      const lefts = shifts(box.minX, box.maxX, m, size.width, size.overlap, 1);
      const tops = shifts(box.minY, box.maxY, n, size.height, size.overlap, -1);
      for (const left of lefts.values) {
        for (const top of tops.values) {
          const cells = printed(ink, size, { columns: m, rows: n, left, top }, best?.grid.cells.length ?? Infinity);
          if (!cells) continue;
          const grid = { columns: m, rows: n, left, top, cells };
          const cost = inkOnJoints(ink, size, grid) + (Math.abs(left - lefts.middle) + Math.abs(top - tops.middle)) / 1000;
          if (!best || cells.length < best.grid.cells.length || cost < best.cost) best = { grid, cost };
        }
      }
    }
  }
  return trimmed(best!.grid, size);
}

/** The same grid moved by (dx, dy), with what rows and columns it then takes to cover the ink. */
export function shiftedGrid(ink: InkGrid, size: FrameSize, grid: Grid, by: { readonly x: number; readonly y: number }): Grid {
  const box = growBounds(ink.box, RIM_ROOM);
  const [stepX, stepY] = [size.width - size.overlap, size.height - size.overlap];
  const left = grid.left + by.x - Math.max(0, Math.ceil((grid.left + by.x - box.minX) / stepX - 1e-9)) * stepX;
  const top = grid.top + by.y + Math.max(0, Math.ceil((box.maxY - grid.top - by.y) / stepY - 1e-9)) * stepY;
  const columns = framesFor(box.maxX - left, size.width, size.overlap);
  const rows = framesFor(top - box.minY, size.height, size.overlap);
  return trimmed({ columns, rows, left, top, cells: printed(ink, size, { columns, rows, left, top }, Infinity)! }, size);
}

/** Where a row of frames may begin so that it covers from `low` to `high`; `way` -1 counts down from the top. */
function shifts(
  low: number,
  high: number,
  count: number,
  frame: number,
  overlap: number,
  way: 1 | -1,
): { values: number[]; middle: number } {
  const reach = (count - 1) * (frame - overlap) + frame;
  const [first, last] = way === 1 ? [high - reach, low] : [high, low + reach];
  const middle = (first + last) / 2;
  if (count === 1) return { values: [middle], middle };
  const steps = Math.max(1, Math.min(MOST_SHIFTS, Math.ceil((last - first) / SHIFT)));
  return { values: [...Array.from({ length: steps + 1 }, (_, i) => first + ((last - first) * i) / steps), middle], middle };
}

/** The frames with ink that no frame printed before them shows; undefined where they are more than `most`. */
function printed(ink: InkGrid, size: FrameSize, grid: Omit<Grid, "cells">, most: number): Cell[] | undefined {
  const cells: Cell[] = [];
  const has = new Set<number>();
  for (let row = 0; row < grid.rows; row++) {
    for (let column = 0; column < grid.columns; column++) {
      const frame = frameOf(grid, size, { row, column });
      const key = row * grid.columns + column;
      const own: Rect = {
        x0: frame.x0 + (column > 0 && has.has(key - 1) ? size.overlap : 0),
        y0: frame.y0 + (row < grid.rows - 1 ? size.overlap : 0),
        x1: frame.x1 - (column < grid.columns - 1 ? size.overlap : 0),
        y1: frame.y1 - (row > 0 && has.has(key - grid.columns) ? size.overlap : 0),
      };
      if (!ink.touches(own)) continue;
      has.add(key);
      cells.push({ row, column });
      if (cells.length > most) return undefined;
    }
  }
  return bridged(cells, grid, most);
}

/** Blank frames added where the printed ones would not hang together edge to edge, so that every sheet has a neighbour to join. */
function bridged(cells: Cell[], grid: Omit<Grid, "cells">, most: number): Cell[] | undefined {
  const has = new Set(cells.map(({ row, column }) => row * grid.columns + column));
  for (;;) {
    const pieces = piecesOf(has, grid.columns);
    const [first, ...others] = pieces;
    if (!first || others.length === 0) break;
    let nearest: { from: number; to: number; apart: number } | undefined;
    for (const from of first) {
      for (const to of others.flat()) {
        const apart =
          Math.abs((from % grid.columns) - (to % grid.columns)) +
          Math.abs(Math.floor(from / grid.columns) - Math.floor(to / grid.columns));
        if (!nearest || apart < nearest.apart) nearest = { from, to, apart };
      }
    }
    let [column, row] = [nearest!.from % grid.columns, Math.floor(nearest!.from / grid.columns)];
    const [toColumn, toRow] = [nearest!.to % grid.columns, Math.floor(nearest!.to / grid.columns)];
    while (column !== toColumn || row !== toRow) {
      if (column !== toColumn) column += Math.sign(toColumn - column);
      else row += Math.sign(toRow - row);
      has.add(row * grid.columns + column);
    }
    if (has.size > most) return undefined;
  }
  return [...has].toSorted((a, b) => a - b).map((key) => ({ row: Math.floor(key / grid.columns), column: key % grid.columns }));
}

/** The keys in groups that hang together edge to edge. */
function piecesOf(keys: ReadonlySet<number>, columns: number): number[][] {
  const left = new Set(keys);
  const pieces: number[][] = [];
  for (const start of keys) {
    if (!left.delete(start)) continue;
    const piece = [start];
    for (const key of piece) {
      const column = key % columns;
      for (const next of [column > 0 ? key - 1 : -1, column < columns - 1 ? key + 1 : -1, key - columns, key + columns]) {
        if (left.delete(next)) piece.push(next);
      }
    }
    pieces.push(piece);
  }
  return pieces;
}

/** Squares of ink within 3 mm of the joints: what a joint runs along or through. */
function inkOnJoints(ink: InkGrid, size: FrameSize, grid: Grid): number {
  const { minX, minY, maxX, maxY } = ink.box;
  let sum = 0;
  for (let column = 1; column < grid.columns; column++) {
    const x = grid.left + column * (size.width - size.overlap);
    sum += ink.inked({ x0: x - 3, x1: x + 3, y0: minY, y1: maxY });
  }
  for (let row = 1; row < grid.rows; row++) {
    const y = grid.top - row * (size.height - size.overlap);
    sum += ink.inked({ x0: minX, x1: maxX, y0: y - 3, y1: y + 3 });
  }
  return sum;
}

/** The grid without rows and columns of which nothing is printed, at its rim. */
function trimmed(grid: Grid, size: FrameSize): Grid {
  const columns = grid.cells.map(({ column }) => column);
  const rows = grid.cells.map(({ row }) => row);
  const [column0, row0] = [Math.min(...columns), Math.min(...rows)];
  return {
    columns: Math.max(...columns) - column0 + 1,
    rows: Math.max(...rows) - row0 + 1,
    left: grid.left + column0 * (size.width - size.overlap),
    top: grid.top - row0 * (size.height - size.overlap),
    cells: grid.cells.map(({ row, column }) => ({ row: row - row0, column: column - column0 })),
  };
}

/** The box that the printed frames of a grid cover. */
export function gridBounds(grid: Grid, size: FrameSize): Bounds {
  return {
    minX: grid.left,
    maxX: grid.left + (grid.columns - 1) * (size.width - size.overlap) + size.width,
    minY: grid.top - (grid.rows - 1) * (size.height - size.overlap) - size.height,
    maxY: grid.top,
  };
}
