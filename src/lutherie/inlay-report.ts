/**
 * What becomes of a shape when it is cut as an inlay: what of it is lost and what is added, place by place, what the pocket's cutter leaves
 * standing, and which pieces break, join or vanish. Lengths in mm, areas in mm2.
 */
import { edgesOf, pointOn, type Edge } from "../geometry/arc-edge.ts";
import { edgeIndex } from "../geometry/arc-nearest.ts";
import { placesApart } from "../geometry/arc-places.ts";
import { arcOutlinesOf } from "../geometry/arc-ring.ts";
import { boundsHold, boundsOfPoints } from "../geometry/bounds.ts";
import { difference, intersection } from "../geometry/clipper.ts";
import { cropperOf } from "../geometry/crop.ts";
import { flatten } from "../geometry/flatten.ts";
import type { Outline } from "../geometry/outline.ts";
import type { Path } from "../geometry/path.ts";
import {
  isInRegion,
  regionArea,
  regionBounds,
  ringArea,
  ringCentroid,
  ringsOf,
  type Region,
  type Ring,
} from "../geometry/region.ts";
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
/** A hole of which no more than this share is open counts as filled. */
const FILLED = 0.01;

/** What becomes of the shape, from which the pair was made. */
export function inlayReport(shape: Region, pair: InlayPair): InlayReport {
  const designed = arcOutlinesOf(shape);
  const { common } = pair.curves;
  const ofDesign = ownersOf(designed);
  const { onlyInA, onlyInB } = placesApart(designed, common, WIDTH);
  const lost = placesOf(onlyInA, ownersOf(common), ofDesign);
  const added = placesOf(onlyInB, ofDesign, ofDesign);
  const [inPocket, inPiece] = [cropperOf(pair.pocket), cropperOf(pair.piece)];
  const unreached = lost.flatMap(({ region }) => difference(region, inPocket(regionBounds(region))));
  const leftOn = added.flatMap(({ region }) => intersection(region, inPiece(regionBounds(region))));
  return {
    lost,
    added,
    unreached,
    leftOn,
    lostArea: sum(lost),
    addedArea: sum(added),
    unreachedArea: regionArea(unreached),
    changes: changesOf(designed, ofDesign, common, shape, pair.common),
  };
}

const sum = (places: readonly InlayPlace[]): number => places.reduce((total, { area }) => total + area, 0);

/** How far a point is from the nearest edge, `within` at most, and the ring of that edge: of which outline, and which of its holes (-1 for the outer one). */
interface Owners {
  readonly distance: (p: Vec, within: number) => number;
  readonly ringAt: (p: Vec, within: number) => RingName | undefined;
}
interface RingName {
  readonly part: number;
  readonly hole: number;
}

function ownersOf(outlines: readonly Outline[]): Owners {
  const names = new Map<Edge, RingName>();
  for (const [part, { outer, holes }] of outlines.entries())
    for (const [i, path] of [outer, ...holes].entries()) {
      const name = { part, hole: i - 1 };
      for (const edge of edgesOf(path)) names.set(edge, name);
    }
  const { nearest } = edgeIndex([...names.keys()]);
  return {
    distance: (p, within) => nearest(p, within)?.distance ?? within,
    ringAt: (p, within) => {
      const found = nearest(p, within);
      return found && names.get(found.edge);
    },
  };
}

function placesOf(regions: readonly Region[], from: Owners, design: Owners): InlayPlace[] {
  return regions
    .map((region): InlayPlace => {
      const box = regionBounds(region);
      let [depth, at] = [0, region[0]!.outer[0]!];
      // With nothing left beside it a place reaches across itself.
      const most = Math.hypot(box.maxX - box.minX, box.maxY - box.minY);
      for (const ring of ringsOf(region))
        alongRing(ring, LOOKS, (p) => {
          const away = from.distance(p, most);
          if (away > depth) [depth, at] = [away, p];
          // Along the ring the distance changes by no more than the way.
          return depth - away;
        });
      return { region, area: regionArea(region), depth, at, piece: design.ringAt(at, Infinity)!.part };
    })
    .filter(({ depth }) => depth > WIDTH)
    .toSorted((a, b) => b.depth - a.depth);
}

/** Stops at the ring's corners, and between them so that no two stops are further apart than `step`; `look` says over how much of the way none is needed. */
function alongRing(ring: Ring, step: number, look: (p: Vec) => number): void {
  let left = -1;
  for (const [i, a] of ring.entries()) {
    const b = ring[(i + 1) % ring.length]!;
    const length = distance(a, b);
    const count = Math.max(1, Math.ceil(length / step));
    for (let k = 0; k < count; k++) {
      if (left < 0) left = look(lerp(a, b, k / count));
      left -= length / count;
    }
  }
}

/** Edges that come no nearer to each other than this are not the same, mm. */
const SAME_EDGE = 1e-3;

/** What became of pieces and holes: a ring of the common outline runs along those of the shape of which it is left, or crosses their inside. */
function changesOf(
  designed: readonly Outline[],
  design: Owners,
  common: readonly Outline[],
  shape: Region,
  cut: Region,
): PieceChange[] {
  const boxes = shape.map((piece) => regionBounds([piece]));
  const pieceAt = (p: Vec): number =>
    design.ringAt(p, SAME_EDGE)?.part ?? shape.findIndex((piece, i) => boundsHold(boxes[i]!, p) && isInRegion([piece], p));
  const pieces = common.map(
    ({ outer }) =>
      new Set(
        cornersOf(outer)
          .map(pieceAt)
          .filter((piece) => piece >= 0),
      ),
  );
  const changes: PieceChange[] = [];
  for (const piece of designed.keys()) {
    const into = pieces.filter((from) => from.has(piece)).length;
    if (into === 0) changes.push({ kind: "vanished", piece });
    if (into > 1) changes.push({ kind: "broken", piece, into });
  }
  for (const from of pieces) if (from.size > 1) changes.push({ kind: "joined", pieces: [...from] });

  const inCut = cropperOf(cut);
  const kept = new Set<string>();
  for (const [i, { holes }] of common.entries())
    for (const hole of holes) {
      const along = cornersOf(hole).flatMap((p) => design.ringAt(p, SAME_EDGE) ?? []);
      const same = along.filter((place) => place.hole >= 0);
      for (const { part, hole: number } of same) kept.add(`${part} ${number}`);
      const piece = [...pieces[i]!][0];
      if (same.length === 0 && piece !== undefined) changes.push({ kind: "pierced", piece, at: ringCentroid(flatten(hole)) });
    }
  for (const [piece, { holes }] of designed.entries())
    for (const [i, hole] of holes.entries()) {
      if (kept.has(`${piece} ${i}`)) continue;
      const ring = flatten(hole).toReversed();
      // A hole that is no longer one is filled now, or open to the outside.
      const isFilled =
        regionArea(difference([{ outer: ring, holes: [] }], inCut(boundsOfPoints(ring)))) < FILLED * ringArea(ring);
      changes.push({ kind: isFilled ? "filled" : "opened", piece, at: ringCentroid(ring) });
    }
  return changes;
}

const cornersOf = (path: Path): Vec[] => edgesOf(path).flatMap((edge) => [pointOn(edge, 0), pointOn(edge, 0.5)]);
