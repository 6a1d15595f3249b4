/**
 * The fewest sheets that a template needs on frames of one size: a grid of frames is shifted over its ink, and frames without ink of
 * their own are left out.
 */
import type { Bounds } from "../geometry/bounds.ts";
import { boundsOfPoints, growBounds } from "../geometry/bounds.ts";
import { InkGrid, RIM } from "./grid.ts";
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

/** Room kept between the ink and the outer rim of the frames, mm: a line is not cut in half lengthwise. */
export const RIM_ROOM = 0.25;

/** Squares along the longer side of the ink at most; below that they are 1 mm. */
const MOST_SQUARES = 1500;
/** Shifts nearer to each other than this are not told apart, mm. */
const FINEST = 0.5;
/** Shifts looked at in each direction for the quietest joints. */
const LOOKS = 48;

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
 * The grid with the fewest printed frames over all shifts, with up to one row and one column more than needed: a branch-and-bound search
 * that leaves out no shift by more than 0.5 mm. Among equals the one whose joints run through the least ink and that lies most evenly;
 * of those that differ little, the first that `suits`.
 */
export function fewestFrames(ink: InkGrid, size: FrameSize, suits: (grid: Grid) => boolean = () => true): Grid {
  const box = growBounds(ink.box, RIM_ROOM);
  const columns = framesFor(box.maxX - box.minX, size.width, size.overlap);
  const rows = framesFor(box.maxY - box.minY, size.height, size.overlap);
  // Frames can drop out only where both ways are tiled, so only there may more of them be fewer.
  const more = columns > 1 && rows > 1 ? [0, 1] : [0];
  const spaces = more.flatMap((m) =>
    more.map((n): Space => ({
      columns: columns + m,
      rows: rows + n,
      lefts: shiftsOf(box.minX, box.maxX, columns + m, size.width, size.overlap, 1),
      tops: shiftsOf(box.minY, box.maxY, rows + n, size.height, size.overlap, -1),
    })),
  );
  const least = spaces.reduce((most, space) => search(ink, size, space, most).count, Infinity);
  const found: { grid: Grid; cost: number }[] = [];
  const consider = (space: Space, left: number, top: number): void => {
    const cells = printed(ink, size, { ...space, left, top }, least);
    if (!cells) return;
    const grid = { columns: space.columns, rows: space.rows, left, top, cells };
    const off = Math.abs(left - middleOf(space.lefts)) + Math.abs(top - middleOf(space.tops));
    found.push({ grid, cost: inkOnJoints(ink, size, grid) + off * UNEVEN });
  };
  for (const space of spaces) {
    for (const left of looks(space.lefts, space.columns))
      for (const top of looks(space.tops, space.rows)) consider(space, left, top);
    // Where the fewest are found in a narrow place only, no even look may hit it.
    const narrow = found.length > 0 ? undefined : search(ink, size, space, least + 1).at;
    if (narrow) consider(space, narrow.left, narrow.top);
  }
  found.sort((a, b) => a.cost - b.cost);
  const near = Array.from({ length: Math.min(MOST_TRIED, found.length) }, (_, i) =>
    trimmed(found[Math.floor((i * found.length) / Math.min(MOST_TRIED, found.length))]!.grid, size),
  );
  return near.find(suits) ?? trimmed(found[0]!.grid, size);
}

/** Grids of equal count that are tried for whether they suit, from the best to the worst. */
const MOST_TRIED = 24;

/** An interval of shifts. */
interface Shifts {
  readonly low: number;
  readonly high: number;
}
interface Space {
  readonly columns: number;
  readonly rows: number;
  readonly lefts: Shifts;
  readonly tops: Shifts;
}

/** Where a row of frames may begin so that it covers from `low` to `high`; `way` -1 counts down from the top. */
function shiftsOf(low: number, high: number, count: number, frame: number, overlap: number, way: 1 | -1): Shifts {
  const reach = (count - 1) * (frame - overlap) + frame;
  return way === 1 ? { low: high - reach, high: low } : { low: high, high: low + reach };
}

const middleOf = ({ low, high }: Shifts): number => (low + high) / 2;

/** Shifts spread evenly, the ends and the middle among them; one row needs no search. */
function looks(shifts: Shifts, count: number): number[] {
  return count === 1
    ? [middleOf(shifts)]
    : Array.from({ length: LOOKS + 1 }, (_, i) => shifts.low + ((shifts.high - shifts.low) * i) / LOOKS);
}

/** Looks for fewer than `most` printed frames: halves the space until a part can hold none with fewer than the best so far. */
function search(
  ink: InkGrid,
  size: FrameSize,
  space: Space,
  most: number,
): { count: number; at: { left: number; top: number } | undefined } {
  let count = most;
  let at: { left: number; top: number } | undefined;
  const open: { readonly lefts: Shifts; readonly tops: Shifts }[] = [{ lefts: space.lefts, tops: space.tops }];
  for (let part = open.pop(); part; part = open.pop()) {
    const { lefts, tops } = part;
    const [wide, high] = [space.columns === 1 ? 0 : lefts.high - lefts.low, space.rows === 1 ? 0 : tops.high - tops.low];
    if (surelyPrinted(ink, size, space, lefts, tops, count) >= count) continue;
    const [left, top] = [middleOf(lefts), middleOf(tops)];
    const cells = printed(ink, size, { ...space, left, top }, count - 1);
    if (cells) {
      count = cells.length;
      at = { left, top };
    }
    if (Math.max(wide, high) < FINEST) continue;
    if (wide >= high)
      open.push({ lefts: { low: lefts.low, high: left }, tops }, { lefts: { low: left, high: lefts.high }, tops });
    else open.push({ lefts, tops: { low: tops.low, high: top } }, { lefts, tops: { low: top, high: tops.high } });
  }
  return { count, at };
}

/**
 * How many frames are printed whatever the shift within the intervals; counting stops at `enough`. A frame is, if there is ink that it
 * alone shows at every shift; of two neighbours one is, if there is ink in the strip that both show.
 */
function surelyPrinted(ink: InkGrid, size: FrameSize, space: Space, lefts: Shifts, tops: Shifts, enough: number): number {
  const { columns, rows } = space;
  const overlap = size.overlap + 2 * RIM;
  const [stepX, stepY] = [size.width - size.overlap, size.height - size.overlap];
  const sure = new Uint8Array(columns * rows);
  let count = 0;
  for (let row = 0; row < rows; row++) {
    const y1 = tops.low - row * stepY - (row > 0 ? overlap : 0);
    const y0 = tops.high - row * stepY - size.height + (row < rows - 1 ? overlap : 0);
    for (let column = 0; column < columns; column++) {
      const x0 = lefts.high + column * stepX + (column > 0 ? overlap : 0);
      const x1 = lefts.low + column * stepX + size.width - (column < columns - 1 ? overlap : 0);
      if (!ink.touches(x0, y0, x1, y1)) continue;
      sure[row * columns + column] = 1;
      if (++count >= enough) return count;
    }
  }
  const either = (a: number, b: number, x0: number, y0: number, x1: number, y1: number): void => {
    if (sure[a] === 1 || sure[b] === 1 || !ink.touches(x0, y0, x1, y1)) return;
    sure[a] = sure[b] = 1;
    count++;
  };
  for (let row = 0; row < rows; row++) {
    const y1 = tops.low - row * stepY - (row > 0 ? overlap : 0);
    const y0 = tops.high - row * stepY - size.height + (row < rows - 1 ? overlap : 0);
    for (let column = 0; column < columns; column++) {
      const key = row * columns + column;
      const [farX, nearX] = [lefts.high + (column + 1) * stepX + RIM, lefts.low + (column + 1) * stepX + size.overlap - RIM];
      if (column < columns - 1) either(key, key + 1, farX, y0, nearX, y1);
      const x0 = lefts.high + column * stepX + (column > 0 ? overlap : 0);
      const x1 = lefts.low + column * stepX + size.width - (column < columns - 1 ? overlap : 0);
      const [lowY, highY] = [tops.high - (row + 1) * stepY - size.overlap + RIM, tops.low - (row + 1) * stepY - RIM];
      if (row < rows - 1) either(key, key + columns, x0, lowY, x1, highY);
    }
  }
  return count;
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

/** What a shift of 1 mm from the middle counts beside a square of ink on a joint. */
const UNEVEN = 0.5;

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
