/** Lays small pieces on as few sheets as possible by their true silhouettes, in quarter turns, a gap kept between them. */
import type { Grain } from "../parts/contract.ts";
import type { Stroke } from "./ink.ts";
import { silhouetteOf, type Silhouette } from "./silhouette.ts";
import type { Placement } from "./sheet.ts";
import { turnStroke } from "./turn.ts";

export interface Nested {
  /** Index into the pieces given. */
  readonly piece: number;
  readonly sheet: number;
  /** From the piece's own axes to the frame's: origin at its lower left corner. */
  readonly at: Placement;
}

export interface NestOptions {
  /** The room on every sheet, mm. */
  readonly width: number;
  readonly height: number;
  /** Least distance between pieces, and from a piece to the rim and to what is taken, mm. */
  readonly gap: number;
  /** Taken on every sheet: rectangles in the frame's coordinates. */
  readonly taken: readonly { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number }[];
  /** Which way the grain of a piece runs, by its index; all that have one lie with it the same way. */
  readonly grains?: readonly (Grain | undefined)[];
}

/** Side of a square, mm, on sheets up to 600 mm; larger sheets have as many squares. */
const SQUARES_A_SIDE = 600;

/**
 * Places every piece that fits on an empty sheet; those that do not are left out of the result. Several orders are tried (by area, by the
 * longer side, by height) and both ways of the grain, and the one with the fewest sheets kept, then the one that leaves the last sheet emptiest.
 */
export function nest(pieces: readonly (readonly Stroke[])[], options: NestOptions): Nested[] {
  const size = Math.max(1, Math.max(options.width, options.height) / SQUARES_A_SIDE);
  const turned = pieces.map((strokes) =>
    TURNS.map((turn) =>
      silhouetteOf(
        strokes.map((stroke) => turnStroke(stroke, turn)),
        size,
      ),
    ),
  );
  const by = (key: (s: Silhouette) => number): number[] =>
    pieces.map((_, i) => i).toSorted((a, b) => key(turned[b]![0]!) - key(turned[a]![0]!) || a - b);
  const orders = [by((s) => s.area), by((s) => Math.max(s.columns, s.rows)), by((s) => s.columns * s.rows)];
  const { grains = [] } = options;
  const ways: readonly Grain[] = grains.some((grain) => grain !== undefined) ? ["along-x", "along-y"] : ["along-x"];
  let best: { placed: Nested[]; sheets: number; used: number } | undefined;
  for (const way of ways) {
    const turnsOf = pieces.map((_, i) => TURNS.filter((turn) => lyingGrain(grains[i], turn) === (grains[i] && way)));
    for (const order of orders) {
      const found = nestInOrder(order, turned, turnsOf, options, size);
      if (!best || found.sheets < best.sheets || (found.sheets === best.sheets && found.used < best.used)) best = found;
    }
  }
  return best!.placed.toSorted((a, b) => a.sheet - b.sheet || a.piece - b.piece);
}

const TURNS = [0, 1, 2, 3] as const;

/** Which way the grain runs on the sheet once its piece is turned. */
export const lyingGrain = (grain: Grain | undefined, turn: Placement["turn"]): Grain | undefined =>
  grain === undefined || turn % 2 === 0 ? grain : grain === "along-x" ? "along-y" : "along-x";

function nestInOrder(
  order: readonly number[],
  turned: readonly (readonly Silhouette[])[],
  turnsOf: readonly (readonly Placement["turn"][])[],
  options: NestOptions,
  size: number,
): { placed: Nested[]; sheets: number; used: number } {
  const sheets: Tray[] = [];
  const placed: Nested[] = [];
  let leftOut = 0;
  for (const piece of order) {
    for (let sheet = 0; ; sheet++) {
      const fresh = sheet === sheets.length;
      const tray = sheets[sheet] ?? new Tray(options, size);
      const at = tray.place(turned[piece]!, turnsOf[piece]!);
      if (at) {
        if (fresh) sheets.push(tray);
        placed.push({ piece, sheet, at });
        break;
      }
      if (fresh) {
        leftOut++;
        break;
      }
    }
  }
  // What is left out takes a sheet of its own.
  return { placed, sheets: sheets.length + leftOut, used: sheets.at(-1)?.used ?? 0 };
}

/** One sheet being filled, from its upper left corner. */
class Tray {
  readonly #columns: number;
  readonly #rows: number;
  readonly #size: number;
  readonly #gap: number;
  /** For every square, how far right the next taken square of its row lies (0: taken itself). */
  readonly #clear: Uint16Array;
  readonly #taken: Uint8Array;
  /** Squares used, counted from the top. */
  used = 0;

  constructor({ width, height, gap, taken }: NestOptions, size: number) {
    this.#size = size;
    this.#columns = Math.floor(width / size + 1e-9);
    this.#rows = Math.floor(height / size + 1e-9);
    this.#gap = Math.ceil(gap / size);
    this.#taken = new Uint8Array(this.#columns * this.#rows);
    this.#clear = new Uint16Array(this.#columns * this.#rows);
    for (const { x0, y0, x1, y1 } of taken) {
      const [from, to] = [Math.floor(x0 / size) - this.#gap, Math.ceil(x1 / size) + this.#gap];
      const [low, high] = [Math.floor(y0 / size) - this.#gap, Math.ceil(y1 / size) + this.#gap];
      for (let j = Math.max(0, low); j < Math.min(this.#rows, high); j++) this.#take(j, from, to);
    }
    for (let j = 0; j < this.#rows; j++) this.#measure(j);
  }

  /** Takes the highest, then leftmost place of the turn that reaches down the least. Undefined where no turn fits. */
  place(shapes: readonly Silhouette[], turns: readonly Placement["turn"][]): Placement | undefined {
    let best: { turn: Placement["turn"]; column: number; row: number } | undefined;
    for (const turn of turns) {
      const shape = shapes[turn]!;
      // Half turns fill the same box; they are tried only where the upright one found nothing better.
      const found = this.#find(shape, best ? best.row + 1 : this.#gap);
      if (found && (!best || found.row > best.row)) best = { turn, ...found };
    }
    if (!best) return undefined;
    const shape = shapes[best.turn]!;
    for (const run of shape.runs) {
      for (let j = best.row + run.row - this.#gap; j <= best.row + run.row + this.#gap; j++) {
        if (j >= 0 && j < this.#rows) this.#take(j, best.column + run.from - this.#gap, best.column + run.to + this.#gap);
      }
    }
    for (let j = Math.max(0, best.row - this.#gap); j < Math.min(this.#rows, best.row + shape.rows + this.#gap); j++)
      this.#measure(j);
    this.used = Math.max(this.used, this.#rows - best.row);
    return { turn: best.turn, x: best.column * this.#size - shape.box.minX, y: best.row * this.#size - shape.box.minY };
  }

  /** The place whose lowest row is highest, `floor` or above. */
  #find(shape: Silhouette, floor: number): { column: number; row: number } | undefined {
    const lastColumn = this.#columns - shape.columns - this.#gap;
    for (let row = this.#rows - shape.rows - this.#gap; row >= floor; row--) {
      for (let column = this.#gap; column <= lastColumn;) {
        const ahead = this.#blockedBy(shape, column, row);
        if (ahead === 0) return { column, row };
        column += ahead;
      }
    }
    return undefined;
  }

  /** 0 where the shape finds room at (column, row), else how far right it must at least go to pass what is in the way. */
  #blockedBy(shape: Silhouette, column: number, row: number): number {
    for (const { row: r, from, to } of shape.longest) {
      const at = (row + r) * this.#columns + column + from;
      const free = this.#clear[at]!;
      if (free >= to - from) continue;
      let past = free;
      while (past < to - from && this.#taken[at + past] === 1) past++;
      return past;
    }
    return 0;
  }

  #take(row: number, from: number, to: number): void {
    this.#taken.fill(1, row * this.#columns + Math.max(0, from), row * this.#columns + Math.max(0, Math.min(this.#columns, to)));
  }

  #measure(row: number): void {
    let free = 0;
    for (let i = this.#columns - 1; i >= 0; i--) {
      free = this.#taken[row * this.#columns + i] === 1 ? 0 : free + 1;
      this.#clear[row * this.#columns + i] = free;
    }
  }
}
