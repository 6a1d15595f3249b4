/** A sheet in the making: what is on it so far, and where there is still room. */
import { BARS_DEPTH, BARS_LENGTH, drawBars } from "./furniture/bars.ts";
import { drawFrame, drawLandings, jointsOf, tagOf, type Joint, type Tile } from "./furniture/joints.ts";
import type { Block } from "./furniture/notes.ts";
import { Pen } from "./furniture/pen.ts";
import { drawStrip } from "./furniture/strip.ts";
import { roomAround, type FreeRoom } from "./free-room.ts";
import type { Plan, Setting } from "./plan.ts";
import type { Placed, Sheet } from "./sheet.ts";
import type { Template } from "../templates/template.ts";
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

/** Draws the sheets of a plan. Undefined where the upright bars find no room on one of them. */
export function draftPlan(plan: Plan, template: Template): Tiled | undefined {
  const { grid, size, frame, turn } = plan;
  const joints = grid.cells.length > 1 ? jointsOf(grid, size, plan.ink) : [];
  const drafts: Draft[] = [];
  const tiles: { tile: Tile; room: FreeRoom }[] = [];
  for (const cell of grid.cells) {
    const own = frameOf(grid, size, cell);
    const shift = { x: frame.x0 - own.x0, y: frame.y0 - own.y0 };
    const tile = { cell, frame, shift };
    const room = roomAround(plan.frame, plan.strokes, { turn: 0, ...shift });
    const pen = new Pen();
    if (!drawFixed(pen, room, plan, tile, joints)) return undefined;
    const tiled = grid.cells.length > 1;
    const tag = tiled ? tagOf(cell) : "1";
    const number = drafts.length + 1;
    drawStrip(pen, plan.stripAt.x, plan.stripAt.y, plan.strip, {
      tag: tiled ? tag : "",
      count: tiled ? `${number} of ${grid.cells.length}` : "one sheet",
      ...(tiled ? { grid, cell } : {}),
    });
    drafts.push({
      name: tiled ? `${nameOf(template)}, ${tag}` : nameOf(template),
      tag,
      cell,
      setting: plan,
      placed: [{ template, at: { turn, x: shift.x, y: shift.y }, clip: frame }],
      pen,
      room,
    });
    tiles.push({ tile, room });
  }
  return { drafts, tiles };
}

/** Frame, marks, words along the joints and bars; false where the bars find no room. */
function drawFixed(pen: Pen, room: FreeRoom, plan: Setting & Pick<Plan, "size">, tile: Tile, joints: readonly Joint[]): boolean {
  if (joints.length > 0) drawFrame(pen, room, tile, joints, plan.size.overlap);
  drawLandings(pen, room, tile, joints, plan.size.overlap);
  return drawUprightBars(pen, room, plan);
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
