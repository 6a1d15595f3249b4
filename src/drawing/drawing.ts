import type { Bounds } from "../geometry/bounds.ts";
import type { Path } from "../geometry/path.ts";
import type { Vec } from "../geometry/vec.ts";

/** What a shape is for: the word that machines and readers of a file go by (see the file contract in DEVELOPERS.md). */
export type Role = "cut" | "pocket" | "plug" | "drill" | "slot" | "centre" | "guide" | "mark" | "label";

/** Line types of ISO 128-2: 01.2 continuous wide, 01.1 continuous narrow, 02.1 dashed narrow, 04.1 long-dashed dotted narrow, 05.1 long-dashed double-dotted narrow. */
export type LineType = "visible" | "narrow" | "hidden" | "centre" | "adjacent";

/** A number said about a shape, in mm, or radians for an angle. */
export interface Said {
  readonly label: string;
  readonly value: number;
  readonly quantity: "length" | "angle" | "count";
}

export interface Shape {
  /** Unique within the drawing, says what it is: `outline`, `fret-12`, `marker-5`. */
  readonly id: string;
  readonly role: Role;
  readonly line: LineType;
  readonly path: Path;
  /** Closed loops inside `path` that are not part of it. */
  readonly holes?: readonly Path[];
  /** What it is, in the words of the trade: "fret 12". */
  readonly name: string;
  readonly says?: readonly Said[];
  /**
   * How a closed area is shown on screen and, if asked, on paper. `lost`: what a cutter cannot clear; `added`: what it leaves on; `stop`:
   * where cutting as drawn spoils the work.
   */
  readonly tint?: "wood" | "waste" | "inlay" | "lost" | "added" | "stop";
}

export interface Text {
  readonly id: string;
  readonly at: Vec;
  readonly text: string;
  /** Height of a capital, mm. */
  readonly height: number;
  readonly align: "start" | "middle" | "end";
  /** Radians, counter-clockwise. */
  readonly angle?: number;
  /** A warning: on screen bold and in the colour of a stop. */
  readonly loud?: boolean;
}

/**
 * A dimension line after ISO 129-1. It runs between the feet of `from` and `to` on a line `offset` mm to the left of the direction
 * from -> to (negative: to the right); `along` says whether it measures along x, along y or straight between the two points.
 */
export interface Dimension {
  readonly id: string;
  readonly from: Vec;
  readonly to: Vec;
  readonly along: "x" | "y" | "straight";
  readonly offset: number;
  readonly value: number;
  readonly quantity: "length" | "angle";
  /** Said before the value: R or the diameter sign. */
  readonly before?: "R" | "Ø";
  /** Words after the value: "to fret 12". */
  readonly after?: string;
  /** Path of the number that typing here sets, if it can be typed: `instrument.nutWidth`; a part writes its own numbers as `.overhang`. */
  readonly edits?: string;
  /** Its line runs over what is drawn: its text stands beyond an end of it where there is room. */
  readonly beyond?: boolean;
  /** 1 is shown first; those that find no room are left out in falling order. */
  readonly rank: 1 | 2 | 3;
}

export interface Layer {
  /** Kebab-case: `outline`, `frets`, `strings`, `markers`. */
  readonly name: string;
  readonly shapes: readonly Shape[];
  readonly texts?: readonly Text[];
}

/** Plain geometry in mm, true size. Layers are drawn in order, the first at the bottom. */
export interface Drawing {
  readonly layers: readonly Layer[];
  readonly dimensions: readonly Dimension[];
  /** What of it is looked at first, mm; absent: all. */
  readonly focus?: Bounds;
}

export const EMPTY_DRAWING: Drawing = { layers: [], dimensions: [] };
