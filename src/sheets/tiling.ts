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
/** Shifts tried along each direction at most; below that they are 1 mm apart. */
const MOST_SHIFTS = 200;
const SHIFT = 1;

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
 * The grid with the fewest printed frames, over all shifts in steps of 1 mm (coarser for very large frames) and up to one row and one
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
          const cost = inkOnJoints(ink, size, grid) + (Math.abs(left - lefts.middle) + Math.abs(top - tops.middle)) * UNEVEN;
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
  const { overlap } = size;
  const { columns, rows } = grid;
  const has = new Uint8Array(columns * rows);
  let count = 0;
  for (let row = 0; row < rows; row++) {
    const high = grid.top - row * (size.height - overlap);
    const y0 = high - size.height + (row < rows - 1 ? overlap : 0);
    for (let column = 0; column < columns; column++) {
      const left = grid.left + column * (size.width - overlap);
      const key = row * columns + column;
      const x0 = left + (column > 0 && has[key - 1] === 1 ? overlap : 0);
      const x1 = left + size.width - (column < columns - 1 ? overlap : 0);
      const y1 = high - (row > 0 && has[key - columns] === 1 ? overlap : 0);
      if (!ink.touches(x0, y0, x1, y1)) continue;
      has[key] = 1;
      if (++count > most) return undefined;
    }
  }
  const keys = [...has.keys()].filter((key) => has[key] === 1);
  const joined = count === has.length ? keys : bridged(keys, columns);
  return joined.length > most ? undefined : joined.map((key) => ({ row: Math.floor(key / columns), column: key % columns }));
}

/** Blank frames added where the printed ones would not hang together edge to edge, so that every sheet has a neighbour to join. */
function bridged(keys: readonly number[], columns: number): number[] {
  const has = new Set(keys);
  const apart = (a: number, b: number): number =>
    Math.abs((a % columns) - (b % columns)) + Math.abs(Math.floor(a / columns) - Math.floor(b / columns));
  for (;;) {
    const [first, ...others] = piecesOf(has, columns);
    if (!first || others.length === 0) return [...has].toSorted((a, b) => a - b);
    const pairs = first.flatMap((from) => others.flat().map((to) => ({ from, to, apart: apart(from, to) })));
    const nearest = pairs.reduce((least, pair) => (pair.apart < least.apart ? pair : least));
    let key = nearest.from;
    while (key !== nearest.to) {
      const across = (nearest.to % columns) - (key % columns);
      key += across !== 0 ? Math.sign(across) : Math.sign(nearest.to - key) * columns;
      has.add(key);
    }
  }
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

/** What a shift of 1 mm from the middle counts beside a square of ink on a joint. */
const UNEVEN = 0.1;

/** How near to the joints ink counts against them, mm: each band once, so the nearer the more. */
const JOINT_BANDS = [3, 6, 12];

/** Squares of ink near the joints: what a joint runs along or through. */
function inkOnJoints(ink: InkGrid, size: FrameSize, grid: Grid): number {
  const { minX, minY, maxX, maxY } = ink.box;
  let sum = 0;
  for (const near of JOINT_BANDS) {
    for (let column = 1; column < grid.columns; column++) {
      const x = grid.left + column * (size.width - size.overlap);
      sum += ink.inked({ x0: x - near, x1: x + near, y0: minY, y1: maxY });
    }
    for (let row = 1; row < grid.rows; row++) {
      const y = grid.top - row * (size.height - size.overlap);
      sum += ink.inked({ x0: minX, x1: maxX, y0: y - near, y1: y + near });
    }
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
