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

/**
 * The outlines `grown` mm round the cores, closed by a disc of `radius`: filled where no disc outside them can reach, as far as they lie in one of
 * `rooms`, so that pieces in different rooms are never joined; without rooms all of them are closed together. What then overlaps is united.
 */
export function closeArcsApart(
  cores: readonly Outline[],
  grown: number,
  radius: number,
  rooms: readonly Outline[],
): { readonly closed: readonly Outline[]; readonly united: boolean } {
  const closed = sortedInto(rooms, cores).flatMap((group) => offsetArcs(offsetArcs(group, grown + radius), -radius));
  const united = closed.length > 1 && overlapping(closed);
  return { closed: united ? arcOutlinesOf(union(...closed.map((outline) => regionOfArcs([outline])))) : closed, united };
}

/** The outlines sorted by the room in which they lie; each room holds one at least. */
function sortedInto(rooms: readonly Outline[], outlines: readonly Outline[]): Outline[][] {
  if (rooms.length < 2) return [[...outlines]];
  if (rooms.length === outlines.length) return outlines.map((outline) => [outline]);
  return rooms.map((room) => outlines.filter(({ outer }) => isInside(pathsOf(room), outer.start)));
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
