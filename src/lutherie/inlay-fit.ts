/** How a pocket and its piece fit, measured on their edges as they are drawn. Lengths in mm, areas in mm2. */
import { edgesMeet, edgesOf, lengthOf, pointOn } from "../geometry/arc-edge.ts";
import { edgeIndex } from "../geometry/arc-nearest.ts";
import { regionOfArcs } from "../geometry/arc-ring.ts";
import { boundsHold } from "../geometry/bounds.ts";
import { difference } from "../geometry/clipper.ts";
import { pathBounds } from "../geometry/measure.ts";
import { narrowest, type Narrow } from "../geometry/narrowest.ts";
import { pathsOf, type Outline } from "../geometry/outline.ts";
import { regionArea } from "../geometry/region.ts";
import type { Vec } from "../geometry/vec.ts";
import { isInside } from "../geometry/winding.ts";

export interface PairFit {
  /** Least and greatest distance between the two edges, from either to the other; where they overlap the least is 0. */
  readonly minGap: number;
  readonly maxGap: number;
  /** Where these are. */
  readonly tightest: Vec;
  readonly loosest: Vec;
  /** Area of the piece that lies outside of the pocket. */
  readonly overlap: number;
}

/** Distance between the points at which an edge is measured. */
const STEP = 0.05;

/**
 * Measures the gap round a piece in its pocket, both outlines of lines and arcs. `reach` bounds what is looked for: a place further from the
 * other edge counts as `reach`. Undefined where either is empty.
 */
export function pairFit(pocket: readonly Outline[], piece: readonly Outline[], reach: number): PairFit | undefined {
  const outside = pocket.flatMap(pathsOf).flatMap(edgesOf);
  const inside = piece.flatMap(pathsOf).flatMap(edgesOf);
  const first = inside[0] && pointOn(inside[0], 0);
  if (!first || outside.length === 0) return undefined;
  let [minGap, maxGap, tightest, loosest] = [Infinity, -Infinity, first, first];
  for (const [from, to] of [
    [inside, outside],
    [outside, inside],
  ] as const) {
    const index = edgeIndex(to);
    for (const edge of from) {
      const count = Math.max(1, Math.ceil(lengthOf(edge) / STEP));
      for (let k = 0; k < count; k++) {
        const p = pointOn(edge, k / count);
        const away = index.nearest(p, reach)?.distance ?? reach;
        if (away < minGap) [minGap, tightest] = [away, p];
        if (away > maxGap) [maxGap, loosest] = [away, p];
      }
    }
  }
  const walls = pocket.map((wall) => ({ wall, box: pathBounds(wall.outer) }));
  const isIn = (p: Vec): boolean => walls.some(({ wall, box }) => boundsHold(box, p) && isInside(pathsOf(wall), p));
  const contained = piece.every(({ outer }) => isIn(outer.start)) && !edgesMeet(inside, outside);
  const overlap = contained ? 0 : regionArea(difference(regionOfArcs(piece), regionOfArcs(pocket)));
  return { minGap: overlap > 1e-4 ? 0 : minGap, maxGap, tightest, loosest, overlap };
}

/** How a piece goes into its pocket where the gap asked for is `gap`. */
export type FitVerdict = "fits" | "jams" | "tight" | "loose";

/** A gap that is off by less than this is as asked, mm. */
const AS_ASKED = 0.005;

/** `jams` where the piece overlaps the pocket, `tight` or `loose` where the gap somewhere misses what was asked for by 0.005 mm or more. */
export function fitVerdict({ minGap, maxGap, overlap }: PairFit, gap: number): FitVerdict {
  if (overlap > 1e-4) return "jams";
  if (minGap < gap - AS_ASKED) return "tight";
  return maxGap > gap + AS_ASKED ? "loose" : "fits";
}

/** The thinnest wall of wood that stands between pockets, in their slits and in their counters. */
export const thinnestWall = (pocket: readonly Outline[]): Narrow | undefined => narrowest(pocket, "outside");
