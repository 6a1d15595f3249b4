/** A sheet in the making: what is on it so far, and where there is still room. */
import { BARS_DEPTH, BARS_LENGTH, drawBars } from "./furniture/bars.ts";
import { CAPTION_WIDTH, captionFor, drawCaption } from "./furniture/captions.ts";
import { drawFrame, drawLandings, jointsOf, tagOf, type Tile } from "./furniture/joints.ts";
import type { Block } from "./furniture/notes.ts";
import { Pen } from "./furniture/pen.ts";
import { drawStrip } from "./furniture/strip.ts";
import { roomAround, type FreeRoom } from "./free-room.ts";
import type { Member, Plan, Setting } from "./plan.ts";
import type { Placed, Sheet } from "./sheet.ts";
import { frameOf, type Cell } from "./frames.ts";
import { nameOf } from "./words.ts";

export interface Draft {
  readonly name: string;
  readonly tag: string;
  readonly cell: Cell;
  readonly setting: Setting;
  readonly placed: readonly Placed[];
  readonly pen: Pen;
  readonly room: FreeRoom;
}

/** A tiling's sheets, or the single sheet of a template that fits on one. */
export interface Tiled {
  readonly drafts: readonly Draft[];
  readonly tiles: readonly { readonly tile: Tile; readonly room: FreeRoom }[];
}

/** Draws the sheets of a plan. Undefined where the upright bars or a caption find no room. */
export function draftPlan(plan: Plan): Tiled | undefined {
  const { grid, size, frame, members } = plan;
  const tiled = grid.cells.length > 1;
  const joints = tiled ? jointsOf(grid, size, plan.ink) : [];
  const name = members.map(({ template }) => nameOf(template)).join("; ");
  const captions = members.filter(({ captionAt }) => captionAt !== undefined);
  const drafts: Draft[] = [];
  const tiles: { tile: Tile; room: FreeRoom }[] = [];
  for (const [i, cell] of grid.cells.entries()) {
    const own = frameOf(grid, size, cell);
    const shift = { x: frame.x0 - own.x0, y: frame.y0 - own.y0 };
    const tile = { cell, frame, shift };
    const room = roomAround(plan.frame, plan.strokes, shift);
    const pen = new Pen();
    if (joints.length > 0) drawFrame(pen, room, tile, joints, size.overlap);
    for (const member of captions.slice())
      if (drawOwnCaption(pen, room, member, shift)) captions.splice(captions.indexOf(member), 1);
    drawLandings(pen, room, tile, joints, size.overlap);
    if (!drawUprightBars(pen, room, plan)) return undefined;
    const tag = tiled ? tagOf(cell) : "1";
    drawStrip(pen, plan.stripAt.x, plan.stripAt.y, plan.strip, {
      tag: tiled ? tag : "",
      count: tiled ? `${i + 1} of ${grid.cells.length}` : "one sheet",
      ...(tiled ? { grid, cell } : {}),
    });
    drafts.push({
      name: tiled ? `${name}, ${tag}` : name,
      tag,
      cell,
      setting: plan,
      placed: members.map(({ template, at }) => ({
        template,
        at: { turn: at.turn, x: at.x + shift.x, y: at.y + shift.y },
        clip: frame,
      })),
      pen,
      room,
    });
    tiles.push({ tile, room });
  }
  return captions.length > 0 ? undefined : { drafts, tiles };
}

/** Draws a member's caption on a sheet that shows all of it; false where this one does not. */
function drawOwnCaption(
  pen: Pen,
  room: FreeRoom,
  { template, at, captionAt }: Member,
  shift: { readonly x: number; readonly y: number },
): boolean {
  if (!captionAt) return true;
  const caption = captionFor(template, CAPTION_WIDTH, at.turn);
  const [x0, y0] = [captionAt.x + shift.x, captionAt.y + shift.y];
  const box = { x0, y0, x1: x0 + caption.width, y1: y0 + caption.height };
  if (!room.isFree(box)) return false;
  room.take(box);
  drawCaption(pen, box, caption, false);
  return true;
}

/** Draws the upright bars in their own place, or where the frame has room; false where it has none. */
export function drawUprightBars(pen: Pen, room: FreeRoom, { barsAt }: Setting): boolean {
  const found = barsAt ? { x0: barsAt.x, y0: barsAt.y } : room.find(BARS_DEPTH, BARS_LENGTH, "left");
  if (found) drawBars(pen, found.x0, found.y0, "along");
  return found !== undefined;
}

/** Draws the first of `blocks` that finds room on one of `drafts`, taken in order; false where none does. */
export function drawBlock(drafts: readonly Draft[], blocks: readonly Block[]): boolean {
  for (const { room, pen } of drafts) {
    for (const block of blocks) {
      const found = room.find(block.width, block.height, "top");
      if (!found) continue;
      block.draw(pen, found.x0, found.y0);
      return true;
    }
  }
  return false;
}

/** The finished sheet. */
export function sheetOf({ name, tag, cell, setting, placed, pen }: Draft): Sheet {
  const { room, frame } = setting;
  const { drawing, strong } = pen.finish();
  return {
    name,
    tag,
    row: cell.row,
    column: cell.column,
    width: room.width,
    height: room.height,
    turned: room.turned,
    correction: room.correction,
    frame,
    placed,
    furniture: drawing,
    strong,
  };
}
