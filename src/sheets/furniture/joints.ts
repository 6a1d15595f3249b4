/** What joins two sheets: the line where one is cut and laid on the other, and two numbered marks on it that meet. */
import type { Vec } from "../../geometry/vec.ts";
import type { FreeRoom } from "../free-room.ts";
import type { InkGrid } from "../grid.ts";
import { textWidth } from "../lettering.ts";
import type { Rect } from "../sheet.ts";
import { frameOf, type Cell, type FrameSize, type Grid } from "../frames.ts";
import { SMALL, type Pen } from "./pen.ts";

/** The joint between two printed frames, in the coordinates of the grid. */
export interface Joint {
  /** The frame that lies underneath (left or above) and the one laid over it (right or below). */
  readonly under: Cell;
  readonly over: Cell;
  readonly way: "upright" | "level";
  /** x of an upright joint, y of a level one: the cut edge of the frame laid over. */
  readonly at: number;
  /** Its extent along itself. */
  readonly from: number;
  readonly to: number;
  readonly marks: readonly { readonly number: number; readonly along: number }[];
}

/** Reach of a mark's cross and radius of its circle, mm. */
export const MARK_REACH = 3;
const MARK_RADIUS = 1.5;
/** Room kept round a mark and its numbers to either side and up and down, mm. */
const MARK_ROOM = { x: 6, y: 3.5 };
/** A mark stands at least this far from the end of its joint, mm. */
const FROM_END = 7;

/** "A1": row letter and column number. */
export const tagOf = ({ row, column }: Cell): string => `${rowLetters(row)}${column + 1}`;

/** A to Z, then AA, AB ... */
function rowLetters(row: number): string {
  return (row >= 26 ? rowLetters(Math.floor(row / 26) - 1) : "") + String.fromCharCode(65 + (row % 26));
}

/** Every joint between printed frames, its marks as far apart as the ink and other marks leave them room, numbered through. */
export function jointsOf(grid: Grid, size: FrameSize, ink: InkGrid): Joint[] {
  const has = (cell: Cell): boolean => grid.cells.some((c) => c.row === cell.row && c.column === cell.column);
  const placed: Vec[] = [];
  return grid.cells.flatMap((under) => {
    const frame = frameOf(grid, size, under);
    const joints: Joint[] = [];
    const right = { row: under.row, column: under.column + 1 };
    const below = { row: under.row + 1, column: under.column };
    const add = (over: Cell, way: Joint["way"], at: number, from: number, to: number): void => {
      const marks = markPlaces(way, at, from, to, ink, placed).map((along) => {
        placed.push(onJoint(way, at, along));
        return { number: placed.length, along };
      });
      joints.push({ under, over, way, at, from, to, marks });
    };
    if (has(right)) add(right, "upright", frame.x1 - size.overlap, frame.y0 + (has(below) ? size.overlap : 0), frame.y1);
    if (has(below)) add(below, "level", frame.y0 + size.overlap, frame.x0, frame.x1 - (has(right) ? size.overlap : 0));
    return joints;
  });
}

const onJoint = (way: Joint["way"], at: number, along: number): Vec =>
  way === "upright" ? { x: at, y: along } : { x: along, y: at };

/** Two places along a joint, from its ends inward, where a mark covers neither ink nor a mark; near the ends where there are none. */
function markPlaces(
  way: Joint["way"],
  at: number,
  from: number,
  to: number,
  ink: InkGrid,
  placed: readonly Vec[],
): [number, number] {
  const clear = (p: number): boolean => {
    const { x, y } = onJoint(way, at, p);
    return (
      placed.every((mark) => Math.abs(mark.x - x) >= 2 * MARK_ROOM.x || Math.abs(mark.y - y) >= 2 * MARK_ROOM.y) &&
      !ink.touches(x - MARK_ROOM.x, y - MARK_ROOM.y, x + MARK_ROOM.x, y + MARK_ROOM.y)
    );
  };
  const [low, high, middle] = [from + FROM_END, to - FROM_END, (from + to) / 2];
  const search = (start: number, step: number): number => {
    for (let p = start; (middle - p) * step > 8; p += step) if (clear(p)) return p;
    return start;
  };
  return [search(low, 1), search(high, -1)];
}

/** One sheet of a tiling: its cell, its frame, and how far the grid is shifted onto the page. */
export interface Tile {
  readonly cell: Cell;
  readonly frame: Rect;
  readonly shift: { readonly x: number; readonly y: number };
}

const same = (a: Cell, b: Cell): boolean => a.row === b.row && a.column === b.column;

/** The joints of one sheet. */
const jointsAt = (cell: Cell, joints: readonly Joint[]): Joint[] =>
  joints.filter(({ under, over }) => same(under, cell) || same(over, cell));

/** Draws the frame and the joining marks of one sheet and takes the marks' room. */
export function drawFrame(pen: Pen, room: FreeRoom, tile: Tile, joints: readonly Joint[], overlap: number): void {
  const { x0, y0, x1, y1 } = tile.frame;
  const own = jointsAt(tile.cell, joints);
  // An edge is cut where this sheet is laid over a neighbour, and in a butt joint on both sides.
  const edge = (way: Joint["way"], laid: boolean): readonly ["narrow" | "hidden", string] =>
    own.some((joint) => joint.way === way && same(laid ? joint.over : joint.under, tile.cell)) && (laid || overlap === 0)
      ? ["narrow", "cut edge"]
      : ["hidden", "frame"];
  pen.layer("frame");
  pen.line(x0, y0, x0, y1, ...edge("upright", true));
  pen.line(x0, y1, x1, y1, ...edge("level", true));
  pen.line(x1, y0, x1, y1, ...edge("upright", false));
  pen.line(x0, y0, x1, y0, ...edge("level", false));
  for (const joint of own) for (const mark of joint.marks) drawMark(pen, room, tile, joint, mark);
}

/** Draws where neighbours land on one sheet, and the words along its joints, wherever there is room left. */
export function drawLandings(pen: Pen, room: FreeRoom, tile: Tile, joints: readonly Joint[], overlap: number): void {
  for (const joint of jointsAt(tile.cell, joints)) {
    const laid = same(joint.over, tile.cell);
    if (!laid && overlap > 0) drawLanding(pen, room, tile, joint);
    drawWords(pen, room, tile, joint, laid, overlap);
  }
}

function drawMark(pen: Pen, room: FreeRoom, { cell, shift }: Tile, joint: Joint, mark: Joint["marks"][number]): void {
  const upright = joint.way === "upright";
  const [x, y] = upright ? [joint.at + shift.x, mark.along + shift.y] : [mark.along + shift.x, joint.at + shift.y];
  pen.layer("joining-marks");
  const name = `joining mark ${mark.number}`;
  pen.line(x - MARK_REACH, y, x + MARK_REACH, y, "narrow", name);
  pen.line(x, y - MARK_REACH, x, y + MARK_REACH, "narrow", name);
  pen.circle(x, y, MARK_RADIUS, name);
  const digits = String(mark.number);
  const aside = MARK_RADIUS + 0.6;
  // The number stands where the sheet is not cut away; on the sheet underneath also where it is not covered.
  const laid = same(joint.over, cell);
  pen.text(x + aside, laid && !upright ? y - 0.8 - SMALL : y + 0.8, digits, SMALL, { strong: true });
  if (!laid && upright) pen.text(x - aside, y + 0.8, digits, SMALL, { align: "end", strong: true });
  room.take({ x0: x - MARK_ROOM.x, x1: x + MARK_ROOM.x, y0: y - MARK_ROOM.y, y1: y + MARK_ROOM.y });
}

/** The line on which the neighbour's cut edge lands, left out where the template's own lines come near. */
function drawLanding(pen: Pen, room: FreeRoom, { shift }: Tile, joint: Joint): void {
  const upright = joint.way === "upright";
  const at = joint.at + (upright ? shift.x : shift.y);
  const along = upright ? shift.y : shift.x;
  const clear = (p: number): boolean =>
    room.isFree(upright ? { x0: at - 0.5, x1: at + 0.5, y0: p, y1: p + 1 } : { x0: p, x1: p + 1, y0: at - 0.5, y1: at + 0.5 });
  pen.layer("frame");
  const end = joint.to + along;
  let start: number | undefined;
  for (let p = joint.from + along; ; p = Math.min(p + 1, end)) {
    const free = p < end && clear(Math.min(p, end - 1));
    if (free) start ??= p;
    else if (start !== undefined) {
      if (p - start >= 3) {
        if (upright) pen.line(at, start, at, p, "narrow", "the neighbour's edge lies here");
        else pen.line(start, at, p, at, "narrow", "the neighbour's edge lies here");
      }
      start = undefined;
    }
    if (p >= end) break;
  }
}

/** Words along the joint: what is cut and what lies where; fewer of them where the template leaves less room. */
function drawWords(pen: Pen, room: FreeRoom, tile: Tile, joint: Joint, laid: boolean, overlap: number): void {
  const other = tagOf(laid ? joint.under : joint.over);
  const said = laid
    ? overlap > 0
      ? [`cut here, lay on ${other}`, `cut, on ${other}`, `on ${other}`]
      : [`cut here, set against ${other}`, `cut, to ${other}`, `to ${other}`]
    : overlap > 0
      ? [`${other} lies over this strip`, `${other} over this`, `under ${other}`]
      : [`cut here, set ${other} against it`, `cut, to ${other}`, `to ${other}`];
  said.some((words) => drawWordsIn(pen, room, tile, joint, words, laid || overlap > 0));
}

/** Writes the words beside the joint, as near to its middle as there is room: on its near side, or the far one. False where there is none. */
function drawWordsIn(pen: Pen, room: FreeRoom, { shift }: Tile, joint: Joint, words: string, near: boolean): boolean {
  const upright = joint.way === "upright";
  const at = joint.at + (upright ? shift.x : shift.y);
  const length = textWidth(words, SMALL);
  // On the sheet laid over, inside its cut edge; on the other, in the strip that is covered. Away from the joint is x up, y down.
  const away = (upright ? 1 : -1) * (near ? 1 : -1);
  const [first, last] = [at + away, at + away * (SMALL + 2.2)];
  const [low, high] = [Math.min(first, last), Math.max(first, last)];
  const baseline = (first + last - (upright ? -SMALL : SMALL)) / 2;
  const middle = (joint.from + joint.to - length) / 2 + (upright ? shift.y : shift.x);
  for (let d = 0; d < (joint.to - joint.from) / 2; d += 2) {
    for (const start of [middle - d, middle + d]) {
      const box = upright
        ? { x0: low, x1: high, y0: start, y1: start + length }
        : { x0: start, x1: start + length, y0: low, y1: high };
      if (!room.isFree(box)) continue;
      room.take(box);
      pen.layer("joint-words");
      if (upright) pen.text(baseline, start, words, SMALL, { upward: true });
      else pen.text(start, baseline, words, SMALL);
      return true;
    }
  }
  return false;
}
