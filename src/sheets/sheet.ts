/** What a sheet of paper holds, in mm as the reader sees it: x to the right, y up, the origin at the lower left corner. */
import type { Drawing, Text } from "../drawing/drawing.ts";
import type { Template } from "../templates/template.ts";
import type { Paper } from "./paper.ts";

/** An upright rectangle, x0 < x1 and y0 < y1. */
export interface Rect {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Quarter turns counter-clockwise about the template's origin, then a shift: where a template lies on its sheet. */
export interface Placement {
  readonly turn: 0 | 1 | 2 | 3;
  readonly x: number;
  readonly y: number;
}

export interface Placed {
  readonly template: Template;
  readonly at: Placement;
  /** Nothing of the template is drawn outside of this. */
  readonly clip: Rect;
}

export interface Sheet {
  /** "Fingerboard, blank outline, A2" */
  readonly name: string;
  /** Row letter and column number of a tile ("A2"), or "1", "2" ... for sheets that hold whole templates. */
  readonly tag: string;
  readonly row: number;
  readonly column: number;
  readonly width: number;
  readonly height: number;
  /** The sheet is seen lying where its name has it upright (or the reverse): the paper itself turned a quarter clockwise. */
  readonly turned: boolean;
  /** Every drawn x and y is multiplied by this about the middle of the sheet, so that what leaves the printer is true. */
  readonly correction: { readonly x: number; readonly y: number };
  /** The rectangle in which templates are drawn; its joined edges are the joints. */
  readonly frame: Rect;
  readonly placed: readonly Placed[];
  /** Everything else on the sheet: frame, marks, bars, map, title strip. */
  readonly furniture: Drawing;
  /** Lettering of the furniture that is set in the bold face. */
  readonly strong: readonly Text[];
}

/** One way to tile a template, and how many sheets it takes. */
export interface Choice {
  readonly orientation: "portrait" | "landscape";
  readonly turn: 0 | 1;
  readonly columns: number;
  readonly rows: number;
  /** Blank ones left out. */
  readonly sheets: number;
}

/** The waste side of an edge: left white, or a band along it in grey or hatched. */
export type Waste = "none" | "grey" | "hatch";

/** How one template came to lie on its sheets. */
export interface Tiling {
  readonly templateId: string;
  /** As the strip of its sheets has it: "Fingerboard, blank outline", "Long templates, row 1", "Small templates". */
  readonly title: string;
  /** Indices into `SheetSet.sheets`. */
  readonly sheets: readonly number[];
  /** Shares its sheets with others. */
  readonly shared: boolean;
  /** Every orientation and turn in which it would lie alone, the one with the fewest sheets first. */
  readonly choices: readonly Choice[];
  /** What the maker measures once the sheets are joined: from cross to cross, mm. Undefined on a single sheet. */
  readonly assembled?: number;
}

export interface SheetSet {
  readonly paper: Paper;
  readonly waste: Waste;
  readonly sheets: readonly Sheet[];
  /** In the order of the templates asked for. */
  readonly tilings: readonly Tiling[];
}

/** The measured scale of one printer, from its test sheet: true length over printed length of a bar. */
export interface PrinterCorrection {
  readonly name: string;
  /** Along the first side that names the paper (across an upright sheet). */
  readonly sx: number;
  /** Along the second side (the length of an upright sheet). */
  readonly sy: number;
}

export interface SheetOptions {
  readonly paper: Paper;
  readonly orientation: "portrait" | "landscape" | "best";
  /** What the printer leaves white along each edge, mm. */
  readonly margin: number;
  /** How far sheets lie over each other, mm; 0 is a butt joint. */
  readonly overlap: number;
  /** Small templates share sheets. */
  readonly share: boolean;
  /** How the waste side of the edge is shown. */
  readonly waste: Waste;
  readonly printer?: PrinterCorrection;
  /** Moves the joints of a template, by its id, along and up the sheet as seen, mm. */
  readonly joints?: Readonly<Record<string, { readonly x: number; readonly y: number }>>;
  readonly order: { readonly number: string; readonly title: string; readonly player: string };
  /** As printed in the title strip. */
  readonly date: string;
  /** Short sign of the numbers that the templates came from. */
  readonly fingerprint: string;
  /** Says a length in the maker's units, with the unit: "12.700 in". */
  readonly say: (mm: number) => string;
}

/** Margin and overlap that suit an office printer and a glue stick. */
export const SHEET_DEFAULTS = { orientation: "best", margin: 8, overlap: 6, share: true, waste: "none" } as const;
