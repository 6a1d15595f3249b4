/** Finds room on a sheet for what may stand anywhere: rectangles free of ink and of each other. */
import type { Vec } from "../geometry/vec.ts";
import { Sums, visitSquares } from "./grid.ts";
import type { Stroke } from "./ink.ts";
import type { Rect } from "./sheet.ts";

/** Side of a square, mm. */
const SIZE = 1;
/** Squares kept free round every line of ink. */
const CLEAR = 2;

export class FreeRoom {
  readonly #area: Rect;
  readonly #columns: number;
  readonly #rows: number;
  readonly #cells: Uint8Array;
  #sums: Sums | undefined;

  /** Room within `area`, with nothing in it. */
  constructor(area: Rect) {
    this.#area = area;
    this.#columns = Math.max(1, Math.ceil((area.x1 - area.x0) / SIZE));
    this.#rows = Math.max(1, Math.ceil((area.y1 - area.y0) / SIZE));
    this.#cells = new Uint8Array(this.#columns * this.#rows);
  }

  /** Takes the strokes, shifted, and 2 mm round them. */
  takeStrokes(strokes: readonly Stroke[], shift: Vec = { x: 0, y: 0 }): void {
    const origin = { x: this.#area.x0 - shift.x, y: this.#area.y0 - shift.y };
    const reach = (CLEAR + 1) * SIZE;
    const [x0, y0] = [origin.x - reach, origin.y - reach];
    const [x1, y1] = [origin.x + this.#columns * SIZE + reach, origin.y + this.#rows * SIZE + reach];
    for (const { points, closed } of strokes) {
      for (let k = closed ? 0 : 1; k < points.length; k++) {
        const [a, b] = [points[k === 0 ? points.length - 1 : k - 1]!, points[k]!];
        if ((a.x < x0 && b.x < x0) || (a.x > x1 && b.x > x1) || (a.y < y0 && b.y < y0) || (a.y > y1 && b.y > y1)) continue;
        visitSquares(a, b, origin, SIZE, (i, j) => this.#fill(i - CLEAR, j - CLEAR, i + CLEAR + 1, j + CLEAR + 1));
      }
    }
    this.#sums = undefined;
  }

  /** Takes a rectangle. */
  take({ x0, y0, x1, y1 }: Rect): void {
    const { x0: ox, y0: oy } = this.#area;
    this.#fill(
      Math.floor((x0 - ox) / SIZE),
      Math.floor((y0 - oy) / SIZE),
      Math.ceil((x1 - ox) / SIZE),
      Math.ceil((y1 - oy) / SIZE),
    );
    this.#sums = undefined;
  }

  /** Whether the rectangle lies within the area and is free. */
  isFree({ x0, y0, x1, y1 }: Rect): boolean {
    const { x0: ox, y0: oy, x1: ex, y1: ey } = this.#area;
    if (x0 < ox - 1e-6 || y0 < oy - 1e-6 || x1 > ex + 1e-6 || y1 > ey + 1e-6) return false;
    this.#sums ??= new Sums(this.#columns, this.#rows, this.#cells);
    return (
      this.#sums.within(
        Math.floor((x0 - ox) / SIZE + 1e-6),
        Math.floor((y0 - oy) / SIZE + 1e-6),
        Math.ceil((x1 - ox) / SIZE - 1e-6),
        Math.ceil((y1 - oy) / SIZE - 1e-6),
      ) === 0
    );
  }

  /**
   * Takes the first free room of the size: along the side `from` first, from its low to its high end (`left` and `right` go up from the
   * bottom, `top` and `bottom` from the left). Undefined where there is none.
   */
  find(width: number, height: number, from: "left" | "right" | "top" | "bottom"): Rect | undefined {
    const { columns, rows } = this.#lastFor(width, height);
    if (columns < 0 || rows < 0) return undefined;
    const upright = from === "left" || from === "right";
    const back = from === "right" || from === "top";
    const [outer, inner] = upright ? [columns, rows] : [rows, columns];
    const [wide, high] = [Math.ceil(width / SIZE), Math.ceil(height / SIZE)];
    const [deep, across] = upright ? [wide, high] : [high, wide];
    const [lineStep, alongStep] = upright ? [1, this.#columns] : [this.#columns, 1];
    const [lines, along] = upright ? [this.#columns, this.#rows] : [this.#rows, this.#columns];
    // Line by line from the side: how many lines back each place along it is free, and a run of places free far enough back.
    const free = new Uint32Array(inner + across);
    for (let n = 0; n < outer + deep; n++) {
      const line = back ? outer + deep - 1 - n : n;
      for (let k = 0, run = 0; k < free.length; k++) {
        free[k] = line < lines && k < along && this.#cells[line * lineStep + k * alongStep] === 1 ? 0 : free[k]! + 1;
        run = free[k]! >= deep ? run + 1 : 0;
        if (run < across) continue;
        const [a, b] = [back ? line : line - deep + 1, k - across + 1];
        return upright ? this.#taken(a, b, width, height) : this.#taken(b, a, width, height);
      }
    }
    return undefined;
  }

  /** Takes the free room of the size whose middle is nearest to (x, y). Undefined where there is none. */
  findNear(x: number, y: number, width: number, height: number): Rect | undefined {
    const { columns, rows } = this.#lastFor(width, height);
    const sums = (this.#sums ??= new Sums(this.#columns, this.#rows, this.#cells));
    const [wide, high] = [Math.ceil(width / SIZE), Math.ceil(height / SIZE)];
    const [atX, atY] = [(x - width / 2 - this.#area.x0) / SIZE, (y - height / 2 - this.#area.y0) / SIZE];
    let [nearest, at]: [number, readonly [number, number] | undefined] = [Infinity, undefined];
    for (let i = 0; i <= columns; i++) {
      for (let j = 0; j <= rows; j++) {
        const apart = (i - atX) ** 2 + (j - atY) ** 2;
        if (apart < nearest && sums.within(i, j, i + wide, j + high) === 0) [nearest, at] = [apart, [i, j]];
      }
    }
    return at && this.#taken(at[0], at[1], width, height);
  }

  /** The last square at which a room of the size may begin, negative where it is too large for the area. */
  #lastFor(width: number, height: number): { columns: number; rows: number } {
    const { x0, y0, x1, y1 } = this.#area;
    return { columns: Math.floor((x1 - x0 - width) / SIZE + 1e-9), rows: Math.floor((y1 - y0 - height) / SIZE + 1e-9) };
  }

  /** Takes the room that begins at square (i, j). */
  #taken(i: number, j: number, width: number, height: number): Rect {
    const [x, y] = [this.#area.x0 + i * SIZE, this.#area.y0 + j * SIZE];
    const room = { x0: x, y0: y, x1: x + width, y1: y + height };
    this.take(room);
    return room;
  }

  #fill(i0: number, j0: number, i1: number, j1: number): void {
    for (let j = Math.max(0, j0); j < Math.min(this.#rows, j1); j++) {
      this.#cells.fill(1, j * this.#columns + Math.max(0, i0), j * this.#columns + Math.max(0, Math.min(this.#columns, i1)));
    }
  }
}

/** What stands freely keeps off the frame's own line by this, mm. */
export const INSIDE = 1;

/** The free room in a frame in which the strokes lie, shifted. */
export function roomAround({ x0, y0, x1, y1 }: Rect, strokes: readonly Stroke[], shift: Vec): FreeRoom {
  const room = new FreeRoom({ x0: x0 + INSIDE, y0: y0 + INSIDE, x1: x1 - INSIDE, y1: y1 - INSIDE });
  room.takeStrokes(strokes, shift);
  return room;
}
