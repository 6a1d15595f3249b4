/** Where the sides' pieces lie on their drawing, and where on them a finding is seen. */
import { pathBounds } from "../../geometry/measure.ts";
import { nearestOnPath } from "../../geometry/nearest.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { lengthAlong } from "../../lutherie/unrolled-side.ts";
import type { SideMark, SidePiece, SidesMeasures } from "./measure.ts";
import { flatSide, type FlatSide } from "./unrolled.ts";

/** Between two pieces one over the other. */
const APART = 45;

/** The pieces laid flat, one under the other, the treble side on top. */
export function laidPieces(m: SidesMeasures): FlatSide[] {
  let lift = 0;
  return m.pieces.map((piece) => {
    const flat = flatSide(m, piece, lift);
    lift = pathBounds(flat.outline).minY - APART;
    return flat;
  });
}

/** What the ids of a piece's shapes begin with. */
export const prefixOf = ({ id }: SidePiece): string => (id === "treble" ? "" : `${id}-`);

interface Seen {
  readonly at: Vec;
  readonly shape: string;
}

const seenOn = (flat: FlatSide, along: number, height: number): Seen => ({
  at: flat.place(along, height),
  shape: `${prefixOf(flat.piece)}outline`,
});

/** The mark that comes first by `order` among those of all pieces, at a height between both edges unless one is given. */
export function seenAtMark(m: SidesMeasures, order: (mark: SideMark) => number, height?: number): Seen | undefined {
  const all = laidPieces(m).flatMap((flat) => flat.piece.marks.map((mark) => ({ flat, mark })));
  const [first] = all.toSorted((a, b) => order(a.mark) - order(b.mark));
  return first && seenOn(first.flat, first.mark.along, height ?? (first.mark.top + first.mark.back) / 2);
}

/** A place of the body's edge, on the instrument. */
export function seenAtEdge(m: SidesMeasures, place: Vec): Seen | undefined {
  const all = laidPieces(m).map((flat) => ({
    flat,
    near: nearestOnPath(flat.piece.plan, vec(place.x, flat.piece.sign * place.y)),
  }));
  const [best] = all.toSorted((a, b) => a.near.distance - b.near.distance);
  if (!best) return undefined;
  const along = Math.min(best.flat.length, lengthAlong(best.flat.piece.plan, m.inset, best.near.index, best.near.t));
  const { marks } = best.flat.piece;
  const nearest = marks.reduce((a, b) => (Math.abs(b.along - along) < Math.abs(a.along - along) ? b : a));
  return seenOn(best.flat, along, (nearest.top + nearest.back) / 2);
}
