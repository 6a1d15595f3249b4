/** Sheets that several small templates share, each named beside its line. */
import { textWidth } from "./lettering.ts";
import { drawUprightBars, type Draft } from "./draft.ts";
import { BARS_DEPTH, BARS_LENGTH } from "./furniture/bars.ts";
import { captionFor, drawCaption, type Caption } from "./furniture/captions.ts";
import { PLAIN, Pen } from "./furniture/pen.ts";
import { drawStrip } from "./furniture/strip.ts";
import { inkBounds, type Stroke } from "./ink.ts";
import { nest, type Nested } from "./nesting.ts";
import { FreeRoom, roomAround } from "./free-room.ts";
import { placedBounds, rectOf } from "./placement.ts";
import { settingOf, type Piece, type Setting } from "./plan.ts";
import { rollLength, roomsOf } from "./rooms.ts";
import type { Placed, Rect, SheetOptions } from "./sheet.ts";
import type { Grain } from "../parts/contract.ts";
import type { Bounds } from "../geometry/bounds.ts";
import { footLines, nameOf, sharedSentence } from "./words.ts";

/** Least distance between templates that share a sheet, mm: a saw and a pair of scissors pass between them. */
export const SHARE_GAP = 6;

/** One sheet and the indices of the pieces on it. */
export interface SharedSheet {
  readonly draft: Draft;
  readonly pieces: readonly number[];
}

/** Lays the pieces on shared sheets. Pieces that find none, or would be alone on it, are left out. */
export function shareSheets(pieces: readonly Piece[], options: SheetOptions): SharedSheet[] {
  const captions = pieces.map(withCaption);
  const shapes = pieces.map(({ strokes }, i) => [...strokes, { points: corners(captions[i]!.box), closed: true }]);
  let best: { setting: Setting; nested: Nested[]; sheets: number } | undefined;
  const grains = pieces.map(({ template }) => template.grain);
  for (const setting of settings(shapes, grains, options)) {
    const found = nested(shapes, grains, setting);
    const sheets = found.reduce((most, { sheet }) => Math.max(most, sheet + 1), 0) + pieces.length - found.length;
    if (!best || sheets < best.sheets) best = { setting, nested: found, sheets };
  }
  if (!best) return [];
  const { setting } = best;
  const groups = new Map<number, Nested[]>();
  for (const item of best.nested) groups.set(item.sheet, [...(groups.get(item.sheet) ?? []), item]);
  // Numbered in the order in which the templates were asked for.
  const shared = [...groups.values()].filter((group) => group.length > 1).toSorted((a, b) => a[0]!.piece - b[0]!.piece);
  return shared.map((group, sheet) => ({
    draft: draftShared(group, sheet, shared.length, setting, pieces, captions),
    pieces: group.map(({ piece }) => piece),
  }));
}

/** What is put on one sheet goes round its upright bars. */
function nested(shapes: Shapes, grains: Grains, { frame, barsAt }: Setting): Nested[] {
  const bars = barsAt ? [] : [{ x0: 0, y0: 0, x1: BARS_DEPTH, y1: BARS_LENGTH }];
  return nest(shapes, { width: frame.x1 - frame.x0, height: frame.y1 - frame.y0, gap: SHARE_GAP, taken: bars, grains });
}

type Shapes = readonly (readonly Stroke[])[];
type Grains = readonly (Grain | undefined)[];

function settings(shapes: Shapes, grains: Grains, options: SheetOptions): Setting[] {
  const words = { title: SHARED_TITLE, lines: [sharedSentence("beside or inside"), ...footLines(options)] };
  const split = (length?: number): Setting[] =>
    roomsOf(options, length).flatMap(
      (room) => settingOf(room, words, options, false, false) ?? settingOf(room, words, options, false, true) ?? [],
    );
  if (options.paper.kind === "sheet") return split();
  // A roll is cut below the lowest piece of a first trial on a long one.
  return split(ROLL_TRIAL).flatMap((long) => {
    const found = nested(shapes, grains, long);
    const low = Math.min(...found.map(({ piece, at }) => boxOf(shapes[piece]!, at).minY));
    const height = long.room.usable.y1 - long.room.usable.y0;
    return split(rollLength(options, found.length === 0 ? 0 : height - Math.max(0, low - SHARE_GAP)));
  });
}
const ROLL_TRIAL = 3000;
const SHARED_TITLE = "Small templates";

function boxOf(strokes: readonly Stroke[], at: Nested["at"]): Bounds {
  const xs = strokes.flatMap(({ points }) => points.map((p) => p.x));
  const ys = strokes.flatMap(({ points }) => points.map((p) => p.y));
  return placedBounds({ minX: Math.min(...xs), minY: Math.min(...ys), maxX: Math.max(...xs), maxY: Math.max(...ys) }, at);
}

interface Placeable {
  readonly caption: Caption;
  /** Where the caption stands, in the template's own axes. */
  readonly box: Rect;
}

const CAPTION_LEAST = 55;

/** The caption in the template's own room, as near to its middle as its lines allow, or else under it. */
function withCaption({ template, strokes }: Piece): Placeable {
  const ink = inkBounds(template);
  const caption = captionFor(
    template,
    Math.max(CAPTION_LEAST, Math.min(ink.maxX - ink.minX, textWidth(nameOf(template), PLAIN) + 0.1)),
  );
  const { width, height } = caption;
  const inside = new FreeRoom(rectOf(ink));
  inside.takeStrokes(strokes);
  const found = inside.findNear((ink.minX + ink.maxX) / 2, (ink.minY + ink.maxY) / 2, width, height);
  return { caption, box: found ?? { x0: ink.minX, x1: ink.minX + width, y0: ink.minY - 2 - height, y1: ink.minY - 2 } };
}

const corners = ({ x0, y0, x1, y1 }: Rect): Stroke["points"] => [
  { x: x0, y: y0 },
  { x: x1, y: y0 },
  { x: x1, y: y1 },
  { x: x0, y: y1 },
];

function draftShared(
  group: readonly Nested[],
  index: number,
  count: number,
  setting: Setting,
  pieces: readonly Piece[],
  captions: readonly Placeable[],
): Draft {
  const { frame } = setting;
  const pen = new Pen();
  const placed: Placed[] = [];
  const room = roomAround(setting.frame, [], { x: 0, y: 0 });
  for (const { piece, at: inFrame } of group) {
    const at = { turn: inFrame.turn, x: inFrame.x + frame.x0, y: inFrame.y + frame.y0 };
    const { template } = pieces[piece]!;
    placed.push({ template, at, clip: frame });
    const ink = placedBounds(inkBounds(template), at);
    room.take({ x0: ink.minX - 2, y0: ink.minY - 2, x1: ink.maxX + 2, y1: ink.maxY + 2 });
    const { caption, box: own } = captions[piece]!;
    const box = rectOf(placedBounds({ minX: own.x0, minY: own.y0, maxX: own.x1, maxY: own.y1 }, at));
    room.take(box);
    drawCaption(pen, box, caption, at.turn % 2 === 1);
  }
  const barsAt = setting.barsAt ?? { x: frame.x0, y: frame.y0 };
  room.take({ x0: barsAt.x, y0: barsAt.y, x1: barsAt.x + BARS_DEPTH, y1: barsAt.y + BARS_LENGTH });
  drawUprightBars(pen, room, { ...setting, barsAt });
  drawStrip(pen, setting.stripAt.x, setting.stripAt.y, setting.strip, {
    tag: String(index + 1),
    count: `${index + 1} of ${count}`,
  });
  const names = group.map(({ piece }) => nameOf(pieces[piece]!.template));
  return { name: names.join("; "), tag: String(index + 1), cell: { row: 0, column: index }, setting, placed, pen, room };
}
