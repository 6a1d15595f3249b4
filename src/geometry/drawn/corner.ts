import { fillet } from "../arc.ts";
import { nearestOnPiece } from "../nearest.ts";
import { arc, line, type Segment } from "../path.ts";
import { rootBetween } from "../root.ts";
import { derivativeAt, pieceLength, pointAt, tangentAt, type Piece } from "../segment.ts";
import { add, angleBetween, cross, distance, leftOf, scale, type Vec } from "../vec.ts";

/** A corner with something taken off: the side before runs to `end`, the side after begins at `start`, `segment` joins them. */
export interface CutCorner {
  readonly end: number;
  readonly start: number;
  readonly from: Vec;
  readonly segment: Segment;
}

/** Corners that turn by less than this are smooth: nothing to round. */
const SMOOTH = 1e-6;
const STEPS = 96;

/**
 * The arc of `radius` mm that touches both sides next to the corner where `before` ends and `after` begins: by formula between straight
 * sides, else settled to rounding along the curves. Undefined where the corner is smooth or the sides leave no room.
 */
export function roundCorner(before: Piece, after: Piece, radius: number): CutCorner | undefined {
  const a = tangentAt(before, 1);
  const b = tangentAt(after, 0);
  if (!a || !b) return undefined;
  const turn = angleBetween(a, b);
  if (Math.abs(turn) < SMOOTH || Math.PI - Math.abs(turn) < SMOOTH) return undefined;
  if (before.segment.kind === "line" && after.segment.kind === "line") {
    const found = fillet(before.from, after.from, after.segment.to, radius);
    return (
      found && {
        end: 1 - found.taken / distance(before.from, after.from),
        start: found.taken / distance(after.from, after.segment.to),
        from: found.from,
        segment: found.arc,
      }
    );
  }
  const hand = Math.sign(turn);
  const centreFrom = (t: number): Vec | undefined => {
    const way = tangentAt(before, t);
    return way && add(pointAt(before, t), scale(leftOf(way), hand * radius));
  };
  // The arc's centre goes back along the first side until it is a radius away from the second.
  const spare = (t: number): number => {
    const centre = centreFrom(t);
    return centre ? nearestOnPiece(after, centre).distance - radius : -radius;
  };
  // The first of the steps back that is far enough. What the centre lacks it must at least go, so shorter ways are not looked at.
  const firstSpared = (): number | undefined => {
    let [from, lacks] = [pointAt(before, 1), 0];
    for (let k = 1; k <= STEPS; k++) {
      const t = 1 - k / STEPS;
      const centre = centreFrom(t);
      if (!centre || distance(centre, from) < lacks) continue;
      [from, lacks] = [centre, -spare(t)];
      if (lacks <= 0) return t;
    }
    return undefined;
  };
  const found = firstSpared();
  if (found === undefined) return undefined;
  const far = rootBetween(spare, found, found + 1 / STEPS, spare(found), spare(found + 1 / STEPS), 1e-12 * (1 + radius));
  const centre = centreFrom(far);
  if (!centre) return undefined;
  const foot = nearestOnPiece(after, centre);
  const isSquare = Math.abs(foot.distance - radius) <= 1e-6 * (1 + radius) && foot.t > 0 && foot.t < 1;
  const way = derivativeAt(after, foot.t);
  // The foot lies on the far end of the side, or the arc would leave it the wrong way round.
  if (!isSquare || hand * cross(way, { x: centre.x - foot.point.x, y: centre.y - foot.point.y }) <= 0) return undefined;
  const from = pointAt(before, far);
  return { end: far, start: foot.t, from, segment: arc(foot.point, centre, hand > 0) };
}

/** The corner cut off straight, `length` mm along each side. Undefined where a side is not that long. */
export function clipCorner(before: Piece, after: Piece, length: number): CutCorner | undefined {
  const end = along(before, pieceLength(before) - length);
  const start = along(after, length);
  if (end === undefined || start === undefined) return undefined;
  return { end, start, from: pointAt(before, end), segment: line(pointAt(after, start)) };
}

/** The parameter at a length along a piece; undefined beyond its ends. */
function along(piece: Piece, length: number): number | undefined {
  const whole = pieceLength(piece);
  if (!(length >= 0 && length <= whole) || whole === 0) return undefined;
  if (piece.segment.kind !== "cubic") return length / whole;
  let [low, high] = [0, 1];
  for (let k = 0; k < 50; k++) {
    const middle = (low + high) / 2;
    if (pieceLength(piece, 0, middle) < length) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
