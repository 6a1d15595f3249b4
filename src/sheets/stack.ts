/** Long templates that each take a row of sheets, stacked so that they share one row: joined once, then cut apart. */
import { draftPlan, type Tiled } from "./draft.ts";
import type { Vec } from "../geometry/vec.ts";
import { CAPTION_WIDTH, captionFor } from "./furniture/captions.ts";
import { inkBounds } from "./ink.ts";
import { lyingGrain } from "./nesting.ts";
import { placedBounds } from "./placement.ts";
import { planIn, settingOf, type Member, type Piece, type Plan } from "./plan.ts";
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
 * out. A roll has no rows to share. Rows are numbered from `first`; all their joints are moved by `shift`.
 */
export function stackRows(longs: readonly Long[], options: SheetOptions, first: number, shift?: Vec): Stack[] {
  if (options.paper.kind === "roll") return [];
  const alone = (pieces: readonly number[]): number => pieces.reduce((sum, i) => sum + longs[i]!.plans[0]!.grid.cells.length, 0);
  let best: { stacks: Row[]; saved: number } = { stacks: [], saved: 0 };
  for (const orientation of roomsOf(options).map((room) => room.orientation)) {
    const stacks = stacksIn(longs, options, orientation, shift);
    const saved = stacks.reduce(
      (sum, { plan, members }) => sum + alone(members.map(({ piece }) => piece)) - plan.grid.cells.length,
      0,
    );
    if (saved > best.saved) best = { stacks, saved };
  }
  // Numbered once it is known which are stacks, in the order in which the templates were asked for.
  const firstOf = ({ members }: Row): number => Math.min(...members.map(({ piece }) => piece));
  const stacks = best.stacks.toSorted((a, b) => firstOf(a) - firstOf(b));
  return stacks.flatMap(({ members }, n) => {
    const name = stackName(first + n);
    const plan = planOf(members, longs, options, name, shift);
    const tiled = plan && draftPlan(plan);
    return tiled ? [{ name, plan, tiled, pieces: members.map(({ piece }) => piece) }] : [];
  });
}

/** A template as it would lie alone. */
interface InRow {
  readonly piece: number;
  readonly alone: Plan;
}

interface Row {
  readonly members: readonly InRow[];
  readonly plan: Plan;
}

function stacksIn(
  longs: readonly Long[],
  options: SheetOptions,
  orientation: Plan["room"]["orientation"],
  shift: Vec | undefined,
): Row[] {
  // A template is stacked only as it would lie alone with as few sheets.
  const order = longs
    .flatMap(({ plans }, piece): InRow[] => {
      const alone = plans.find(
        ({ room, grid }) =>
          room.orientation === orientation && grid.rows === 1 && grid.cells.length === plans[0]!.grid.cells.length,
      );
      return alone ? [{ piece, alone }] : [];
    })
    // The longest first: a shorter one may lie in its row.
    .toSorted((a, b) => b.alone.grid.columns - a.alone.grid.columns || a.piece - b.piece);
  const stacks: { members: InRow[]; plan: Plan | undefined }[] = [];
  for (const one of order) {
    const taken = stacks.some((stack) => {
      const grains = [...stack.members, one].flatMap(
        ({ piece, alone }) => lyingGrain(longs[piece]!.template.grain, alone.turn) ?? [],
      );
      if (new Set(grains).size > 1) return false;
      const members = [...stack.members, one];
      const plan = planOf(members, longs, options, stackName(stacks.length), shift);
      if (plan) [stack.members, stack.plan] = [members, plan];
      return plan !== undefined;
    });
    if (!taken) stacks.push({ members: [one], plan: undefined });
  }
  return stacks.flatMap(({ members, plan }) => (plan ? [{ members, plan }] : []));
}

/** "Long templates, row 2" */
const stackName = (number: number): string => `Long templates, row ${number}`;

/** The templates one below the other, each under its caption; undefined where they no longer fit one row of as few sheets. */
function planOf(
  row: readonly InRow[],
  longs: readonly Long[],
  options: SheetOptions,
  name: string,
  shift: Vec | undefined,
): Plan | undefined {
  const first = row[0]!.alone;
  const words = { title: name, lines: [sharedSentence("above"), ...footLines(options)] };
  let top = 0;
  const members: Member[] = row.map(({ piece, alone: { turn } }) => {
    const { template } = longs[piece]!;
    const box = placedBounds(inkBounds(template), { turn, x: 0, y: 0 });
    const { height } = captionFor(template, CAPTION_WIDTH, turn);
    const captionAt = { x: 0, y: top - height };
    const high = top - height - CAPTION_GAP;
    top = high - (box.maxY - box.minY) - SHARE_GAP;
    return { template, at: { turn, x: -box.minX, y: high - box.maxY }, captionAt };
  });
  const setting = settingOf(first.room, words, options, true, false) ?? settingOf(first.room, words, options, true, true);
  if (!setting || -top - SHARE_GAP > setting.frame.y1 - setting.frame.y0) return undefined;
  const strokes = members.flatMap(({ at }, k) =>
    longs[row[k]!.piece]!.strokes.map((stroke) => {
      const { points, closed } = turnStroke(stroke, at.turn);
      return { points: points.map((p) => ({ x: p.x + at.x, y: p.y + at.y })), closed };
    }),
  );
  const plan = planIn(
    first.room,
    { turn: first.turn, members, strokes, ink: inkGridOf(strokes) },
    words,
    options,
    (p) => draftPlan(p) !== undefined,
    shift,
  );
  const fits = plan && plan.grid.rows === 1 && plan.grid.cells.length <= first.grid.cells.length;
  return fits && draftPlan(plan) ? plan : undefined;
}

/** Between a caption and the template below it, mm. */
const CAPTION_GAP = 2.5;
