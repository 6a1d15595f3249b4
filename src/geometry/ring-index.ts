import type { Ring } from "./region.ts";
import { distance, distanceToSegment, type Vec } from "./vec.ts";

/** Finds the nearest of many straight sides without looking at all of them. */
export interface RingIndex {
  /** Distance from p to the nearest side, if it is at most `reach` mm; undefined if all are further. */
  readonly distanceWithin: (p: Vec, reach: number) => number | undefined;
}

/** Cells are never so small that a side fills many of them. */
const SIDES_A_CELL = 2;

/** One exact number for a pair of cell numbers, which stay far below 2^25 either way. */
const key = (i: number, j: number): number => i * 0x4000000 + j;

/** Of the straight line through two points, at x between them. */
const heightAt = (a: Vec, b: Vec, x: number): number => a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);

/** Sorts the sides of the rings into square cells, for questions with a reach of about `reach` mm. */
export function ringIndex(rings: readonly Ring[], reach: number): RingIndex {
  const sides: { a: Vec; b: Vec }[] = [];
  let length = 0;
  for (const ring of rings)
    for (const [i, a] of ring.entries()) {
      const b = ring[(i + 1) % ring.length]!;
      sides.push({ a, b });
      length += distance(a, b);
    }
  const cell = Math.max(reach, (SIDES_A_CELL * length) / Math.max(1, sides.length), 1e-9);
  const cells = new Map<number, number[]>();
  const column = (x: number): number => Math.floor(x / cell);
  for (const [index, { a, b }] of sides.entries()) {
    // The side's way through the grid: the cells its box covers, column by column, so that a slanted side fills no square of them.
    const [first, last] = a.x <= b.x ? [a, b] : [b, a];
    const [from, to] = [column(first.x), column(last.x)];
    for (let i = from; i <= to; i++) {
      const y0 = i > from ? heightAt(first, last, i * cell) : first.y;
      const y1 = i < to ? heightAt(first, last, (i + 1) * cell) : last.y;
      // A hair more on either end, for rounding at the cell's edge.
      for (let j = column(Math.min(y0, y1) - 1e-9); j <= column(Math.max(y0, y1) + 1e-9); j++) {
        const at = key(i, j);
        const list = cells.get(at);
        if (list) list.push(index);
        else cells.set(at, [index]);
      }
    }
  }
  return {
    distanceWithin: (p, within) => {
      let best = within;
      let found = false;
      for (let i = column(p.x - within - 1e-9); i <= column(p.x + within + 1e-9); i++)
        for (let j = column(p.y - within - 1e-9); j <= column(p.y + within + 1e-9); j++)
          for (const index of cells.get(key(i, j)) ?? []) {
            const { a, b } = sides[index]!;
            const away = distanceToSegment(p, a, b);
            if (away <= best) {
              best = away;
              found = true;
            }
          }
      return found ? best : undefined;
    },
  };
}
