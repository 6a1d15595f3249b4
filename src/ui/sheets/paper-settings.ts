/** The paper and the printer as the maker set them: of this browser, not of a design. Kept as typed, read by the same table as a part's numbers. */
import { useMemo } from "react";
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import { NO_SOURCES, type ParamTable } from "../../parts/contract.ts";
import type { Field, Problem, Raw, RawRecord } from "../../parts/derived.ts";
import { openTable, settle } from "../../parts/resolve.ts";
import { PAPERS, parsePaper } from "../../sheets/paper.ts";
import { SHEET_DEFAULTS, type SheetOptions } from "../../sheets/sheet.ts";
import type { LengthStyle } from "../../units/format.ts";
import type { LengthUnit } from "../../units/unit.ts";
import type { Editing } from "../panels/editing.ts";
import { correctionFor, usePrinters, type MeasuredPrinter } from "./printers.ts";
import { sidesSaid } from "./words.ts";

const OTHER = "other";

interface PaperNumbers {
  readonly size: string;
  readonly other: string;
  readonly orientation: "best" | "portrait" | "landscape";
  readonly margin: number;
  readonly overlap: number;
  readonly share: boolean;
  readonly wasteSide: SheetOptions["waste"];
  /** Name of a measured one. */
  readonly printer: string;
}

const PAPER = "Paper";
export const PRINTER = "Printer";
const JOINTS = "Sheets";
const NOT_MEASURED = "";
const FROM_PRINTER = "what this printer leaves white";

const tableFor = (style: LengthStyle, printers: readonly MeasuredPrinter[]): ParamTable<PaperNumbers> => ({
  size: {
    type: "choice",
    label: "Size",
    help: "The paper in the printer. Larger paper means fewer joints.",
    group: PAPER,
    fallback: style.unit === "in" ? "letter" : "a4",
    options: [
      ...Object.entries(PAPERS).map(([value, paper]) => ({ value, label: `${paper.label}, ${sidesSaid(paper, style)}` })),
      { value: OTHER, label: "Another size or a roll" },
    ],
  },
  other: {
    type: "text",
    label: "Width and length, or roll",
    help: "In mm, as 300 x 500, or in inches, as 13 x 19 in; or a roll by its width, as roll 610.",
    group: PAPER,
    fallback: "300 x 500",
    maxLength: 40,
    when: (p) => p.size === OTHER,
  },
  orientation: {
    type: "choice",
    label: "Position",
    help: "How the sheets lie. Best takes the one with the fewest sheets.",
    group: PAPER,
    fallback: SHEET_DEFAULTS.orientation,
    options: [
      { value: "best", label: "Best" },
      { value: "portrait", label: "Upright" },
      { value: "landscape", label: "Lying" },
    ],
  },
  margin: {
    type: "length",
    label: "White edge",
    help: "What the printer cannot reach along each edge. Nothing of an outline is drawn there.",
    group: PAPER,
    fallback: SHEET_DEFAULTS.margin,
    min: 0,
    max: 60,
    step: 1,
    usual: { from: 4, to: 13, basis: `${FROM_PRINTER}; see its manual` },
  },
  overlap: {
    type: "length",
    label: "Overlap",
    help: "How far sheets lie over each other to be glued; 0 puts them edge to edge.",
    group: JOINTS,
    fallback: SHEET_DEFAULTS.overlap,
    min: 0,
    max: 30,
    step: 1,
    usual: { from: 4, to: 12, basis: "common practice, no source" },
  },
  share: {
    type: "flag",
    label: "Small templates share sheets",
    help: "Saves paper; each can still be cut out by itself.",
    group: JOINTS,
    fallback: SHEET_DEFAULTS.share,
  },
  wasteSide: {
    type: "choice",
    label: "Waste side of the edge",
    help: "Shows on which side of the line the wood goes away. Hatching takes less ink than grey, and lets a pencil line be seen.",
    group: JOINTS,
    fallback: SHEET_DEFAULTS.waste,
    options: [
      { value: "none", label: "White" },
      { value: "grey", label: "Grey" },
      { value: "hatch", label: "Hatched" },
    ],
  },
  printer: {
    type: "choice",
    label: "Printer",
    help: "Measured once by its test sheet, its sheets are drawn a little larger or smaller, so that they print true.",
    group: PRINTER,
    fallback: NOT_MEASURED,
    options: [{ value: NOT_MEASURED, label: "Not measured" }, ...printers.map(({ name }) => ({ value: name, label: name }))],
  },
});

const ROOT = "paper";
export const PAPER_SETTINGS = "paper";
const store = createStore<{ readonly raw: RawRecord }>(() => ({ raw: {} }));

/** Takes the settings that were kept, and keeps later changes. */
export function keepPaperSettings(kept: unknown, keep: (name: string, value: unknown) => void): void {
  if (typeof kept === "object" && kept !== null && !Array.isArray(kept)) store.setState({ raw: kept as RawRecord });
  store.subscribe(({ raw }) => keep(PAPER_SETTINGS, raw));
}

const around = (unit: LengthUnit) => ({ path: ROOT, units: unit, from: NO_SOURCES });
const without = (raw: RawRecord, key: string): RawRecord =>
  Object.fromEntries(Object.entries(raw).filter(([name]) => name !== key));
const withRaw = (raw: RawRecord, path: string, value: Raw): RawRecord => {
  const key = path.slice(ROOT.length + 1);
  return value === undefined ? without(raw, key) : { ...raw, [key]: value };
};

function problemIn(table: ParamTable<PaperNumbers>, raw: RawRecord, unit: LengthUnit, path: string): Problem | undefined {
  const found = openTable(table, raw, around(unit))
    .problems()
    .find((problem) => problem.path === path);
  if (found || path !== `${ROOT}.other`) return found;
  const read = parsePaper(String(raw["other"] ?? ""));
  return read.ok ? undefined : { path, label: "Paper", ...read.error };
}

export interface PaperSettings {
  readonly fields: readonly Field[];
  readonly editing: Editing;
  /** Undefined where a kept setting cannot be read any more; the fields tell which. */
  readonly chosen: Pick<SheetOptions, "paper" | "orientation" | "margin" | "overlap" | "share" | "waste" | "printer"> | undefined;
}

/** A bare length keeps the unit that it was typed in, since the next design may be shown in another. */
function pinned(fields: readonly Field[], path: string, value: Raw, unit: LengthUnit): Raw {
  const isLength = fields.find((field) => field.path === path)?.spec.type === "length";
  return isLength && typeof value === "string" && /^[\d\s.,/]+$/.test(value) ? `${value.trim()} ${unit}` : value;
}

/** The settings with what a bare number in them means. */
export function paperSettings(kept: RawRecord, style: LengthStyle, printers: readonly MeasuredPrinter[] = []): PaperSettings {
  const { unit } = style;
  const table = tableFor(style, printers);
  // A printer that was taken out is not measured any more.
  const raw = printers.some(({ name }) => name === kept["printer"]) ? kept : without(kept, "printer");
  const settled = settle(table, raw, around(unit));
  const paper = settled.ok ? parsePaper(settled.value.size === OTHER ? settled.value.other : settled.value.size) : undefined;
  const fields = openTable(table, raw, around(unit))
    .fields()
    .filter((field) => field.key !== "printer" || printers.length > 0);
  const editing: Editing = {
    tryValue: (path, value) => problemIn(table, withRaw(raw, path, value), unit, path),
    sayValue: (path, value) => {
      const next = withRaw(store.getState().raw, path, pinned(fields, path, value, unit));
      const found = problemIn(table, next, unit, path);
      if (!found) store.setState({ raw: next });
      return found;
    },
    drop: () => undefined,
  };
  if (!settled.ok || !paper?.ok) return { fields, editing, chosen: undefined };
  const { orientation, margin, overlap, share, wasteSide } = settled.value;
  const measured = printers.find(({ name }) => name === settled.value.printer);
  const printer = measured && correctionFor(measured);
  return {
    fields,
    editing,
    chosen: {
      paper: paper.value,
      orientation,
      margin,
      overlap,
      share,
      waste: wasteSide,
      ...(printer ? { printer } : {}),
    },
  };
}

/** The settings as a design in these units sees them. */
export function usePaperSettings(style: LengthStyle): PaperSettings {
  const raw = useStore(store, (state) => state.raw);
  const printers = usePrinters();
  return useMemo(() => paperSettings(raw, style, printers), [raw, style, printers]);
}

/** Chooses a measured printer by its name. */
export const choosePrinter = (name: string): void => store.setState(({ raw }) => ({ raw: { ...raw, printer: name } }));
