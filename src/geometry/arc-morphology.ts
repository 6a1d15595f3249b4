/** Outlines of lines and arcs filtered by a disc; exact to rounding. Lengths in mm. */
import { edgesMeet, edgesOf } from "./arc-edge.ts";
import { offsetArcs } from "./arc-offset.ts";
import { arcOutlinesOf, regionOfArcs } from "./arc-ring.ts";
import { boundsMeet } from "./bounds.ts";
import { union } from "./clipper.ts";
import { pathBounds } from "./measure.ts";
import { pathsOf, type Outline } from "./outline.ts";
import { isInside } from "./winding.ts";

/** All that discs of `radius` inside the outlines cover: outward corners rounded, strokes thinner than the disc gone. */
export const openArcs = (outlines: readonly Outline[], radius: number): Outline[] =>
  offsetArcs(offsetArcs(outlines, -radius), radius);

/** The outlines with all filled that no disc of `radius` outside them can reach. */
export const closeArcs = (outlines: readonly Outline[], radius: number): Outline[] =>
  offsetArcs(offsetArcs(outlines, radius), -radius);

/**
 * `closeArcs` done piece by piece, so that pieces are never joined, but for those whose edges would meet if moved out by `near` mm: they are
 * closed as one. What then overlaps is united.
 */
export function closeArcsApart(outlines: readonly Outline[], radius: number, near: number): Outline[] {
  const closed = groups(outlines, near).flatMap((group) => closeArcs(group, radius));
  return closed.length > 1 && overlapping(closed)
    ? arcOutlinesOf(union(...closed.map((outline) => regionOfArcs([outline]))))
    : closed;
}

/** The outlines sorted by which of them run together when their edges are moved out by `near` mm. */
function groups(outlines: readonly Outline[], near: number): Outline[][] {
  if (outlines.length < 2) return [[...outlines]];
  const moved = offsetArcs(outlines, near);
  if (moved.length === outlines.length) return outlines.map((outline) => [outline]);
  return moved.map((around) => outlines.filter(({ outer }) => isInside(pathsOf(around), outer.start)));
}

/** Whether any two of the outlines share some area. */
function overlapping(outlines: readonly Outline[]): boolean {
  const boxes = outlines.map(({ outer }) => pathBounds(outer));
  return outlines.some((outline, i) =>
    outlines.slice(0, i).some((other, k) => boundsMeet(boxes[i]!, boxes[k]!) && overlap(outline, other)),
  );
}

function overlap(a: Outline, b: Outline): boolean {
  if (isInside(pathsOf(a), b.outer.start) || isInside(pathsOf(b), a.outer.start)) return true;
  return edgesMeet(pathsOf(a).flatMap(edgesOf), pathsOf(b).flatMap(edgesOf));
}
