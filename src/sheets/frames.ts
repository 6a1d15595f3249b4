/** Grids of frames over the ink of a template, and which of their frames are printed. */
import type { Bounds } from "../geometry/bounds.ts";
import { RIM, type InkGrid } from "./grid.ts";
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

/** Room kept between the ink and the outer rim of the frames, mm: a line is not cut in half lengthwise. */
export const RIM_ROOM = 0.25;

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

/** The box that the printed frames of a grid cover. */
export function gridBounds(grid: Grid, size: FrameSize): Bounds {
  return {
    minX: grid.left,
    maxX: grid.left + (grid.columns - 1) * (size.width - size.overlap) + size.width,
    minY: grid.top - (grid.rows - 1) * (size.height - size.overlap) - size.height,
    maxY: grid.top,
  };
}

/** The frames with ink that no frame printed before them shows; undefined where they are more than `most`. */
export function printed(ink: InkGrid, size: FrameSize, grid: Omit<Grid, "cells">, most: number): Cell[] | undefined {
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
      const x0 = left + (column > 0 && has[key - 1] === 1 ? overlap + 2 * RIM : 0);
      const x1 = left + size.width - (column < columns - 1 ? overlap : 0);
      const y1 = high - (row > 0 && has[key - columns] === 1 ? overlap + 2 * RIM : 0);
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

/** The grid without rows and columns of which nothing is printed, at its rim. */
export function trimmed(grid: Grid, size: FrameSize): Grid {
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
