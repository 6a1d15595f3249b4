/**
 * What becomes of a shape when it is cut as an inlay: what of it is lost and what is added, place by place, what the pocket's cutter leaves
 * standing, and which pieces break, join or vanish. Lengths in mm, areas in mm2.
 */
import { edgesOf } from "../geometry/arc-edge.ts";
import { edgeIndex, type EdgeIndex } from "../geometry/arc-nearest.ts";
import { placesOutside } from "../geometry/arc-places.ts";
import { arcOutlinesOf } from "../geometry/arc-ring.ts";
import { boundsMeet } from "../geometry/bounds.ts";
import { difference, intersection } from "../geometry/clipper.ts";
import { pathsOf } from "../geometry/outline.ts";
import { polygon, type Path } from "../geometry/path.ts";
import { regionArea, regionBounds, ringCentroid, ringsOf, type Polygon, type Region, type Ring } from "../geometry/region.ts";
import { distance, lerp, type Vec } from "../geometry/vec.ts";
import type { InlayPair } from "./inlay-pair.ts";

/** A place where what is cut differs from the shape. */
export interface InlayPlace {
  readonly region: Region;
  readonly area: number;
  /** How far it reaches from the outline that both cutters follow (of a lost place) or from the shape (of an added one), and where it does. */
  readonly depth: number;
  readonly at: Vec;
  /** Number, in the shape, of the piece that it belongs to; of an added place the piece nearest to it. */
  readonly piece: number;
}

/** What happens to pieces and holes. Numbers count the shape's pieces. */
export type PieceChange =
  | { readonly kind: "vanished"; readonly piece: number }
  | { readonly kind: "broken"; readonly piece: number; readonly into: number }
  | { readonly kind: "joined"; readonly pieces: readonly number[] }
  /** A counter filled up: the cutter of the piece finds no way in. */
  | { readonly kind: "filled"; readonly piece: number; readonly at: Vec }
  /** A new hole: a slit closed at its mouth. */
  | { readonly kind: "pierced"; readonly piece: number; readonly at: Vec }
  /** A ring cut open, so that its hole runs out into the open. */
  | { readonly kind: "opened"; readonly piece: number; readonly at: Vec };

export interface InlayReport {
  /** Of the shape, what is not in the outline that both cutters follow; the deepest place first. */
  readonly lost: readonly InlayPlace[];
  /** Of that outline, what is not in the shape. */
  readonly added: readonly InlayPlace[];
  /** Within the shape, the wood that stands when the pocket is cut: its cutter cannot reach there. */
  readonly unreached: Region;
  /** Outside of the shape, what stays on the piece: the cutter of the piece cannot reach there. */
  readonly leftOn: Region;
  readonly lostArea: number;
  readonly addedArea: number;
  readonly unreachedArea: number;
  readonly changes: readonly PieceChange[];
}

/** A place no wider than this is none, mm: a tenth of a usual gap. */
const WIDTH = 0.005;
/** Distance between the points of a place whose depth is looked at, mm. */
const LOOKS = 0.02;
/** Pieces share something if it is more than this, mm2. */
const SHARED = 1e-4;

/** What becomes of the shape, from which the pair was made. */
export function inlayReport(shape: Region, pair: InlayPair): InlayReport {
  const designed = arcOutlinesOf(shape);
  const { common } = pair.curves;
  const lost = placesOf(placesOutside(designed, common, WIDTH), common.flatMap(pathsOf), shape);
  const added = placesOf(placesOutside(common, designed, WIDTH), designed.flatMap(pathsOf), shape);
  const unreached = lost.flatMap(({ region }) => difference(region, pair.pocket));
  const leftOn = added.flatMap(({ region }) => intersection(region, pair.piece));
  return {
    lost,
    added,
    unreached,
    leftOn,
    lostArea: sum(lost),
    addedArea: sum(added),
    unreachedArea: regionArea(unreached),
    changes: changesOf(shape, pair.common),
  };
}

const sum = (places: readonly InlayPlace[]): number => places.reduce((total, { area }) => total + area, 0);

function placesOf(regions: readonly Region[], from: readonly Path[], shape: Region): InlayPlace[] {
  const index = edgeIndex(from.flatMap(edgesOf));
  const pieces = shape.map((part) => edgeIndex(ringsOf([part]).map(polygon).flatMap(edgesOf)));
  return regions
    .map((region): InlayPlace => {
      const box = regionBounds(region);
      let [depth, at] = [0, region[0]!.outer[0]!];
      // With nothing left of the whole shape a place reaches across itself.
      const most = Math.hypot(box.maxX - box.minX, box.maxY - box.minY);
      for (const p of ringsOf(region).flatMap((ring) => pointsAlong(ring, LOOKS))) {
        const away = index.nearest(p, most)?.distance ?? most;
        if (away > depth) [depth, at] = [away, p];
      }
      return { region, area: regionArea(region), depth, at, piece: nearestOf(pieces, at) };
    })
    .filter(({ depth }) => depth > WIDTH)
    .toSorted((a, b) => b.depth - a.depth);
}

/** The ring's corners, and points between them so that no two neighbours are further apart than `step`. */
function pointsAlong(ring: Ring, step: number): Vec[] {
  return ring.flatMap((a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    const count = Math.max(1, Math.ceil(distance(a, b) / step));
    return Array.from({ length: count }, (_, k) => lerp(a, b, k / count));
  });
}

/** Number of the index whose edges come nearest to p. */
function nearestOf(indices: readonly EdgeIndex[], p: Vec): number {
  let [best, least] = [0, Infinity];
  for (const [i, index] of indices.entries()) {
    const found = index.nearest(p, least);
    if (found) [best, least] = [i, found.distance];
  }
  return best;
}

/** Which of the ones and which of the others share some area, as pairs of numbers. */
function sharing(some: Region, others: Region): (readonly [number, number])[] {
  const boxes = others.map((other) => regionBounds([other]));
  return some.flatMap((a, i) => {
    const box = regionBounds([a]);
    return others.flatMap((b, k) =>
      boundsMeet(box, boxes[k]!) && regionArea(intersection([a], [b])) > SHARED ? [[i, k] as const] : [],
    );
  });
}

function changesOf(before: Region, after: Region): PieceChange[] {
  const changes: PieceChange[] = [];
  const pairs = sharing(before, after);
  for (const piece of before.keys()) {
    const into = pairs.filter(([i]) => i === piece).length;
    if (into === 0) changes.push({ kind: "vanished", piece });
    if (into > 1) changes.push({ kind: "broken", piece, into });
  }
  for (const k of after.keys()) {
    const pieces = pairs.filter(([, other]) => other === k).map(([i]) => i);
    if (pieces.length > 1) changes.push({ kind: "joined", pieces });
  }
  const holesBefore = holesOf(before);
  const holesAfter = holesOf(after);
  const kept = sharing(
    holesBefore.map(({ hole }) => hole),
    holesAfter.map(({ hole }) => hole),
  );
  for (const [i, { hole, piece }] of holesBefore.entries()) {
    if (kept.some(([k]) => k === i)) continue;
    // A hole that is no longer one is wood of the piece now, or open to the outside.
    const filled = regionArea(difference([hole], after)) < SHARED;
    changes.push({ kind: filled ? "filled" : "opened", piece, at: ringCentroid(hole.outer) });
  }
  for (const [k, { hole, piece }] of holesAfter.entries()) {
    if (kept.some(([, other]) => other === k)) continue;
    const of = pairs.find(([, other]) => other === piece)?.[0];
    if (of !== undefined) changes.push({ kind: "pierced", piece: of, at: ringCentroid(hole.outer) });
  }
  return changes;
}

/** Every hole as a piece of its own, with the number of the piece that it is in. */
const holesOf = (region: Region): { readonly hole: Polygon; readonly piece: number }[] =>
  region.flatMap(({ holes }, piece) => holes.map((hole) => ({ hole: { outer: hole.toReversed(), holes: [] }, piece })));
