/** Long templates that each take a row of sheets, stacked so that they share one row: joined once, then cut apart. */
import { CAPTION_WIDTH, draftPlan, type Tiled } from "./draft.ts";
import { captionFor } from "./furniture/captions.ts";
import { inkBounds } from "./ink.ts";
import { placedBounds } from "./placement.ts";
import { planIn, type Member, type Piece, type Plan } from "./plan.ts";
import { roomsOf } from "./rooms.ts";
import { SHARE_GAP } from "./share.ts";
import type { SheetOptions } from "./sheet.ts";
import { inkGridOf } from "./tiling.ts";
import { turnStroke } from "./turn.ts";
import { footLines, sharedSentence } from "./words.ts";

/** A template with the ways to tile it. */
export interface Long extends Piece {
  readonly plans: readonly Plan[];
}

export interface Stack {
  readonly name: string;
  readonly plan: Plan;
  readonly tiled: Tiled;
  /** Indices into the templates given. */
  readonly pieces: readonly number[];
}

/**
 * Stacks the templates in the position of the paper that saves the most sheets. Templates that no stack of two or more takes are left
 * out. A roll has no rows to share.
 */
export function stackRows(longs: readonly Long[], options: SheetOptions): Stack[] {
  if (options.paper.kind === "roll") return [];
  let best: { stacks: Stack[]; saved: number } = { stacks: [], saved: 0 };
  for (const orientation of roomsOf(options).map((room) => room.orientation)) {
    const stacks = stacksIn(longs, options, orientation);
    const saved = stacks.reduce(
      (sum, { plan, pieces }) =>
        sum + pieces.reduce((s, i) => s + longs[i]!.plans[0]!.grid.cells.length, 0) - plan.grid.cells.length,
      0,
    );
    if (saved > best.saved) best = { stacks, saved };
  }
  return best.stacks;
}

function stacksIn(longs: readonly Long[], options: SheetOptions, orientation: Plan["room"]["orientation"]): Stack[] {
  // A template is stacked only as it would lie alone with as few sheets.
  const rows = longs.map(({ plans }) =>
    plans.find(
      ({ room, grid }) =>
        room.orientation === orientation && grid.rows === 1 && grid.cells.length === plans[0]!.grid.cells.length,
    ),
  );
  const order = longs
    .map((_, i) => i)
    .filter((i) => rows[i] !== undefined)
    .toSorted((a, b) => rows[b]!.grid.columns - rows[a]!.grid.columns || a - b);
  const stacks: { pieces: number[]; made: Stack | undefined }[] = [];
  for (const i of order) {
    let taken = false;
    for (const stack of stacks) {
      if (rows[stack.pieces[0]!]!.grid.columns !== rows[i]!.grid.columns) continue;
      const pieces = [...stack.pieces, i];
      const made = stackOf(pieces, longs, rows as Plan[], options, stackName(stacks.length));
      if (!made) continue;
      [stack.pieces, stack.made] = [pieces, made];
      taken = true;
      break;
    }
    if (!taken) stacks.push({ pieces: [i], made: undefined });
  }
  // Numbered once it is known which are stacks: the letters of their sheets are the same.
  return stacks
    .filter(({ made }) => made !== undefined)
    .flatMap(({ pieces }, n) => stackOf(pieces, longs, rows as Plan[], options, stackName(n + 1)) ?? []);
}

/** "Long templates, row 2" */
const stackName = (number: number): string => `Long templates, row ${number}`;

/** The pieces one below the other, each under its caption; undefined where they no longer fit one row of as few sheets. */
function stackOf(
  pieces: readonly number[],
  longs: readonly Long[],
  rows: readonly Plan[],
  options: SheetOptions,
  name: string,
): Stack | undefined {
  const first = rows[pieces[0]!]!;
  let top = 0;
  const members: Member[] = pieces.map((i) => {
    const { template } = longs[i]!;
    const { turn } = rows[i]!;
    const box = placedBounds(inkBounds(template), { turn, x: 0, y: 0 });
    const { height } = captionFor(template, CAPTION_WIDTH);
    const captionAt = { x: 0, y: top - height };
    const high = top - height - CAPTION_GAP;
    top = high - (box.maxY - box.minY) - SHARE_GAP;
    return { template, at: { turn, x: -box.minX, y: high - box.maxY }, captionAt };
  });
  const strokes = members.flatMap(({ at }, k) =>
    longs[pieces[k]!]!.strokes.map((stroke) => {
      const { points, closed } = turnStroke(stroke, at.turn);
      return { points: points.map((p) => ({ x: p.x + at.x, y: p.y + at.y })), closed };
    }),
  );
  const words = {
    title: name,
    lines: [sharedSentence("above"), ...footLines(options)],
  };
  const plan = planIn(
    first.room,
    { turn: first.turn, members, strokes, ink: inkGridOf(strokes) },
    words,
    options,
    (p) => draftPlan(p) !== undefined,
  );
  if (!plan || plan.grid.rows > 1 || plan.grid.cells.length > first.grid.cells.length) return undefined;
  const tiled = draftPlan(plan);
  return tiled && { name, plan, tiled, pieces };
}

/** Between a caption and the template below it, mm. */
const CAPTION_GAP = 2.5;
