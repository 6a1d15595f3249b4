/** Where two outlines of lines and arcs that are mostly the same differ. Lengths in mm. */
import { edgesOf, lengthOf, pointOn } from "./arc-edge.ts";
import { clearOf } from "./arc-index.ts";
import { offsetArcs } from "./arc-offset.ts";
import { arcsApart, ON_EDGE } from "./arc-overlay.ts";
import { regionOfArcs } from "./arc-ring.ts";
import { boundsMeet, growBounds, joinBounds, type Bounds } from "./bounds.ts";
import { difference, offsetRings } from "./clipper.ts";
import { cropperOf } from "./crop.ts";
import { outlinesArea, outlinesLength, pathsOf, type Outline } from "./outline.ts";
import { regionArea, regionPerimeter, type Region } from "./region.ts";

/** Distance between the points at which an edge is held against another, mm. */
const LOOKS = 0.05;
/** Chords of what is clipped, mm, or a quarter of the width if that is less. */
const CHORDS = 0.0004;

/** What lies in `larger` and not in `smaller`, which lies in it, wherever it is wider than `width` mm; each place on its own. */
export function placesBetween(larger: readonly Outline[], smaller: readonly Outline[], width: number): Region[] {
  if (outlinesArea(larger) - outlinesArea(smaller) < width ** 2) return [];
  const traced = arcsApart(larger, smaller);
  if (traced) return wider(traced.onlyInA, width);
  const fine = chordsFor(width);
  return placesIn(boxesRound(pointsOff(smaller, larger)), regionOfArcs(larger, fine), regionOfArcs(smaller, fine), width);
}

/** What lies in the one and not in the other, either way round, wherever it is wider than `width` mm; each place on its own. */
export function placesApart(
  a: readonly Outline[],
  b: readonly Outline[],
  width: number,
): { readonly onlyInA: readonly Region[]; readonly onlyInB: readonly Region[] } {
  const traced = arcsApart(a, b);
  if (traced) return { onlyInA: wider(traced.onlyInA, width), onlyInB: wider(traced.onlyInB, width) };
  const boxes = boxesRound([...pointsOff(a, b), ...pointsOff(b, a)]);
  const fine = chordsFor(width);
  const [inA, inB] = [regionOfArcs(a, fine), regionOfArcs(b, fine)];
  return { onlyInA: placesIn(boxes, inA, inB, width), onlyInB: placesIn(boxes, inB, inA, width) };
}

/** Those of the places that are wider than `width`, in chords: a disc does not go into less than its area, and always into area / length round it. */
const wider = (places: readonly Outline[], width: number): Region[] =>
  places
    .filter((place) => {
      const area = outlinesArea([place]);
      const length = outlinesLength([place]);
      return area > (Math.PI / 4) * width ** 2 && (area > (width / 2) * length || offsetArcs([place], -width / 2).length > 0);
    })
    .map((place) => regionOfArcs([place], chordsFor(width)));

const chordsFor = (width: number): number => Math.min(CHORDS, width / 4);

/** Where tracing along the edges fails. Nearly all of both is the same, and clipping edges that coincide takes long: only what is in the boxes is looked at. */
function placesIn(boxes: readonly Bounds[], some: Region, others: Region, width: number): Region[] {
  const [one, other] = [cropperOf(some), cropperOf(others)];
  return boxes
    .flatMap((box) => difference(one(box), other(box)))
    .map((polygon) => [polygon])
    .filter((place) => isWider(place, width));
}

/** Whether a disc of `width` goes into the region: that of area / length round it always does. */
const isWider = (place: Region, width: number): boolean =>
  regionArea(place) > (width / 2) * regionPerimeter(place) || offsetRings(place, -width / 2).length > 0;

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
