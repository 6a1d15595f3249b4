/** The arrow that says which way the grain of the wood runs. */
import type { Grain } from "../../parts/contract.ts";
import { textWidth } from "../lettering.ts";
import type { Block } from "./notes.ts";
import { SMALL, type Pen } from "./pen.ts";

const LONG = 14;
const HEAD = { along: 2, across: 0.8 };
/** Between the arrow and its word, and round both, mm. */
const APART = 1.2;
const WORD = "grain";

/** Room that the arrow takes with its word. */
export const grainSize = (grain: Grain): { readonly width: number; readonly height: number } => {
  const [long, short] = [LONG + textWidth(WORD, SMALL) + 2 * APART, SMALL + 2 * APART];
  return grain === "along-x" ? { width: long, height: short } : { width: short, height: long };
};

/** Draws the arrow, its word behind it, with the lower left corner of their room at (x, y). */
export function drawGrain(pen: Pen, x: number, y: number, grain: Grain): void {
  const { width, height } = grainSize(grain);
  pen.layer("grain");
  const level = grain === "along-x";
  // u runs along the arrow, v to its left.
  const middle = level ? y + height / 2 : x + width / 2;
  const line = (u0: number, v0: number, u1: number, v1: number): void =>
    level
      ? pen.line(x + u0, middle + v0, x + u1, middle + v1, "narrow", "grain")
      : pen.line(middle - v0, y + u0, middle - v1, y + u1, "narrow", "grain");
  line(0, 0, LONG, 0);
  for (const [tip, back] of [
    [0, HEAD.along],
    [LONG, LONG - HEAD.along],
  ] as const)
    for (const side of [-HEAD.across, HEAD.across]) line(tip, 0, back, side);
  const after = LONG + APART;
  if (level) pen.text(x + after, middle - SMALL / 2, WORD, SMALL);
  else pen.text(middle + SMALL / 2, y + after, WORD, SMALL, { upward: true });
}

/** The arrow as a block of its own. */
export const grainBlock = (grain: Grain): Block => ({ ...grainSize(grain), draw: (pen, x, y) => drawGrain(pen, x, y, grain) });
