/** Two crosses on far sheets of a tiling, whose distance the maker measures once the sheets are joined. */
import type { FreeRoom } from "../free-room.ts";
import { textWidth } from "../lettering.ts";
import { SMALL, type Pen } from "./pen.ts";
import type { Tile } from "./joints.ts";

export interface Measured {
  readonly distance: number;
  readonly from: { readonly tile: Tile; readonly x: number; readonly y: number };
  readonly to: { readonly tile: Tile; readonly x: number; readonly y: number };
  readonly way: "across" | "along";
}

/** Reach of a cross, mm. */
const REACH = 3;
/** Distances are whole multiples of this, mm. */
const ROUND = 10;
const SEARCH = 3;

const words = (distance: number, say: (mm: number) => string): string[] => {
  const said = say(distance);
  return ["joined sheets, cross to cross", `${distance.toFixed(2)} mm${/mm\s*$/.test(said) ? "" : ` = ${said}`}`];
};
const widthOf = (said: readonly string[]): number => Math.max(...said.map((line) => textWidth(line, SMALL)));

/**
 * The longest distance in whole centimetres between free places on two sheets of one row (or, failing that, of one column), both in their
 * tiles' pages; undefined where no room is left.
 */
export function findMeasured(
  tiles: readonly { readonly tile: Tile; readonly room: FreeRoom }[],
  say: (mm: number) => string,
): Measured | undefined {
  let best: Measured | undefined;
  const wide = widthOf(words(9999.99, say)) + 1;
  for (const a of tiles) {
    for (const b of tiles) {
      const across = a.tile.cell.row === b.tile.cell.row && a.tile.cell.column < b.tile.cell.column;
      const along = a.tile.cell.column === b.tile.cell.column && a.tile.cell.row > b.tile.cell.row;
      if (!across && !along) continue;
      const found = across ? searchAcross(a, b, wide) : searchAlong(a, b, wide);
      if (found && (!best || found.distance > best.distance)) best = found;
    }
  }
  return best;
}

type Candidate = { readonly tile: Tile; readonly room: FreeRoom };

/** Left cross with its words to the right of it, right cross with its words to the left. */
function searchAcross(a: Candidate, b: Candidate, wide: number): Measured | undefined {
  const [fa, fb] = [a.tile.frame, b.tile.frame];
  const lift = b.tile.shift.y - a.tile.shift.y;
  let best: Measured | undefined;
  for (let y = fa.y1 - 6; y > fa.y0 + 6; y -= SEARCH) {
    const x = firstFree(fa.x0 + 4, fa.x1 - wide, 1, (p) =>
      a.room.isFree({ x0: p - REACH - 1, x1: p + wide + REACH, y0: y - REACH - 1, y1: y + REACH + 1 }),
    );
    if (x === undefined) continue;
    const gridX = x - a.tile.shift.x;
    const xMost = fb.x1 - 4;
    const start = gridX + Math.floor((xMost - b.tile.shift.x - gridX) / ROUND) * ROUND + b.tile.shift.x;
    const to = firstFree(start, fb.x0 + wide, -ROUND, (p) =>
      b.room.isFree({ x0: p - wide - REACH, x1: p + REACH + 1, y0: y + lift - REACH - 1, y1: y + lift + REACH + 1 }),
    );
    if (to === undefined) continue;
    const distance = Math.round(to - b.tile.shift.x - gridX);
    if (!best || distance > best.distance)
      best = { distance, way: "across", from: { tile: a.tile, x, y }, to: { tile: b.tile, x: to, y: y + lift } };
  }
  return best;
}

/** Lower cross with its words above it, upper cross with its words below. */
function searchAlong(a: Candidate, b: Candidate, wide: number): Measured | undefined {
  const [fa, fb] = [a.tile.frame, b.tile.frame];
  const lift = b.tile.shift.x - a.tile.shift.x;
  let best: Measured | undefined;
  for (let x = fa.x0 + 6; x < fa.x1 - 6; x += SEARCH) {
    const y = firstFree(fa.y0 + 4, fa.y1 - wide, 1, (p) =>
      a.room.isFree({ y0: p - REACH - 1, y1: p + wide + REACH, x0: x - REACH - 1, x1: x + REACH + 1 }),
    );
    if (y === undefined) continue;
    const gridY = y - a.tile.shift.y;
    const start = gridY + Math.floor((fb.y1 - 4 - b.tile.shift.y - gridY) / ROUND) * ROUND + b.tile.shift.y;
    const to = firstFree(start, fb.y0 + wide, -ROUND, (p) =>
      b.room.isFree({ y0: p - wide - REACH, y1: p + REACH + 1, x0: x + lift - REACH - 1, x1: x + lift + REACH + 1 }),
    );
    if (to === undefined) continue;
    const distance = Math.round(to - b.tile.shift.y - gridY);
    if (!best || distance > best.distance)
      best = { distance, way: "along", from: { tile: a.tile, x, y }, to: { tile: b.tile, x: x + lift, y: to } };
  }
  return best;
}

function firstFree(from: number, to: number, step: number, free: (p: number) => boolean): number | undefined {
  for (let p = from; (to - p) * step >= 0; p += step) if (free(p)) return p;
  return undefined;
}

/** Draws the crosses that stand on `tile`, with the distance beside them, and takes their room. */
export function drawMeasured(pen: Pen, room: FreeRoom, tile: Tile, measured: Measured, say: (mm: number) => string): void {
  const said = words(measured.distance, say);
  const wide = widthOf(said) + 1;
  for (const [end, first] of [
    [measured.from, true],
    [measured.to, false],
  ] as const) {
    if (end.tile !== tile) continue;
    const { x, y } = end;
    pen.layer("assembled-length");
    pen.line(x - REACH, y, x + REACH, y, "narrow", "measuring cross");
    pen.line(x, y - REACH, x, y + REACH, "narrow", "measuring cross");
    const away = REACH + 1;
    const align = first ? "start" : "end";
    if (measured.way === "across") {
      pen.text(x + (first ? away : -away), y + 0.5, said[0]!, SMALL, { align });
      pen.text(x + (first ? away : -away), y - 0.7 - SMALL, said[1]!, SMALL, { align, strong: true });
      room.take({ x0: first ? x - away : x - wide - away, x1: first ? x + wide + away : x + away, y0: y - away, y1: y + away });
    } else {
      pen.text(x - 0.5, y + (first ? away : -away), said[0]!, SMALL, { align, upward: true });
      pen.text(x + 0.7 + SMALL, y + (first ? away : -away), said[1]!, SMALL, { align, upward: true, strong: true });
      room.take({ y0: first ? y - away : y - wide - away, y1: first ? y + wide + away : y + away, x0: x - away, x1: x + away });
    }
  }
}
