/** Branch and bound over the shifts of a grid of frames: where the fewest are printed. */
import { RIM, type InkGrid } from "./grid.ts";
import { printed, type FrameSize } from "./frames.ts";

/** Shifts nearer to each other than this are not told apart, mm. */
const FINEST = 0.5;

/** Frames looked at in one search at most: enough for a dozen sheets to the finest shift. */
const MOST_FRAMES = 40_000;

/** An interval of shifts. */
export interface Shifts {
  readonly low: number;
  readonly high: number;
}

export interface Space {
  readonly columns: number;
  readonly rows: number;
  readonly lefts: Shifts;
  readonly tops: Shifts;
}

/** Where a row of frames may begin so that it covers from `low` to `high`; `way` -1 counts down from the top. */
export function shiftsOf(low: number, high: number, count: number, frame: number, overlap: number, way: 1 | -1): Shifts {
  const reach = (count - 1) * (frame - overlap) + frame;
  return way === 1 ? { low: high - reach, high: low } : { low: high, high: low + reach };
}

export const middleOf = ({ low, high }: Shifts): number => (low + high) / 2;

/**
 * The shift with the fewest printed frames, if below `most`: halves the space, the most promising part first, until no part can hold
 * fewer than the best so far.
 */
export function search(
  ink: InkGrid,
  size: FrameSize,
  space: Space,
  most: number,
): { count: number; left: number; top: number } | undefined {
  let best: { count: number; left: number; top: number } | undefined;
  let below = most;
  const open: { readonly lefts: Shifts; readonly tops: Shifts }[][] = [];
  const put = (lefts: Shifts, tops: Shifts): void => {
    const sure = surelyPrinted(ink, size, space, lefts, tops, below);
    if (sure < below) (open[sure] ??= []).push({ lefts, tops });
  };
  put(space.lefts, space.tops);
  for (let looked = 0; looked < MOST_FRAMES; looked += 3 * space.columns * space.rows) {
    const part = open.find((parts, sure) => sure < below && parts?.length > 0)?.pop();
    if (!part) break;
    const { lefts, tops } = part;
    const [left, top] = [middleOf(lefts), middleOf(tops)];
    const count = printed(ink, size, { ...space, left, top }, below - 1)?.length;
    if (count !== undefined) {
      below = count;
      best = { count, left, top };
    }
    const [wide, high] = [space.columns === 1 ? 0 : lefts.high - lefts.low, space.rows === 1 ? 0 : tops.high - tops.low];
    if (Math.max(wide, high) < FINEST) continue;
    if (wide >= high) {
      put({ low: lefts.low, high: left }, tops);
      put({ low: left, high: lefts.high }, tops);
    } else {
      put(lefts, { low: tops.low, high: top });
      put(lefts, { low: top, high: tops.high });
    }
  }
  return best;
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
