import { join } from "node:path";
import { sentenceOf } from "../../checks/findings.ts";
import { instrumentsOf, numbersOfAll } from "../../document/copies.ts";
import type { Design } from "../../document/design.ts";
import type { Derived } from "../../parts/derived.ts";
import { fingerprintOf } from "../../document/fingerprint.ts";
import { ALL_IN_ONE, fileStemOf, pdfFileOf, svgFileOf, svgOfAll } from "../../export/job.ts";
import { inkBounds } from "../../sheets/ink.ts";
import { parsePaper } from "../../sheets/paper.ts";
import { SHEET_DEFAULTS, type PrinterCorrection, type SheetOptions } from "../../sheets/sheet.ts";
import { makingPath, makingsOf } from "../../parts/makings.ts";
import { mergeRuns, servedSaid, sharedIdOf } from "../../templates/copies.ts";
import { jointsOf, makePatterns } from "../../templates/patterns.ts";
import { templatesOf, type Template } from "../../templates/template.ts";
import { formatQuantity, inFull, lengthInFull } from "../../units/format.ts";
import { CliError, onlyWord, optionOf, type Arguments } from "../arguments.ts";
import { deriveWhole, openDesign } from "../design-file.ts";
import { writeAll } from "../files.ts";
import { readFonts } from "../fonts.ts";
import { COMMON, type Command } from "../program.ts";

const FORMATS: readonly string[] = ["svg", "pdf"];

export const templates: Command = {
  name: "templates",
  usage:
    "DESIGN --out DIR [--paper a4|a3|letter|legal|tabloid|WxH] [--part ID] [--template NAME] [--format svg,pdf] [--one-file] [--printer sx,sy] [--set path=value]...",
  about: "one SVG and one tiled PDF a template, and templates.json that lists them",
  valued: { ...COMMON.valued, out: "once", paper: "once", part: "once", template: "once", format: "once", printer: "once" },
  flags: [...COMMON.flags, "one-file"],
  run: async (args, out) => {
    const design = await openDesign(onlyWord(args, "DESIGN"), args, out.note);
    const folder = optionOf(args, "out");
    if (folder === undefined) throw new CliError("--out DIR is missing");
    const formats = formatsOf(args);
    const asked = sheetOptionsOf(design, args);
    const { chosen, joints } = made(design, asked, args, out.note);
    const options = { ...asked, joints };
    const fonts = await readFonts();

    const files: { file: string; content: string | Uint8Array }[] = [];
    const listed: unknown[] = [];
    for (const template of chosen) {
      const { minX, minY, maxX, maxY } = inkBounds(template);
      for (const format of formats) {
        const name = `${fileStemOf(template)}.${format}`;
        files.push({
          file: join(folder, name),
          content: format === "svg" ? svgFileOf(template, options) : await pdfFileOf([template], options, fonts),
        });
        listed.push({
          part: template.partId,
          template: template.name,
          title: template.title,
          lineIs: template.lineIs,
          role: roleOf(template),
          ...(template.serves === undefined ? {} : { serves: template.serves }),
          ...(template.cautions ? { cautions: template.cautions } : {}),
          widthMm: maxX - minX,
          heightMm: maxY - minY,
          format,
          file: name,
        });
      }
    }
    if (args.options["one-file"]) files.push({ file: join(folder, ALL_IN_ONE), content: svgOfAll(chosen, options) });
    const list = JSON.stringify(
      { units: "mm", fingerprint: options.fingerprint, paper: options.paper.label, templates: listed },
      null,
      2,
    );
    await writeAll([...files, { file: join(folder, "templates.json"), content: `${list}\n` }]);
    if (args.options["json"]) out.line(list);
    else for (const { file } of files) out.line(file);
    return 0;
  },
};

/** The chosen templates and their moved joints as the design says; what could not be made as asked is told. */
function made(
  design: Design,
  { say, fingerprint }: SheetOptions,
  args: Arguments,
  tell: (line: string) => void,
): { readonly chosen: readonly Template[]; readonly joints: NonNullable<SheetOptions["joints"]> } {
  const runs = instrumentsOf(design).map((one) => {
    const derived = deriveWhole(one.design);
    const sources = templatesOf(derived);
    const number = one.design.order?.number ?? "";
    const makings = makingsOf(one.design, derived);
    return {
      name: one.name,
      stopped: stoppedParts(derived, design),
      sources,
      patterns: makePatterns(sources, makings, { say, number, fingerprint }),
    };
  });
  const sources = runs.flatMap((run) => run.sources);
  const stops = stopsOf(runs);
  const wanted = new Set(chosenOf(sources, stops, args).map(({ id }) => id));
  const part = optionOf(args, "part");
  for (const { id, says, names } of stops) {
    if (part !== undefined && part !== id) continue;
    tell(`${id} gives no template${names.length > 0 ? ` for ${servedSaid(names)}` : ""}: ${says}`);
  }
  const known = new Set(sources.flatMap(({ id, partId }) => [id, partId]));
  for (const id of Object.keys(design.templates ?? {}))
    if (!known.has(id)) tell(`there is no template ${id}: what the design says of it is left aside`);
  const patterns = mergeRuns(runs);
  const chosen = patterns
    .filter(({ source }) => wanted.has(sharedIdOf(source.id)))
    .map(({ source, made: done }) => {
      if (!done.ok) throw new CliError(`${done.error.message}: ${makingPath(source.id)} (${done.error.mend})`);
      for (const caution of done.value.cautions ?? []) tell(`${source.id}: ${caution}`);
      return done.value;
    });
  return { chosen, joints: jointsOf(patterns) };
}

/** A part that gives no template for what a check stops. */
interface Stopped {
  readonly id: string;
  readonly says: string;
  readonly mend: string;
}

const stoppedParts = ({ parts }: Derived, { units: unit, fractions = false }: Design): Stopped[] =>
  parts.flatMap((part) => {
    const stop = part.templates().length === 0 ? part.findings().find(({ severity }) => severity === "stop") : undefined;
    if (!stop) return [];
    const says = sentenceOf(stop, (value, quantity) => inFull(formatQuantity(value, quantity, { unit, fractions })));
    return [{ id: part.id, says, mend: stop.mend }];
  });

/** Each stop once, with the names of all instruments that it stops; without any where there is but one instrument. */
function stopsOf(
  runs: readonly { readonly name: string; readonly stopped: readonly Stopped[] }[],
): readonly (Stopped & { readonly names: readonly string[] })[] {
  const stops: (Stopped & { names: string[] })[] = [];
  for (const { name, stopped } of runs)
    for (const stop of stopped) {
      const known = stops.find(({ id, says }) => id === stop.id && says === stop.says);
      if (known) known.names.push(name);
      else stops.push({ ...stop, names: name === "" ? [] : [name] });
    }
  return stops;
}

/** The role of the edge that the template is about: `cut`, `pocket`, `plug`; of its first shape where it has no edge. */
function roleOf({ drawing, edge }: Template): string {
  const shapes = drawing.layers.flatMap((layer) => layer.shapes);
  return (shapes.find((shape) => shape.id === edge) ?? shapes[0])?.role ?? "cut";
}

function formatsOf(args: Arguments): readonly string[] {
  const formats = (optionOf(args, "format") ?? FORMATS.join(",")).split(",").map((text) => text.trim().toLowerCase());
  const wrong = formats.find((format) => !FORMATS.includes(format));
  if (wrong !== undefined) throw new CliError(`there is no format ${wrong} (known: ${FORMATS.join(", ")})`);
  return [...new Set(formats)];
}

function chosenOf(all: readonly Template[], stops: readonly Stopped[], args: Arguments): readonly Template[] {
  const part = optionOf(args, "part");
  const name = optionOf(args, "template");
  const ofPart = part === undefined ? all : all.filter((template) => template.partId === part);
  const stop = ofPart.length === 0 ? stops.find(({ id }) => id === part) : undefined;
  if (stop) throw new CliError(`${stop.says.replace(/\.$/, "")}: ${stop.id} (${stop.mend.replace(/\.$/, "")})`);
  if (ofPart.length === 0)
    throw new CliError(`no template of a part ${part} (known: ${[...new Set(all.map((t) => t.partId))].join(", ")})`);
  const chosen = name === undefined ? ofPart : ofPart.filter((template) => template.name === name);
  if (chosen.length === 0)
    throw new CliError(`no template named ${name} (known: ${[...new Set(ofPart.map((t) => t.name))].join(", ")})`);
  return chosen;
}

function sheetOptionsOf(design: Design, args: Arguments): SheetOptions {
  const paper = parsePaper(optionOf(args, "paper") ?? "a4");
  if (!paper.ok) throw new CliError(`--paper: ${paper.error.message} (${paper.error.mend})`);
  const printer = printerOf(optionOf(args, "printer"));
  const style = { unit: design.units, fractions: design.fractions ?? false };
  return {
    ...SHEET_DEFAULTS,
    paper: paper.value,
    ...(printer ? { printer } : {}),
    order: { number: numbersOfAll(design).join(", "), title: design.order?.title ?? "", player: design.order?.player ?? "" },
    date: design.order?.date ?? "",
    fingerprint: fingerprintOf(design),
    say: (mm) => lengthInFull(mm, style),
  };
}

function printerOf(text: string | undefined): PrinterCorrection | undefined {
  if (text === undefined) return undefined;
  const [sx, sy, ...more] = text.split(",").map(Number);
  const good = (factor: number | undefined): factor is number => factor !== undefined && factor >= 0.9 && factor <= 1.1;
  if (!good(sx) || !good(sy) || more.length > 0)
    throw new CliError(`--printer ${text} is not two factors near 1 (like 1.0021,0.9987)`);
  return { name: "typed", sx, sy };
}
