/** Outlines of lines and arcs filtered by a disc; exact to rounding. Lengths in mm. */
import { edgesMeet, edgesOf, lengthOf, pointOn } from "./arc-edge.ts";
import { clearOf } from "./arc-index.ts";
import { offsetArcs } from "./arc-offset.ts";
import { arcOutlinesOf } from "./arc-ring.ts";
import { boundsMeet, growBounds, joinBounds, type Bounds } from "./bounds.ts";
import { difference, offsetRings, union } from "./clipper.ts";
import { cropRegion } from "./crop.ts";
import { flatten } from "./flatten.ts";
import { pathArea, pathBounds } from "./measure.ts";
import { pathsOf, type Outline } from "./outline.ts";
import type { Region } from "./region.ts";
import { FLATTEN } from "./tolerance.ts";
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

/** What lies in `larger` and not in `smaller`, which lies in it, wherever it is wider than `width` mm; each place on its own. */
export function placesBetween(larger: readonly Outline[], smaller: readonly Outline[], width: number): Region[] {
  if (areaOf(larger) - areaOf(smaller) < width ** 2) return [];
  const fine = width / 4;
  const [outer, inner] = [regionOfArcs(larger, fine), regionOfArcs(smaller, fine)];
  // Nearly all of both edges is the same, and clipping edges that coincide takes long: only what is left of the smaller one is looked at.
  return boxesOff(smaller, larger)
    .flatMap((box) => difference(cropRegion(outer, box), cropRegion(inner, box)))
    .map((polygon) => [polygon])
    .filter((place) => offsetRings(place, -width / 2).length > 0);
}

/** Distance between the points at which an edge is held against another, mm. */
const LOOKS = 0.05;
/** Edges nearer to each other than this, mm, are one. */
const ON_EDGE = 1e-5;

/** Boxes, clear of each other, round all of the outlines' edges that does not lie on an edge of the others. */
function boxesOff(outlines: readonly Outline[], others: readonly Outline[]): Bounds[] {
  const isOff = clearOf(others.flatMap(pathsOf).flatMap(edgesOf), ON_EDGE);
  const boxes: Bounds[] = [];
  for (const edge of outlines.flatMap(pathsOf).flatMap(edgesOf)) {
    const count = Math.ceil(lengthOf(edge) / LOOKS);
    for (let i = 0; i < count; i++) {
      const p = pointOn(edge, i / count);
      if (!isOff(p.x, p.y)) continue;
      let box = growBounds({ minX: p.x, minY: p.y, maxX: p.x, maxY: p.y }, 3 * LOOKS);
      for (let k = boxes.length - 1; k >= 0; k--) {
        if (!boundsMeet(box, boxes[k]!)) continue;
        box = joinBounds([box, boxes[k]!]);
        boxes.splice(k, 1);
        k = boxes.length;
      }
      boxes.push(box);
    }
  }
  return boxes;
}

const areaOf = (outlines: readonly Outline[]): number => outlines.flatMap(pathsOf).reduce((sum, path) => sum + pathArea(path), 0);

/** The outlines, which do not overlap, in straight sides within `tolerance` mm. */
export const regionOfArcs = (outlines: readonly Outline[], tolerance = FLATTEN): Region =>
  outlines.map(({ outer, holes }) => ({
    outer: flatten(outer, tolerance),
    holes: holes.map((hole) => flatten(hole, tolerance)),
  }));

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
