/** What a report holds before it is set on pages: words, tables and pictures. */
import type { Drawing } from "../drawing/drawing.ts";

export interface Column {
  readonly head: string;
  /** Its share of the width. */
  readonly share: number;
  /** Numbers stand under each other at their ends. */
  readonly right?: boolean;
}

export interface Section {
  readonly title: string;
  /** A group within the section before it. */
  readonly within?: boolean;
  readonly about?: string;
  readonly columns: readonly Column[];
  /** None, and only the words above are said. */
  readonly rows: readonly (readonly string[])[];
}

export interface Report {
  readonly title: string;
  /** Player, date, builder and the like: a word and what stands behind it. */
  readonly facts: readonly (readonly [string, string])[];
  readonly notes: string;
  readonly pictures: readonly { readonly title: string; readonly drawing: Drawing }[];
  readonly sections: readonly Section[];
  /** At the foot of every page. */
  readonly stamp: string;
}
