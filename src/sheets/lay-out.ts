/** Templates onto sheets: each tiled over the fewest, small ones together, with all that a sheet needs to be trusted. */
import type { Vec } from "../geometry/vec.ts";
import type { Template } from "../templates/template.ts";
import { draftPlan, drawBlock, drawUprightBars, sheetOf, type Draft, type Tiled } from "./draft.ts";
import { drawMeasured, findMeasured } from "./furniture/assembled.ts";
import { besideAssembly } from "./furniture/assembly.ts";
import { grainBlock } from "./furniture/grain.ts";
import { CAUTIONS, joiningWords, tableBlocks, wordsBlocks, type Block } from "./furniture/notes.ts";
import { Pen } from "./furniture/pen.ts";
import { drawStrip } from "./furniture/strip.ts";
import { roomAround } from "./free-room.ts";
import { inkOf } from "./ink.ts";
import { lyingGrain } from "./nesting.ts";
import { plansFor, settingOf, type Piece, type Plan } from "./plan.ts";
import { optionsProblem, rollLength, roomsOf } from "./rooms.ts";
import { shareSheets } from "./share.ts";
import { stackRows } from "./stack.ts";
import type { Choice, Sheet, SheetOptions, SheetSet, Tiling } from "./sheet.ts";
import { hatched } from "./waste.ts";
import { footLines, lowerFirst, nameOf, templateWords } from "./words.ts";

/** How much of the work it is to find how each template lies alone, and then those that share a sheet. */
const ALONE = 0.45;
const SHARED = 0.65;

/**
 * Lays the templates on sheets. A template without a line gets none. Throws a RangeError on options that `optionsProblem` names.
 * @param onProgress is told how much is done, from 0 to 1
 */
export function layOut(
  asked: readonly Template[],
  options: SheetOptions,
  onProgress: (done: number) => void = () => undefined,
): SheetSet {
  const problem = optionsProblem(options);
  if (problem) throw new RangeError(`layOut: ${problem.message}`);
  const templates = options.waste === "hatch" ? asked.map(hatched) : asked;
  const laid = templates.map((template, i): Laid | undefined => {
    onProgress((ALONE * i) / templates.length);
    const strokes = inkOf(template);
    return strokes.length === 0 ? undefined : { template, strokes, plans: bestPlans({ template, strokes }, options) };
  });
  onProgress(ALONE);
  const small = options.share ? shareSmall(laid, options) : [];
  onProgress(SHARED);
  const groups = options.share ? [...small, ...stackLong(laid, options)] : [];
  const grouped = new Set(groups.flatMap((group) => group.templates));
  for (const [i, own] of laid.entries()) {
    if (!own || grouped.has(i)) continue;
    const [plan] = own.plans;
    groups.push({ name: nameOf(own.template), templates: [i], plan, ...draftPlan(plan)! });
  }
  groups.sort((a, b) => Math.min(...a.templates) - Math.min(...b.templates));

  const drafts = groups.flatMap((group) => group.drafts);
  const lengths = groups.map((group) => measure(group, options));
  const tilings = templates.map(({ id }, i): Tiling => {
    const k = groups.findIndex((group) => group.templates.includes(i));
    if (k < 0) return { templateId: id, title: "", sheets: [], shared: false, choices: [] };
    const group = groups[k]!;
    return {
      templateId: id,
      title: group.drafts[0]!.setting.strip.words.title,
      sheets: group.drafts.map((draft) => drafts.indexOf(draft)),
      shared: group.templates.length > 1,
      choices: laid[i]!.plans.map(choiceOf),
      ...(lengths[k] === undefined ? {} : { assembled: lengths[k] }),
    };
  });
  onProgress(1);
  return {
    paper: options.paper,
    waste: options.waste,
    sheets: drafts.length === 0 ? [] : withNotes(drafts, groups, templates, options),
    tilings,
  };
}

interface Laid extends Piece {
  /** The best first. */
  readonly plans: readonly [Plan, ...Plan[]];
}

/** Templates on the same sheets, by their indices. */
interface Group extends Tiled {
  readonly name: string;
  readonly templates: readonly number[];
  /** How they are tiled; undefined on a single shared sheet. */
  readonly plan?: Plan;
}

/** Whole templates on shared sheets. */
function shareSmall(laid: readonly (Laid | undefined)[], options: SheetOptions): Group[] {
  const small = laid.flatMap((own, i) => (own?.plans[0].grid.cells.length === 1 ? [i] : []));
  return shareSheets(
    small.map((i) => laid[i]!),
    options,
  ).map(({ draft, pieces }) => ({ name: draft.name, templates: pieces.map((k) => small[k]!), drafts: [draft], tiles: [] }));
}

/** Long templates on shared rows; those whose joints the maker has moved share them with others moved as far. */
function stackLong(laid: readonly (Laid | undefined)[], options: SheetOptions): Group[] {
  const rows = new Map<string, { readonly shift: Vec | undefined; readonly long: number[] }>();
  for (const [i, own] of laid.entries()) {
    if (!own || own.plans[0].grid.cells.length === 1) continue;
    const shift = options.joints?.[own.template.id];
    const key = shift ? `${shift.x} ${shift.y}` : "";
    const { long } = rows.get(key) ?? { long: [] };
    rows.set(key, { shift, long: [...long, i] });
  }
  const groups: Group[] = [];
  for (const { shift, long } of rows.values()) {
    const stacks = stackRows(
      long.map((i) => laid[i]!),
      options,
      groups.length + 1,
      shift,
    );
    groups.push(
      ...stacks.map(({ name, plan, tiled, pieces }) => ({ name, templates: pieces.map((k) => long[k]!), plan, ...tiled })),
    );
  }
  return groups;
}

/** Every way to tile a template that can be drawn, the one with the fewest sheets first. */
function bestPlans(piece: Piece, options: SheetOptions): [Plan, ...Plan[]] {
  const { template } = piece;
  const [best, ...others] = plansFor(
    piece,
    templateWords(template, options),
    options,
    (plan) => draftPlan(plan) !== undefined,
    options.joints?.[template.id],
  );
  if (!best) throw new Error(`no way was found to lay ${template.id} on ${options.paper.label}`);
  return [best, ...others];
}

const choiceOf = ({ room, turn, grid }: Plan): Choice => ({
  orientation: room.orientation,
  turn,
  columns: grid.columns,
  rows: grid.rows,
  sheets: grid.cells.length,
});

/** Draws the length to measure on the joined sheets; undefined on one sheet or where there is no room. */
function measure({ drafts, tiles }: Tiled, options: SheetOptions): number | undefined {
  const measured = findMeasured(tiles, options.say);
  if (!measured) return undefined;
  for (const [i, { tile, room }] of tiles.entries()) drawMeasured(drafts[i]!.pen, room, tile, measured, options.say);
  return measured.distance;
}

/** Said where an arrow finds no room beside its template. */
const GRAIN = { "along-x": "Along the strip with the title.", "along-y": "Square to the strip with the title." } as const;

/** The sheets with their tables and notes; what finds no room on them stands on sheets of its own at the end. */
function withNotes(drafts: Draft[], groups: readonly Group[], templates: readonly Template[], options: SheetOptions): Sheet[] {
  const homeless: Block[][] = [];
  for (const group of groups) {
    for (const template of group.templates.map((i) => templates[i]!)) {
      if (!template.table || template.table.rows.length === 0) continue;
      const { title, rows } = template.table;
      const named = tableBlocks({ title: `${nameOf(template)}: ${lowerFirst(title)}`, rows }, options.say);
      // On sheets of its own alone the table needs no name.
      const blocks = group.templates.length > 1 ? named : tableBlocks({ title, rows }, options.say);
      if (!drawBlock(group.drafts, blocks)) homeless.push(named);
    }
    // Where a template shares its sheets, its caption says how its grain runs.
    const [alone, ...more] = group.plan?.members ?? [];
    const grain = alone && more.length === 0 ? lyingGrain(alone.template.grain, alone.at.turn) : undefined;
    if (grain && !drawBlock(group.drafts, [grainBlock(grain)]))
      homeless.push(wordsBlocks(`Grain: ${group.name}`, [GRAIN[grain]], [60, 45]));
    if (!group.plan || group.plan.grid.cells.length === 1) continue;
    const { plan, name } = group;
    const joining = (heading: string): Block[] =>
      besideAssembly(plan, wordsBlocks(heading, joiningWords(plan.grid, options.overlap), [130, 100, 80, 60, 45]));
    if (!drawBlock(group.drafts, joining("Joining"))) homeless.push(joining(`Joining: ${name}`));
  }
  const cautions = wordsBlocks("Before cutting", CAUTIONS, [170, 130, 100, 80, 60, 45]);
  if (!drawBlock(drafts, cautions)) homeless.push(cautions);
  while (homeless.length > 0) {
    const sheet = notesDraft(options, drafts.length);
    const before = homeless.length;
    for (let i = 0; i < homeless.length;) {
      if (drawBlock([sheet], homeless[i]!)) homeless.splice(i, 1);
      else i++;
    }
    if (homeless.length === before) throw new Error("a table is larger than a sheet");
    drafts.push(sheet);
  }
  return drafts.map(sheetOf);
}

/** A sheet for notes alone. */
function notesDraft(options: SheetOptions, count: number): Draft {
  const words = { title: "Notes", lines: footLines(options) };
  const [room] = options.paper.kind === "roll" ? roomsOf(options, rollLength(options, 200)) : roomsOf(options);
  const setting = settingOf(room!, words, options, false, false) ?? settingOf(room!, words, options, false, true);
  if (!setting) throw new Error(`no room for notes on ${options.paper.label}`);
  const pen = new Pen();
  const free = roomAround(setting.frame, [], { x: 0, y: 0 });
  drawUprightBars(pen, free, setting);
  drawStrip(pen, setting.stripAt.x, setting.stripAt.y, setting.strip, { tag: "", count: "" });
  return { name: "Notes", tag: `N${count}`, cell: { row: 0, column: 0 }, setting, placed: [], pen, room: free };
}
