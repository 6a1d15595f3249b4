import { uniteRings, type FillRule } from "../clipper.ts";
import { flatten } from "../flatten.ts";
import { intersectPaths } from "../intersect.ts";
import { boundsHold, boundsMeet } from "../bounds.ts";
import { pathArea, pathBounds } from "../measure.ts";
import type { Outline } from "../outline.ts";
import { line, endOf, type Path } from "../path.ts";
import { outlinesOf } from "../refit.ts";
import { piecesOf, pointAt, reversePath } from "../segment.ts";
import { selfCrossings } from "../self-crossing.ts";
import { distance } from "../vec.ts";
import { pathWinding } from "../winding.ts";

/** Areas under this, mm2, are no outline. */
const LEAST_AREA = 1e-6;

/**
 * What closed contours cover together by a fill rule, as outlines with holes. Contours keep their curves as they are where none crosses
 * itself or another; else what they cover is found by clipping and refitted.
 */
export function nested(contours: readonly Path[], rule: FillRule): Outline[] {
  const paths = contours.map(closed).filter((path) => Math.abs(pathArea(path)) > LEAST_AREA || selfCrossings(path).length > 0);
  if (paths.length === 0) return [];
  const boxes = paths.map(pathBounds);
  const crosses = paths.some(
    (path, i) =>
      selfCrossings(path).length > 0 ||
      paths.slice(i + 1).some((other, k) => boundsMeet(boxes[i]!, boxes[i + 1 + k]!) && intersectPaths(path, other).length > 0),
  );
  if (crosses)
    return outlinesOf(
      uniteRings(
        paths.map((path) => flatten(path)),
        rule,
      ),
    );
  // Whether the rule fills just inside and just outside of each contour.
  const about = paths.map((path, i) => {
    const [first] = piecesOf(path);
    const at = pointAt(first!, 0.5);
    const round = paths.reduce((sum, other, k) => (k === i ? sum : sum + windingOf(other, boxes[k]!, at)), 0);
    const own = Math.sign(pathArea(path));
    const fills = (winding: number): boolean => (rule === "nonzero" ? winding !== 0 : winding % 2 !== 0);
    return { path, inside: fills(round + own), outside: fills(round) };
  });
  const outers = about.filter(({ inside, outside }) => inside && !outside).map(({ path }) => ccw(path));
  const holes = about.filter(({ inside, outside }) => !inside && outside).map(({ path }) => reversePath(ccw(path)));
  const ownerOf = (hole: Path): Path | undefined =>
    outers
      .filter((outer) => pathWinding(outer, hole.start) !== 0)
      .toSorted((a, b) => Math.abs(pathArea(a)) - Math.abs(pathArea(b)))[0];
  const owners = holes.map(ownerOf);
  return outers.map((outer) => ({ outer, holes: holes.filter((_, i) => owners[i] === outer) }));
}

const windingOf = (path: Path, box: ReturnType<typeof pathBounds>, at: { readonly x: number; readonly y: number }): number =>
  boundsHold(box, at) ? pathWinding(path, at) : 0;

const ccw = (path: Path): Path => (pathArea(path) < 0 ? reversePath(path) : path);

/** The path closed by a straight side, as a filled one is. */
function closed(path: Path): Path {
  if (path.closed) return path;
  const isBack = distance(endOf(path), path.start) === 0;
  return { ...path, segments: isBack ? path.segments : [...path.segments, line(path.start)], closed: true };
}
