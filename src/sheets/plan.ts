/** One way to lay a template on sheets: which way the paper and the template are turned, where the strip and the bars stand. */
import { BARS_DEPTH, BARS_LENGTH } from "./furniture/bars.ts";
import { CAPTION_WIDTH, captionFor } from "./furniture/captions.ts";
import { MARK_REACH } from "./furniture/joints.ts";
import { arrangeStrip, type Strip, type StripWords } from "./furniture/strip.ts";
import type { InkGrid } from "./grid.ts";
import type { Stroke } from "./ink.ts";
import { rollLength, roomsOf, type Room } from "./rooms.ts";
import type { Template } from "../templates/template.ts";
import type { Placement, Rect, SheetOptions } from "./sheet.ts";
import { frameOf, RIM_ROOM, type FrameSize, type Grid } from "./frames.ts";
import { fewestFrames, inkGridOf, shiftedGrid } from "./tiling.ts";
import { INSIDE, roomAround } from "./free-room.ts";
import { turnStroke } from "./turn.ts";

/** The parts of a sheet: the frame for templates, the strip below it, and a place for the upright bars where they have one of their own. */
export interface Setting {
  readonly room: Room;
  readonly frame: Rect;
  readonly strip: Strip;
  readonly stripAt: { readonly x: number; readonly y: number };
  /** Lower left corner of the upright bars; undefined where they find room in the frame. */
  readonly barsAt: { readonly x: number; readonly y: number } | undefined;
}

export interface Plan extends Setting {
  /** How the first template lies. */
  readonly turn: 0 | 1;
  readonly members: readonly Member[];
  /** The ink of all members in the grid's coordinates. */
  readonly strokes: readonly Stroke[];
  readonly ink: InkGrid;
  readonly size: FrameSize;
  readonly grid: Grid;
}

/** A template in the coordinates of a grid. */
export interface Member {
  readonly template: Template;
  readonly at: Placement;
  /** Lower left corner of the caption that names it where it is not alone. */
  readonly captionAt?: { readonly x: number; readonly y: number };
}

/** Between the strip and the frame, mm. */
const APART = 1;

/** Splits a room; `joined` keeps room for marks beyond the edges that are cut. Undefined where too little is left. */
export function settingOf(
  room: Room,
  words: StripWords,
  { overlap }: Pick<SheetOptions, "overlap">,
  joined: boolean,
  ownBars: boolean,
): Setting | undefined {
  const { usable } = room;
  const [cut, covered] = joined ? [MARK_REACH, Math.max(0, MARK_REACH - overlap)] : [0, 0];
  const left = usable.x0 + (ownBars ? BARS_DEPTH + APART : 0) + cut;
  const right = usable.x1 - covered;
  const strip = arrangeStrip(right - left, words);
  const frame = { x0: left, y0: usable.y0 + strip.height + APART + covered, x1: right, y1: usable.y1 - cut };
  if (Math.min(frame.x1 - frame.x0, frame.y1 - frame.y0) < LEAST_FRAME) return undefined;
  if (!ownBars && frame.y1 - frame.y0 < BARS_LENGTH) return undefined;
  return { room, frame, strip, stripAt: { x: left, y: usable.y0 }, barsAt: ownBars ? { x: usable.x0, y: usable.y0 } : undefined };
}

/** A frame narrower than this is not worth a sheet, mm. */
const LEAST_FRAME = 50;

/**
 * Every orientation of paper and template, with the fewest sheets for each, best first. The upright bars have a place of their own where
 * the plan without one cannot be drawn.
 */
export function plansFor(
  { template, strokes }: Piece,
  words: StripWords,
  options: SheetOptions,
  canDraw: (plan: Plan) => boolean,
  shift?: { readonly x: number; readonly y: number },
): Plan[] {
  const plans: Plan[] = [];
  for (const turn of [0, 1] as const) {
    const lying: Lying = {
      turn,
      members: [{ template, at: { turn, x: 0, y: 0 } }],
      strokes: strokes.map((stroke) => turnStroke(stroke, turn)),
    };
    const ink = inkGridOf(lying.strokes);
    for (const room of roomsFor(ink, words, options)) {
      const plan = planIn(room, { ...lying, ink }, words, options, canDraw, shift);
      if (plan) plans.push(plan);
    }
  }
  // Fewest sheets; then the template as drawn; then the fewest joints; then the paper as named.
  const rank = (p: Plan): number[] => [p.grid.cells.length, p.turn, p.grid.columns + p.grid.rows, p.room.turned ? 1 : 0];
  return plans.toSorted((a, b) => compare(rank(a), rank(b)));
}

function compare(a: readonly number[], b: readonly number[]): number {
  for (const [i, n] of a.entries()) if (n !== b[i]) return n - b[i]!;
  return 0;
}

/** The rooms of the paper; a roll is cut as long as the ink needs. */
function roomsFor(ink: InkGrid, words: StripWords, options: SheetOptions): Room[] {
  if (options.paper.kind === "sheet") return roomsOf(options);
  const [trial] = roomsOf(options);
  const strip = arrangeStrip(trial!.usable.x1 - trial!.usable.x0 - BARS_DEPTH - APART, words);
  const height = ink.box.maxY - ink.box.minY + 2 * RIM_ROOM + strip.height + APART + 2 * MARK_REACH;
  return roomsOf(options, rollLength(options, height));
}

/** A template and its ink. */
export interface Piece {
  readonly template: Template;
  readonly strokes: readonly Stroke[];
}

type Lying = Pick<Plan, "turn" | "members" | "strokes">;

/** The plan with the fewest sheets in one room, the upright bars in a place of their own where it cannot be drawn without one. */
export function planIn(
  room: Room,
  lying: Lying & Pick<Plan, "ink">,
  words: StripWords,
  options: SheetOptions,
  canDraw: (plan: Plan) => boolean,
  shift?: { readonly x: number; readonly y: number },
): Plan | undefined {
  const free = planFor(room, lying, words, options, false, shift);
  return free && canDraw(free) ? free : planFor(room, lying, words, options, true, shift);
}

function planFor(
  room: Room,
  lying: Lying & Pick<Plan, "ink">,
  words: StripWords,
  options: SheetOptions,
  ownBars: boolean,
  shift: { readonly x: number; readonly y: number } | undefined,
): Plan | undefined {
  const { ink } = lying;
  const whole = settingOf(room, words, options, false, ownBars);
  const fits =
    whole &&
    ink.box.maxX - ink.box.minX + 2 * RIM_ROOM <= whole.frame.x1 - whole.frame.x0 + 1e-9 &&
    ink.box.maxY - ink.box.minY + 2 * RIM_ROOM <= whole.frame.y1 - whole.frame.y0 + 1e-9;
  const setting = fits ? whole : settingOf(room, words, options, true, ownBars);
  if (!setting) return undefined;
  const { frame } = setting;
  const size = { width: frame.x1 - frame.x0, height: frame.y1 - frame.y0, overlap: fits ? 0 : options.overlap };
  const suits = (tried: Grid): boolean =>
    lying.members.every((member) => holdsCaption(tried, size, member)) && (ownBars || holdsBars(tried, lying, setting, size));
  const grid = fewestFrames(ink, size, suits);
  return { ...setting, ...lying, size, grid: shift && !fits ? shiftedGrid(ink, size, grid, shift, suits) : grid };
}

/** Whether one of the sheets shows all of a member's caption. */
function holdsCaption(grid: Grid, size: FrameSize, { template, at, captionAt }: Member): boolean {
  if (!captionAt) return true;
  const { width, height } = captionFor(template, CAPTION_WIDTH, at.turn);
  return grid.cells.some((cell) => {
    const { x0, y0, x1, y1 } = frameOf(grid, size, cell);
    const { x, y } = captionAt;
    return x >= x0 + INSIDE && y >= y0 + INSIDE && x + width <= x1 - INSIDE && y + height <= y1 - INSIDE;
  });
}

/** Whether the upright bars find room on every sheet of the grid, beside its lines and the joints' words. */
function holdsBars(grid: Grid, { ink, strokes }: Pick<Plan, "ink" | "strokes">, setting: Setting, size: FrameSize): boolean {
  return grid.cells.every((cell) => {
    const own = frameOf(grid, size, cell);
    if (hasClearPlace(ink, own, size)) return true;
    const room = roomAround(setting.frame, strokes, { x: setting.frame.x0 - own.x0, y: setting.frame.y0 - own.y0 });
    const { x0, y0, x1, y1 } = setting.frame;
    if (grid.cells.length > 1)
      for (const edge of [
        { x0, y0, x1: x0 + JOINT_ROOM, y1 },
        { x0: x1 - size.overlap - JOINT_ROOM, y0, x1, y1 },
      ])
        room.take(edge);
    return room.find(BARS_DEPTH, BARS_LENGTH, "left") !== undefined;
  });
}

/** Whether one of a few places for the bars is far from all ink: quick, and mostly the answer. */
function hasClearPlace(ink: InkGrid, { x0, y0, x1, y1 }: Rect, { overlap }: FrameSize): boolean {
  const [left, right] = [x0 + JOINT_ROOM + 1, x1 - overlap - JOINT_ROOM - 1 - BARS_DEPTH];
  const [low, high] = [y0 + 1, y1 - 1 - BARS_LENGTH];
  if (right < left || high < low) return false;
  return PLACES.some((u) =>
    PLACES.some((v) => {
      const [x, y] = [left + (right - left) * u, low + (high - low) * v];
      return !ink.touches(x - FAR, y - FAR, x + BARS_DEPTH + FAR, y + BARS_LENGTH + FAR);
    }),
  );
}
const PLACES = [0, 0.25, 0.5, 0.75, 1];
/** Farther than free room keeps off ink, its squares included, mm. */
const FAR = 5;

/** What words and marks along an upright joint take of its sheets, mm. */
const JOINT_ROOM = 6;
