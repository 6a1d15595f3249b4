/** Templates onto sheets: each tiled over the fewest, small ones together, with all that a sheet needs to be trusted. */
import type { Template } from "../templates/template.ts";
import { draftPlan, drawBlock, drawUprightBars, sheetOf, type Draft, type Tiled } from "./draft.ts";
import { drawMeasured, findMeasured } from "./furniture/assembled.ts";
import { besideAssembly } from "./furniture/assembly.ts";
import { CAUTIONS, joiningWords, tableBlocks, wordsBlocks, type Block } from "./furniture/notes.ts";
import { Pen } from "./furniture/pen.ts";
import { drawStrip } from "./furniture/strip.ts";
import { roomAround } from "./free-room.ts";
import { inkOf, type Stroke } from "./ink.ts";
import { plansFor, settingOf, type Plan } from "./plan.ts";
import { optionsProblem, rollLength, roomsOf } from "./rooms.ts";
import { shareSheets } from "./share.ts";
import type { Choice, Sheet, SheetOptions, SheetSet, Tiling } from "./sheet.ts";
import { footLines, lowerFirst, nameOf, templateWords } from "./words.ts";

/**
 * Lays the templates on sheets. A template without a line gets none. Throws a RangeError on options that `optionsProblem` names.
 */
export function layOut(templates: readonly Template[], options: SheetOptions): SheetSet {
  const problem = optionsProblem(options);
  if (problem) throw new RangeError(`layOut: ${problem.message}`);
  const jobs = templates.map((template) => ({ template, strokes: inkOf(template) }));
  const laid = jobs.map(({ template, strokes }) => (strokes.length === 0 ? undefined : bestTiling(template, strokes, options)));

  const small = jobs.flatMap((_, i) => (options.share && laid[i]?.plan.grid.cells.length === 1 ? [i] : []));
  const shared =
    small.length > 1
      ? shareSheets(
          small.map((i) => jobs[i]!),
          options,
        )
      : undefined;

  const drafts: Draft[] = [];
  const tilings: Tiling[] = [];
  const sharedFrom: number[] = [];
  for (const [i, { template }] of jobs.entries()) {
    const own = laid[i];
    const onShared = shared?.sheetOf[small.indexOf(i)];
    if (!own) {
      tilings.push({ templateId: template.id, sheets: [], shared: false, choices: [] });
    } else if (onShared === undefined) {
      const first = drafts.length;
      drafts.push(...own.tiled.drafts);
      const assembled = measure(own.tiled, options);
      tilings.push({
        templateId: template.id,
        sheets: own.tiled.drafts.map((_, k) => first + k),
        shared: false,
        choices: own.choices,
        ...(assembled === undefined ? {} : { assembled }),
      });
    } else {
      const draft = shared!.drafts[onShared]!;
      if (sharedFrom[onShared] === undefined) {
        sharedFrom[onShared] = drafts.length;
        drafts.push(draft);
      }
      tilings.push({
        templateId: template.id,
        sheets: [sharedFrom[onShared]!],
        shared: true,
        choices: own.choices,
      });
    }
  }
  const sheets =
    drafts.length === 0
      ? []
      : [
          ...withNotes(
            drafts,
            tilings,
            laid.map((own) => own?.plan),
            templates,
            options,
          ),
        ];
  return {
    paper: options.paper,
    waste: options.waste,
    sheets,
    tilings,
  };
}

/** The way with the fewest sheets, drawn, and how many each other way takes. */
function bestTiling(
  template: Template,
  strokes: readonly Stroke[],
  options: SheetOptions,
): { plan: Plan; tiled: Tiled; choices: Choice[] } {
  const plans = plansFor(
    strokes,
    templateWords(template, options),
    options,
    (plan) => draftPlan(plan, template) !== undefined,
    options.joints?.[template.id],
  );
  const [plan] = plans;
  const tiled = plan && draftPlan(plan, template);
  if (!tiled) throw new Error(`no way was found to lay ${template.id} on ${options.paper.label}`);
  return { plan, tiled, choices: plans.map(choiceOf) };
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

/** The sheets with their tables and notes; what finds no room on them stands on sheets of its own at the end. */
function withNotes(
  drafts: Draft[],
  tilings: readonly Tiling[],
  plans: readonly (Plan | undefined)[],
  templates: readonly Template[],
  options: SheetOptions,
): Sheet[] {
  const homeless: Block[][] = [];
  const draftsOf = (tiling: Tiling): Draft[] => tiling.sheets.map((k) => drafts[k]!);
  for (const [i, template] of templates.entries()) {
    const own = draftsOf(tilings[i]!);
    if (!template.table || template.table.rows.length === 0 || own.length === 0) continue;
    const { title, rows } = template.table;
    const named = tableBlocks({ title: `${nameOf(template)}: ${lowerFirst(title)}`, rows }, options.say);
    // On sheets of its own alone the table needs no name.
    const blocks = tilings[i]!.shared ? named : tableBlocks({ title, rows }, options.say);
    if (!drawBlock(own, blocks)) homeless.push(named);
  }
  const widths = [170, 130, 100, 80, 60, 45];
  for (const [i, template] of templates.entries()) {
    const plan = plans[i];
    if (!plan || plan.grid.cells.length === 1) continue;
    const words = besideAssembly(
      plan,
      template,
      wordsBlocks("Joining", joiningWords(plan.grid, options.overlap), [130, 100, 80, 60, 45]),
    );
    if (!drawBlock(draftsOf(tilings[i]!), words)) homeless.push(words);
  }
  const cautions = wordsBlocks("Before cutting", CAUTIONS, widths);
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
  const free = roomAround(setting.frame, [], { turn: 0, x: 0, y: 0 });
  drawUprightBars(pen, free, setting);
  drawStrip(pen, setting.stripAt.x, setting.stripAt.y, setting.strip, { tag: "", count: "" });
  return { name: "Notes", tag: `N${count}`, cell: { row: 0, column: 0 }, setting, placed: [], pen, room: free };
}
