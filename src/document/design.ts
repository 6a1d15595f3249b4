/**
 * The design file: plain JSON, only what the maker said. Names here are kept for good; anything may be added, and keys that this
 * version does not know are kept as they are. A length is text as the maker typed it, or a bare number in mm.
 */
import type { Raw, RawRecord } from "../parts/derived.ts";
import type { Boards } from "./board.ts";

export const FORMAT = "gramil-design";
export const VERSION = 1;

/** What a bare typed number means and how lengths are shown. */
export type Units = "in" | "mm";
export const UNITS: readonly Units[] = ["in", "mm"];

export type OrderStatus = "in work" | "done" | "kept" | "scrapped";
export const ORDER_STATUSES: readonly OrderStatus[] = ["in work", "done", "kept", "scrapped"];

/** Who the instrument is for, and what was agreed. */
export interface Order {
  readonly title?: string;
  readonly player?: string;
  /** Of the shop's one series of instrument numbers. */
  readonly number?: string;
  /** Day, as 2025-03-31. */
  readonly date?: string;
  readonly notes?: string;
  readonly builtBy?: string;
  readonly status?: OrderStatus;
  /** Measured lengths of an instrument that the player likes, by dimension path. */
  readonly reference?: RawRecord;
}

/** One part of the instrument: its kind and what the maker said of it. Only a part of a later version carries its own `version`. */
export interface PartRecord extends RawRecord {
  readonly kind: string;
  readonly version?: number;
}

/** As built: takes over from the planned value. */
export interface Measured {
  readonly value: Raw;
  /** Day, as 2025-03-31. */
  readonly date?: string;
  /** "calliper, after sanding" */
  readonly how?: string;
  /** False: written down, but what depends on the number follows the plan all the same. */
  readonly leads?: boolean;
  /** Length that scraping and finish were to take off each face; below 0 they add. */
  readonly perFace?: Raw;
  /** How many such faces the number has: 2 across a board, 1 on its back. 2 where nothing is said. */
  readonly faces?: number;
}

/** The numbers that drawings come from. */
export interface Numbers {
  readonly units: Units;
  readonly instrument: RawRecord;
  readonly parts: Readonly<Record<string, PartRecord>>;
  readonly measured?: Readonly<Record<string, Measured>>;
  readonly limits?: RawRecord;
  /** How templates are made, by template (`fingerboard/blank-outline`) or, for what they share, by part (`fingerboard`). */
  readonly templates?: Readonly<Record<string, RawRecord>>;
  /** The wood of each blank, by `<part id>/<blank>`. */
  readonly wood?: Readonly<Record<string, RawRecord>>;
  /** The air in the shop and where the instrument will live. */
  readonly seasons?: RawRecord;
}

/** What was cut from a template, with the numbers as they were then. */
export interface Cut {
  /** Day, as 2025-03-31. */
  readonly date: string;
  /** Id of the part. */
  readonly part: string;
  /** Name of its template. */
  readonly template: string;
  /** As printed on the sheet. */
  readonly fingerprint: string;
  readonly material?: string;
  readonly note?: string;
  readonly numbers: Numbers;
}

/** One more instrument from the same design: what it has of its own. */
export interface Copy {
  /** Of the shop's one series of instrument numbers. */
  readonly number?: string;
  readonly player?: string;
  /** Its own numbers by path, as typed; all others are the design's. */
  readonly own?: RawRecord;
}

export interface Design extends Numbers {
  readonly format: typeof FORMAT;
  readonly version: typeof VERSION;
  /** Whether inches are shown as fractions. */
  readonly fractions?: boolean;
  readonly order?: Order;
  readonly cuts?: readonly Cut[];
  /** Further instruments from the same numbers. */
  readonly copies?: readonly Copy[];
  /** What lies on the parts' boards beside the parts: photographs, dimensions of the dividers. */
  readonly boards?: Boards;
}

/** A refusal in words: what is wrong, and what to do about it. */
export interface Trouble {
  /** What is wrong, without a stop. */
  readonly message: string;
  /** What to do, one sentence. */
  readonly mend: string;
  /** Where in the design, if it is about one place. */
  readonly path?: string;
}

/** What was wrong at one place of a file, and what was done about it. */
export interface Repair {
  /** `parts.fingerboard.binding[1]`; empty for the file as a whole. */
  readonly path: string;
  /** "it was a list and not a text: left out" */
  readonly says: string;
}
