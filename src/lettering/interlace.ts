/**
 * Letters woven through each other: where two cross, one passes over and the other is cut back from it by a gap. Along the first letter of a
 * pair the crossings go over and under by turns, counted round its outline from where that starts; single crossings can be turned.
 */
import { boundsMeet, growBounds, type Bounds } from "../geometry/bounds.ts";
import { difference, intersection, union } from "../geometry/clipper.ts";
import { cropRegion } from "../geometry/crop.ts";
import { dilate } from "../geometry/morphology.ts";
import { regionArea, regionBounds, ringCentroid, ringsOf, type Polygon, type Region } from "../geometry/region.ts";
import { GRID } from "../geometry/tolerance.ts";
import { distance, distanceToSegment, type Vec } from "../geometry/vec.ts";

/** A place where two letters cross. */
export interface Crossing {
  /** Numbers of the two letters, the lower first, and of the one that passes over. */
  readonly letters: readonly [number, number];
  readonly over: number;
  readonly at: Vec;
}

export interface Weave {
  /** Room between the letter that passes over and the ends of the other, mm; 0 or more. */
  readonly gap: number;
  /** Which of each pair passes over where they cross first: the one that stands earlier among the letters, or the later one. */
  readonly begins: "earlier" | "later";
  /** Crossings, by their number in the result, at which the letters change places. */
  readonly turned: readonly number[];
}

/** How far a cut runs on over the sides of a stroke, mm: cut along the very side, slivers of the grid would be left standing. */
const OVERRUN = 20 * GRID;

/**
 * The letters cut where they pass under others, and all crossings in a fixed order. Places that come nearer than the gap to each other are
 * one crossing. Letters that do not cross come back as they are.
 */
export function interlace(
  letters: readonly Region[],
  { gap, begins, turned }: Weave,
): { readonly letters: readonly Region[]; readonly crossings: readonly Crossing[] } {
  if (!(gap >= 0)) throw new RangeError("interlace: the gap is 0 or more");
  const cuts: Region[] = letters.map(() => []);
  const crossings: Crossing[] = [];
  for (const [i, one] of letters.entries())
    for (const [k, other] of letters.entries()) {
      if (k <= i || one.length === 0 || other.length === 0 || !boundsMeet(regionBounds(one), regionBounds(other))) continue;
      // All that they have to do with each other lies where their boxes come nearer than the gap.
      const box = meetingBox(growBounds(regionBounds(one), gap), growBounds(regionBounds(other), gap));
      const [first, second] = [cropped(one, box), cropped(other, box)];
      const [grownFirst, grownSecond] = [cropped(one, growBounds(box, gap)), cropped(other, growBounds(box, gap))].map((near) =>
        dilate(near, gap),
      ) as [Region, Region];
      const places = placesOf(one, first, second, intersection(grownFirst, second), intersection(grownSecond, first));
      for (const [turn, { shared, cutOfFirst, cutOfSecond }] of places.entries()) {
        const swapped = turned.includes(crossings.length);
        const earlierOver = ((turn % 2 === 0) === (begins === "earlier")) !== swapped;
        const under = earlierOver ? k : i;
        const cut = earlierOver ? cutOfSecond : cutOfFirst;
        cuts[under] = union(cuts[under]!, intersection(earlierOver ? grownFirst : grownSecond, dilate(cut, OVERRUN)));
        crossings.push({ letters: [i, k], over: earlierOver ? i : k, at: middleOf(shared) });
      }
    }
  return { letters: letters.map((letter, i) => (cuts[i]!.length > 0 ? difference(letter, cuts[i]!) : letter)), crossings };
}

const meetingBox = (a: Bounds, b: Bounds): Bounds => ({
  minX: Math.max(a.minX, b.minX),
  minY: Math.max(a.minY, b.minY),
  maxX: Math.min(a.maxX, b.maxX),
  maxY: Math.min(a.maxY, b.maxY),
});

const cropped = (region: Region, box: Bounds): Region => union(cropRegion(region, box));

interface Place {
  /** What both letters cover. */
  readonly shared: Region;
  /** What the one loses where it passes under the other. */
  readonly cutOfFirst: Region;
  readonly cutOfSecond: Region;
}

/** The crossings of two letters, of which `first` and `second` are what counts, in the order in which the outline of the first, `letter`, comes to them. */
function placesOf(letter: Region, first: Region, second: Region, nearFirst: Region, nearSecond: Region): Place[] {
  let places: Place[] = [];
  for (const shared of intersection(first, second)) {
    let place: Place = {
      shared: [shared],
      cutOfFirst: nearSecond.filter((piece) => overlap(piece, shared)),
      cutOfSecond: nearFirst.filter((piece) => overlap(piece, shared)),
    };
    const apart: Place[] = [];
    for (const other of places) {
      const one = [...place.cutOfFirst, ...place.cutOfSecond].some((piece) =>
        [...other.cutOfFirst, ...other.cutOfSecond].includes(piece),
      );
      if (one)
        place = {
          shared: [...other.shared, ...place.shared],
          cutOfFirst: [...new Set([...other.cutOfFirst, ...place.cutOfFirst])],
          cutOfSecond: [...new Set([...other.cutOfSecond, ...place.cutOfSecond])],
        };
      else apart.push(other);
    }
    places = [...apart, place];
  }
  const along = new Map(places.map((place) => [place, reachedAt(letter, place.shared)]));
  return places.toSorted((a, b) => along.get(a)! - along.get(b)!);
}

const overlap = (a: Polygon, b: Polygon): boolean =>
  boundsMeet(regionBounds([a]), regionBounds([b])) && intersection([a], [b]).length > 0;

/** Length along the outlines of a letter, one after the other, to the first of the points of `shared` that lies on them. */
function reachedAt(letter: Region, shared: Region): number {
  const points = ringsOf(shared).flat();
  let before = 0;
  for (const ring of ringsOf(letter))
    for (const [i, a] of ring.entries()) {
      const b = ring[(i + 1) % ring.length]!;
      const on = points.filter((p) => distanceToSegment(p, a, b) <= 2 * GRID).map((p) => distance(a, p));
      if (on.length > 0) return before + Math.min(...on);
      before += distance(a, b);
    }
  return before;
}

/** Centre of gravity of the largest piece. */
function middleOf(region: Region): Vec {
  const [largest] = region.toSorted((a, b) => regionArea([b]) - regionArea([a]));
  return ringCentroid(largest!.outer);
}
