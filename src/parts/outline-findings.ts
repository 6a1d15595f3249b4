/** Whether an outline is whole, told in one way by every part that has one. */
import type { OutlineTrouble } from "../geometry/drawn/outline.ts";
import type { Vec } from "../geometry/vec.ts";
import type { Finding } from "./contract.ts";
import { fine, GEOMETRY } from "./finding.ts";

export interface OutlineState {
  /** It closes and spans an area. */
  readonly whole: boolean;
  /** Where it crosses itself, if it does. */
  readonly crossings: readonly Vec[];
  /** Points at which it could not be drawn as asked. */
  readonly troubles?: readonly OutlineTrouble[];
  /** Id of its shape on the drawing; `outline` where nothing is said. */
  readonly shape?: string;
}

/** What is said of it and how it is mended, as sentences. */
export interface OutlineWords {
  readonly fine?: string;
  readonly crosses: string;
  readonly apart?: string;
  readonly none: string;
  readonly mend: string;
}

/** The findings of a check `outline`: stop where there is no outline or it crosses itself, look at every point that is drawn otherwise than asked. */
export function outlineFindings(
  { whole, crossings: [at], troubles = [], shape = "outline" }: OutlineState,
  words: OutlineWords,
): readonly Finding[] {
  const stop = (says: string, mend: string): Finding => ({
    id: "outline",
    severity: "stop",
    says,
    basis: GEOMETRY,
    mend,
    ...(at ? { at, shape } : {}),
  });
  if (!at && !whole) return [stop(words.none, words.mend)];
  return [
    at
      ? stop(words.crosses, words.apart ?? "Move the points apart.")
      : fine("outline", words.fine ?? "The outline is closed and crosses itself nowhere.", GEOMETRY, shape),
    ...troubles.map(({ what, point }): Finding => ({
      id: `outline/${what}-${point + 1}`,
      severity: "look",
      says:
        what === "rounding"
          ? `The corner at point ${point + 1} has no room for what is to be taken off it, and is drawn sharp.`
          : `The arc from point ${point + 1} cannot be had, and its side is drawn straight.`,
      basis: GEOMETRY,
      mend: what === "rounding" ? "Take off less, or move the points apart." : "Give a radius of at least half the side.",
      shape,
    })),
  ];
}
