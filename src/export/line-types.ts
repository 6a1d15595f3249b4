/** How the line types of ISO 128-2 are drawn in files: black, in the 0.25 mm group, thin enough for a cut to its centre. */
import type { LineType } from "../drawing/drawing.ts";

export interface Stroke {
  /** mm */
  readonly width: number;
  /** Dashes and gaps in turn, mm; empty for a continuous line. */
  readonly dashes: readonly number[];
}

/** Wide to narrow is 2 to 1. Dash 12 d, gap 3 d, long dash 24 d, dot 0.5 d, with d the width of the wide line. */
const WIDE = 0.25;
const NARROW = 0.125;
const DASH = 12 * WIDE;
const LONG = 24 * WIDE;
const GAP = 3 * WIDE;
const DOT = 0.5 * WIDE;

export const STROKES: Readonly<Record<LineType, Stroke>> = {
  visible: { width: WIDE, dashes: [] },
  narrow: { width: NARROW, dashes: [] },
  hidden: { width: NARROW, dashes: [DASH, GAP] },
  centre: { width: NARROW, dashes: [LONG, GAP, DOT, GAP] },
  adjacent: { width: NARROW, dashes: [LONG, GAP, DOT, GAP, DOT, GAP] },
};
