/** Where two outlines of lines and arcs that are mostly the same differ. Lengths in mm. */
import { edgesOf, lengthOf, pointOn } from "./arc-edge.ts";
import { clearOf } from "./arc-index.ts";
import { regionOfArcs } from "./arc-ring.ts";
import { boundsMeet, growBounds, joinBounds, type Bounds } from "./bounds.ts";
import { difference, offsetRings } from "./clipper.ts";
import { cropRegion } from "./crop.ts";
import { pathArea } from "./measure.ts";
import { pathsOf, type Outline } from "./outline.ts";
import type { Region } from "./region.ts";

/** Distance between the points at which an edge is held against another, mm. */
const LOOKS = 0.05;
/** Chords of what is clipped, mm, or a quarter of the width if that is less. */
const CHORDS = 0.0004;
/** Edges nearer to each other than this, mm, are one. */
const ON_EDGE = 1e-5;

/** What lies in `larger` and not in `smaller`, which lies in it, wherever it is wider than `width` mm; each place on its own. */
export function placesBetween(larger: readonly Outline[], smaller: readonly Outline[], width: number): Region[] {
  if (areaOf(larger) - areaOf(smaller) < width ** 2) return [];
  return placesIn(boxesRound(pointsOff(smaller, larger)), larger, smaller, width);
}

/** What lies in `some` and not in `others`, wherever it is wider than `width` mm; each place on its own. */
export const placesOutside = (some: readonly Outline[], others: readonly Outline[], width: number): Region[] =>
  placesIn(boxesRound([...pointsOff(some, others), ...pointsOff(others, some)]), some, others, width);

/** Nearly all of both edges is the same, and clipping edges that coincide takes long: only what is in the boxes is looked at. */
function placesIn(boxes: readonly Bounds[], some: readonly Outline[], others: readonly Outline[], width: number): Region[] {
  if (boxes.length === 0) return [];
  const fine = Math.min(CHORDS, width / 4);
  const [inner, outer] = [regionOfArcs(others, fine), regionOfArcs(some, fine)];
  return boxes
    .flatMap((box) => difference(cropRegion(outer, box), cropRegion(inner, box)))
    .map((polygon) => [polygon])
    .filter((place) => offsetRings(place, -width / 2).length > 0);
}

/** Boxes round points along all of the outlines' edges that does not lie on an edge of the others. */
function pointsOff(outlines: readonly Outline[], others: readonly Outline[]): Bounds[] {
  const isOff = clearOf(others.flatMap(pathsOf).flatMap(edgesOf), ON_EDGE);
  return outlines
    .flatMap(pathsOf)
    .flatMap(edgesOf)
    .flatMap((edge) => {
      const count = Math.ceil(lengthOf(edge) / LOOKS);
      return Array.from({ length: count }, (_, i) => pointOn(edge, i / count)).flatMap((p) =>
        isOff(p.x, p.y) ? [growBounds({ minX: p.x, minY: p.y, maxX: p.x, maxY: p.y }, 3 * LOOKS)] : [],
      );
    });
}

/** Boxes, clear of each other, round all of the given ones. */
function boxesRound(given: readonly Bounds[]): Bounds[] {
  const boxes: Bounds[] = [];
  for (let box of given) {
    for (let k = boxes.length - 1; k >= 0; k--) {
      if (!boundsMeet(box, boxes[k]!)) continue;
      box = joinBounds([box, boxes[k]!]);
      boxes.splice(k, 1);
      k = boxes.length;
    }
    boxes.push(box);
  }
  return boxes;
}

const areaOf = (outlines: readonly Outline[]): number => outlines.flatMap(pathsOf).reduce((sum, path) => sum + pathArea(path), 0);
