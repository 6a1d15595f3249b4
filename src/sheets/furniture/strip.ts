/** The title strip along the foot of a sheet: check bars, what the sheet is, the map of all sheets, the sheet's own letters. */
import { textWidth, wrap } from "../lettering.ts";
import type { Rect } from "../sheet.ts";
import type { Cell, Grid } from "../frames.ts";
import { BARS_DEPTH, BARS_LENGTH, drawBars } from "./bars.ts";
import { tagOf } from "./joints.ts";
import { LARGE, LEADING, linesHeight, PLAIN, SMALL, type Pen } from "./pen.ts";
import { rectangle } from "../../geometry/path.ts";

/** What a strip says. */
export interface StripWords {
  /** Part and template. */
  readonly title: string;
  /** Small lines under the title, each wrapped as needed. */
  readonly lines: readonly string[];
}

/** Where everything in the strip stands, from its lower left corner. */
export interface Strip {
  readonly words: StripWords;
  readonly height: number;
  readonly width: number;
  readonly wide: boolean;
  readonly title: readonly string[];
  readonly lines: readonly string[];
}

const PAD = 2;
const TAG_WIDTH = 17;
const MAP_WIDTH = 24;
/** From this width on, bars and words stand side by side. */
const SIDE_BY_SIDE = 225;

/** How high the strip must be on a sheet with `width` mm to print on. */
export function arrangeStrip(width: number, words: StripWords): Strip {
  const wide = width >= SIDE_BY_SIDE;
  const textRoom = width - TAG_WIDTH - 2 * PAD - (wide ? BARS_LENGTH + MAP_WIDTH + 2 * PAD : 0);
  const title = wrap(words.title, textRoom, PLAIN);
  const lines = words.lines.flatMap((line) => wrap(line, textRoom, SMALL));
  const textHeight = wordsHeight(title.length, lines.length);
  const height = wide ? Math.max(textHeight, BARS_DEPTH) + PAD : textHeight + BARS_DEPTH + 2 * PAD;
  return { words, height, width, wide, title, lines };
}

const wordsHeight = (title: number, lines: number): number =>
  linesHeight(title, PLAIN) + (lines > 0 ? SMALL * (LEADING - 1) + 0.4 + linesHeight(lines, SMALL) : 0);

/** Draws the strip with its lower left corner at (x, y). */
export function drawStrip(
  pen: Pen,
  x: number,
  y: number,
  strip: Strip,
  sheet: { readonly tag: string; readonly count: string; readonly grid?: Grid; readonly cell?: Cell },
): void {
  const top = y + strip.height;
  const right = x + strip.width;
  drawBars(pen, x, y, "across");
  pen.layer("title-strip");
  // A tile's frame closes the strip; a whole sheet has none.
  if (!sheet.grid) pen.line(x, top, right, top, "narrow", "title strip");
  const textX = strip.wide ? x + BARS_LENGTH + PAD : x;
  pen.lines(textX, top - PAD, strip.title, PLAIN, { strong: true });
  pen.lines(textX, top - PAD - linesHeight(strip.title.length, PLAIN) - SMALL * (LEADING - 1) - 0.4, strip.lines, SMALL);
  if (strip.wide) pen.line(x + BARS_LENGTH, y, x + BARS_LENGTH, top - 1, "narrow", "divider");
  pen.text(right, top - PAD - LARGE, sheet.tag, sheet.tag.length > 3 ? PLAIN : LARGE, { align: "end", strong: true });
  pen.text(right, top - PAD - LARGE - 3.4, sheet.count, SMALL, { align: "end" });
  if (sheet.grid && sheet.cell) {
    const mapRight = strip.wide ? right - TAG_WIDTH - PAD : right;
    const mapTop = strip.wide ? top - PAD : y + BARS_DEPTH;
    drawMap(
      pen,
      { x0: Math.max(mapRight - MAP_WIDTH, x + BARS_LENGTH + 1), x1: mapRight, y0: y, y1: mapTop },
      sheet.grid,
      sheet.cell,
    );
  }
}

/** Every sheet as a small box in its place, this one with a wide line; blank ones are left out. */
function drawMap(pen: Pen, room: Rect, grid: Grid, here: Cell): void {
  const side = Math.min((room.x1 - room.x0) / grid.columns, (room.y1 - room.y0) / grid.rows, 9);
  const high = Math.min(side, (room.y1 - room.y0) / grid.rows);
  const left = room.x1 - side * grid.columns;
  pen.layer("map");
  for (const cell of grid.cells) {
    const [x, y] = [left + cell.column * side, room.y1 - (cell.row + 1) * high];
    const current = cell.row === here.row && cell.column === here.column;
    pen.path(rectangle(x + 0.4, y + 0.4, x + side - 0.4, y + high - 0.4), current ? "visible" : "narrow", `sheet ${tagOf(cell)}`);
    if (textWidth(tagOf(cell), SMALL) <= side - 1.2 && high >= 3.4) {
      pen.text(x + side / 2, y + (high - SMALL) / 2, tagOf(cell), SMALL, { align: "middle", strong: current });
    }
  }
}
