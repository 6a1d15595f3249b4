/** Where on a paper there is room to draw: its orientations, margins, the printer's correction. */
import { BARS_LENGTH } from "./furniture/bars.ts";
import { LONGEST_SIDE, SHORTEST_SIDE } from "./paper.ts";
import type { Rect, Sheet, SheetOptions } from "./sheet.ts";

/** A sheet as seen, before anything is on it. */
export interface Room extends Pick<Sheet, "width" | "height" | "turned" | "correction"> {
  readonly orientation: "portrait" | "landscape";
  /** Within the printer's margin on paper and in the corrected file. */
  readonly usable: Rect;
}

type Sized = Pick<SheetOptions, "paper" | "orientation" | "margin" | "printer" | "overlap">;

/** The largest correction taken: beyond it the measuring went wrong. */
export const MOST_CORRECTION = 0.1;

/** What is wrong with a choice of paper, margin, overlap or correction; undefined where it can be laid out. */
export function optionsProblem({
  paper,
  margin,
  overlap,
  printer,
}: Sized): { readonly message: string; readonly mend: string } | undefined {
  const side = paper.kind === "roll" ? paper.width : Math.min(paper.width, paper.height);
  const most = Math.floor((side - (SHORTEST_SIDE - 20)) / 2);
  if (!(margin >= 0 && margin <= most)) {
    return {
      message: `a margin of ${margin} mm leaves no room for a 100 mm bar on ${paper.label}`,
      mend: `Give a margin from 0 to ${most} mm.`,
    };
  }
  if (!(overlap === 0 || (overlap >= 4 && overlap <= 30)))
    return { message: `sheets cannot overlap by ${overlap} mm`, mend: "Give 4 to 30 mm, or 0 for a butt joint." };
  for (const [axis, factor] of [
    ["x", printer?.sx ?? 1],
    ["y", printer?.sy ?? 1],
  ] as const) {
    if (!(Math.abs(factor - 1) <= MOST_CORRECTION))
      return {
        message: `a correction of ${factor} along ${axis} is no printer's`,
        mend: "Measure the bars again: the factor is true length over printed length.",
      };
  }
  return undefined;
}

/** The sheets that may be used, as seen: upright, lying or both. A roll has one, `length` mm long. */
export function roomsOf(options: Sized, length = LONGEST_SIDE): Room[] {
  const { paper, orientation, margin, printer } = options;
  const [sx, sy] = [printer?.sx ?? 1, printer?.sy ?? 1];
  const named = { width: paper.width, height: paper.kind === "roll" ? length : paper.height };
  const asNamed = named.width <= named.height ? "portrait" : "landscape";
  const room = (turned: boolean): Room => {
    const [width, height] = turned ? [named.height, named.width] : [named.width, named.height];
    const correction = turned ? { x: sy, y: sx } : { x: sx, y: sy };
    // Corrected about the middle, what lies this near to it stays out of the margin in the file as well as on paper.
    const [halfX, halfY] = [(width / 2 - margin) / Math.max(1, correction.x), (height / 2 - margin) / Math.max(1, correction.y)];
    return {
      orientation: turned === (asNamed === "portrait") ? "landscape" : "portrait",
      width,
      height,
      turned,
      correction,
      usable: { x0: width / 2 - halfX, x1: width / 2 + halfX, y0: height / 2 - halfY, y1: height / 2 + halfY },
    };
  };
  if (paper.kind === "roll") return [room(false)];
  return [room(false), room(true)].filter((r) => orientation === "best" || r.orientation === orientation);
}

/** Length of roll that leaves `height` mm to draw on. */
export function rollLength(options: Sized, height: number): number {
  const sy = Math.max(1, options.printer?.sy ?? 1);
  return Math.min(LONGEST_SIDE / sy, Math.max(BARS_LENGTH + 40, height * sy + 2 * options.margin));
}
