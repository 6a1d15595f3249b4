/**
 * The fewest sheets that a template needs on frames of one size: a grid of frames is shifted over its ink, and frames without ink of
 * their own are left out.
 */
import { boundsOfPoints, growBounds } from "../geometry/bounds.ts";
import type { Vec } from "../geometry/vec.ts";
import { InkGrid } from "./grid.ts";
import { framesFor, gridBounds, printed, RIM_ROOM, trimmed, type FrameSize, type Grid } from "./frames.ts";
import type { Stroke } from "./ink.ts";
import { middleOf, search, shiftsOf, type Shifts, type Space } from "./shift-search.ts";

/** Squares along the longer side of the ink at most; below that they are 1 mm. */
const MOST_SQUARES = 1500;

/** Frames looked at over evenly spread shifts, and the shifts in each direction that this leaves at least and at most. */
const SPREAD_FRAMES = 20_000;
const SPREAD = { least: 10, most: 48 };

/** The ink of a template, ready for many questions. */
export function inkGridOf(strokes: readonly Stroke[]): InkGrid {
  const box = boundsOfPoints(strokes.flatMap(({ points }) => points));
  return new InkGrid(strokes, box, Math.max(1, Math.max(box.maxX - box.minX, box.maxY - box.minY) / MOST_SQUARES));
}

/**
 * The grid with the fewest printed frames over all shifts, with up to one row and one column more than needed: a branch-and-bound search
 * that, up to a dozen sheets, leaves out no shift by more than 0.5 mm. Among equals the one whose joints run through the least ink and that lies most evenly;
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
  // The least so far, and every shift that needs no more.
  let least = Infinity;
  let found: Omit<Grid, "cells">[] = [];
  const look = (space: Space, left: number, top: number): void => {
    const grid = { columns: space.columns, rows: space.rows, left, top };
    const count = printed(ink, size, grid, least)?.length;
    if (count === undefined) return;
    if (count < least) [least, found] = [count, []];
    found.push(grid);
  };
  for (const space of spaces) {
    const count = Math.sqrt(SPREAD_FRAMES / (space.columns * space.rows));
    const tops = spreadOver(space.tops, space.rows, count);
    for (const left of spreadOver(space.lefts, space.columns, count)) for (const top of tops) look(space, left, top);
  }
  // Where fewer are found in a narrow place only, no even spread may hit it.
  for (const space of spaces) {
    const fewer = search(ink, size, space, least);
    if (fewer) look(space, fewer.left, fewer.top);
  }
  const spaceOf = ({ columns: c, rows: r }: Omit<Grid, "cells">): Space => spaces.find((s) => s.columns === c && s.rows === r)!;
  const cost = (grid: Omit<Grid, "cells">): number => {
    const { lefts, tops } = spaceOf(grid);
    const off = Math.abs(grid.left - middleOf(lefts)) + Math.abs(grid.top - middleOf(tops));
    return inkOnJoints(ink, size, grid) + off * UNEVEN;
  };
  const ranked = found.map((grid) => ({ grid, cost: cost(grid) })).toSorted((a, b) => a.cost - b.cost);
  const tried = Math.min(MOST_TRIED, ranked.length);
  const grids = Array.from({ length: tried }, (_, i) => {
    const { grid } = ranked[Math.floor((i * ranked.length) / tried)]!;
    return trimmed({ ...grid, cells: printed(ink, size, grid, least)! }, size);
  });
  return firstSuiting(grids, ink, size, suits);
}

/** Grids of equal count that are tried for whether they suit, from the best to the worst. */
const MOST_TRIED = 8;

/** About `count` shifts spread evenly, the ends and the middle among them; one row of frames needs no search. */
function spreadOver(shifts: Shifts, frames: number, count: number): number[] {
  if (frames === 1) return [middleOf(shifts)];
  const steps = 2 * Math.round(Math.min(SPREAD.most, Math.max(SPREAD.least, count)) / 2);
  return Array.from({ length: steps + 1 }, (_, i) => shifts.low + ((shifts.high - shifts.low) * i) / steps);
}

/**
 * The same grid moved by (dx, dy), with what rows and columns it then takes to cover the ink. A single row or column may go aside to
 * become one that `suits`.
 */
export function shiftedGrid(
  ink: InkGrid,
  size: FrameSize,
  grid: Grid,
  by: Vec,
  suits: (grid: Grid) => boolean = () => true,
): Grid {
  const box = growBounds(ink.box, RIM_ROOM);
  const [stepX, stepY] = [size.width - size.overlap, size.height - size.overlap];
  const left = grid.left + by.x - Math.max(0, Math.ceil((grid.left + by.x - box.minX) / stepX - 1e-9)) * stepX;
  const top = grid.top + by.y + Math.max(0, Math.ceil((box.maxY - grid.top - by.y) / stepY - 1e-9)) * stepY;
  const columns = framesFor(box.maxX - left, size.width, size.overlap);
  const rows = framesFor(top - box.minY, size.height, size.overlap);
  const moved = trimmed({ columns, rows, left, top, cells: printed(ink, size, { columns, rows, left, top }, Infinity)! }, size);
  return firstSuiting([moved], ink, size, suits);
}

/** The first grid that suits, or else the first that does with its single row or column put aside, or else the first. */
function firstSuiting(grids: readonly Grid[], ink: InkGrid, size: FrameSize, suits: (grid: Grid) => boolean): Grid {
  const aside = (grid: Grid): Grid[] => {
    const { minX, minY, maxX, maxY } = growBounds(ink.box, RIM_ROOM);
    if (grid.rows === 1) return [maxY + ASIDE, minY - ASIDE + size.height].map((top) => ({ ...grid, top }));
    if (grid.columns === 1) return [minX - ASIDE, maxX + ASIDE - size.width].map((left) => ({ ...grid, left }));
    return [];
  };
  const covers = (grid: Grid): boolean => {
    const { minX, minY, maxX, maxY } = gridBounds(grid, size);
    return minX <= ink.box.minX && minY <= ink.box.minY && maxX >= ink.box.maxX && maxY >= ink.box.maxY;
  };
  return grids.find(suits) ?? grids.flatMap(aside).filter(covers).find(suits) ?? grids[0]!;
}

/** What a row put aside keeps from the rim, mm. */
const ASIDE = 4;

/** What a shift of 1 mm from the middle counts beside a square of ink on a joint. */
const UNEVEN = 0.5;

/** How near to the joints ink counts against them, mm: each band once, so the nearer the more. */
const JOINT_BANDS = [3, 6, 12];

/** Squares of ink near the joints: what a joint runs along or through. */
function inkOnJoints(ink: InkGrid, size: FrameSize, grid: Omit<Grid, "cells">): number {
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
