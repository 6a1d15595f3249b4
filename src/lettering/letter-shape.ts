import { boundsMeet, boundsOfPoints } from "../geometry/bounds.ts";
import { uniteRings } from "../geometry/clipper.ts";
import { flatten } from "../geometry/flatten.ts";
import { pathsOf, type Outline } from "../geometry/outline.ts";
import type { Path } from "../geometry/path.ts";
import { refitRing } from "../geometry/refit.ts";
import { regionBounds, ringArea, ringLength, ringsOf, type Region, type Ring } from "../geometry/region.ts";
import { ringIndex } from "../geometry/ring-index.ts";
import { reversePath } from "../geometry/segment.ts";
import { GRID } from "../geometry/tolerance.ts";

/** A shape twice: in straight sides for clipping, and in true curves. */
export interface LetterShape {
  readonly region: Region;
  readonly outlines: readonly Outline[];
}

/** A ring that clipping left alone has its points within this of the curve's: half a cell of the grid each way, and rounding. */
const LEFT_ALONE = 2 * GRID;

/** What closed paths cover by the nonzero rule. Paths that no other runs into keep their curves; what was joined is fitted anew. */
export function shapeOf(paths: readonly Path[]): LetterShape {
  const rings = paths.map((path) => flatten(path));
  const region = uniteRings(rings);
  return { region, outlines: keepCurves(region, paths, rings) };
}

/** The regions united. Those that keep clear of all others stay as they are. */
export const joinRegions = (regions: readonly Region[]): Region =>
  meetingGroups(regions).flatMap((group) => {
    const members = group.map((i) => regions[i]!);
    return members.length === 1 ? members[0]! : uniteRings(members.flatMap(ringsOf));
  });

/** The true curves round the united shapes. */
export function joinedOutlines(joined: Region, shapes: readonly LetterShape[]): Outline[] {
  const curves = shapes.flatMap(({ outlines }) => outlines.flatMap(pathsOf));
  return keepCurves(
    joined,
    curves,
    curves.map((path) => flatten(path)),
  );
}

/** Numbers of the regions, those together whose boxes meet, directly or through others. */
function meetingGroups(regions: readonly Region[]): number[][] {
  const boxes = regions.map(regionBounds);
  let groups: number[][] = [];
  for (const [i, box] of boxes.entries()) {
    const touched = groups.filter((group) => group.some((k) => boundsMeet(boxes[k]!, box, GRID)));
    groups = [...groups.filter((group) => !touched.includes(group)), [...touched.flat(), i]];
  }
  return groups;
}

/** The region's rings as curves: for each the one of `curves` that it was flattened from, else one fitted to it. */
function keepCurves(region: Region, curves: readonly Path[], flattened: readonly Ring[]): Outline[] {
  const candidates = curves.map((path, i) => {
    const points = flattened[i]!;
    return { path, points, box: boundsOfPoints(points), area: ringArea(points) };
  });
  const curveOf = (ring: Ring): Path => {
    const box = boundsOfPoints(ring);
    const area = ringArea(ring);
    const slack = LEFT_ALONE * ringLength(ring);
    for (const candidate of candidates) {
      if (!boundsMeet(candidate.box, box) || Math.abs(Math.abs(candidate.area) - Math.abs(area)) > slack) continue;
      const index = ringIndex([ring], LEFT_ALONE);
      if (!candidate.points.every((p) => index.distanceWithin(p, LEFT_ALONE) !== undefined)) continue;
      return Math.sign(candidate.area) === Math.sign(area) ? candidate.path : reversePath(candidate.path);
    }
    return refitRing(ring);
  };
  return region.map(({ outer, holes }) => ({ outer: curveOf(outer), holes: holes.map(curveOf) }));
}
