/** Outlines taken from an SVG file, for every part that may have them. */
import { pathsBounds } from "../geometry/measure.ts";
import { outlinesArea, type Outline } from "../geometry/outline.ts";
import { SvgFault } from "../geometry/svg/fault.ts";
import { nested } from "../geometry/svg/nesting.ts";
import { readPathData } from "../geometry/svg/path-data.ts";
import { compose, scaling, transformOutline, translation } from "../geometry/transform.ts";
import { vec } from "../geometry/vec.ts";
import type { TextSpec } from "./contract.ts";

/** The parameter that holds the path data of a chosen file. */
export const artText = <P>(group: string, when: (p: P) => boolean): TextSpec<P> => ({
  type: "text",
  label: "Outlines of the file",
  help: "SVG path data in mm, y down. Choosing a file fills it in.",
  group,
  fallback: "",
  maxLength: 400_000,
  file: "svg",
  when,
});

export interface ArtOutlines {
  /** About the middle of them all, y up, the largest first; empty where there is none. */
  readonly pieces: readonly Outline[];
  /** Why there is none. */
  readonly fault: string;
}

/** The pieces of path data in mm with y down, at their own size or scaled to a width along x. */
export function artOutlines(art: string, width: number | undefined): ArtOutlines {
  if (art.trim() === "") return { pieces: [], fault: "no file is chosen yet" };
  try {
    const found = nested(readPathData(art), "evenodd");
    if (found.length === 0) return { pieces: [], fault: "the file's outlines hold no area" };
    const box = pathsBounds(found.map(({ outer }) => outer));
    const k = width === undefined ? 1 : width / (box.maxX - box.minX);
    const middle = vec((box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2);
    const place = compose(translation(vec(-middle.x, -middle.y)), scaling(k, -k));
    const pieces = found.map((outline) => transformOutline(place, outline));
    return { pieces: pieces.toSorted((a, b) => outlinesArea([b]) - outlinesArea([a])), fault: "" };
  } catch (error) {
    if (error instanceof SvgFault) return { pieces: [], fault: error.message };
    throw error;
  }
}
