/** The shape that follows the rosette: its ring, two ends, and sides tangent to the round belly of the band. */
import { outlinePoint, type OutlinePoint } from "../../geometry/drawn/point.ts";
import { rayHits } from "../../geometry/intersect.ts";
import { nearestOnPath } from "../../geometry/nearest.ts";
import { asCircle } from "../../geometry/path.ts";
import { piecesOf, tangentAt } from "../../geometry/segment.ts";
import { add, angleOf, distance, leftOf, polar, scale, sub, vec, type Vec } from "../../geometry/vec.ts";
import type { GuardShape, Round } from "./numbers.ts";

/** Ends that are nearer to each other than this are held apart, radians. */
const LEAST_SPAN = Math.PI / 18;
/** Places between the ends at which an edge that is no circle is followed. */
const PLACES = 9;

/** A point on the guard's inner edge and the unit direction away from the hole there. */
interface Rim {
  readonly at: Vec;
  readonly out: Vec;
}

/**
 * The points from the middle of the hole, the treble side at rising y for `side` 1: the inner edge `ringGap` outside the rosette from one
 * end's angle to the other's, at each end straight out by `end`, from there along tangents to a circle of radius `belly` whose farthest
 * point stands `band` out of the inner edge, half way between the ends.
 */
export function startingGuard(p: GuardShape, { middle, edge }: Round, side: 1 | -1): OutlinePoint[] {
  const from = p.tailAngle;
  const to = Math.max(p.boardAngle, from + LEAST_SPAN);
  const half = (from + to) / 2;
  const ring = asCircle(edge);
  const round = ring && distance(ring.centre, middle) < 1e-6 ? ring.radius + p.ringGap : undefined;
  // Laid out as on a right-handed instrument, then turned over.
  const rim = (angle: number): Rim => {
    if (round !== undefined) return { at: polar(vec(0, 0), round, angle), out: polar(vec(0, 0), 1, angle) };
    const way = polar(vec(0, 0), 1, side * angle);
    const hit = rayHits([edge], middle, way).at(-1) ?? 0;
    const near = nearestOnPath(edge, add(middle, scale(way, hit)));
    const along = tangentAt(piecesOf(edge)[near.index]!, near.t) ?? leftOf(way);
    const out = scale(leftOf(along), -1);
    const at = sub(add(near.point, scale(out, p.ringGap)), middle);
    return { at: vec(at.x, side * at.y), out: vec(out.x, side * out.y) };
  };
  const [tail, board, waist] = [rim(from), rim(to), rim(half)];
  const [tailEnd, boardEnd] = [tail, board].map(({ at, out }) => add(at, scale(out, p.end))) as [Vec, Vec];
  const apex = add(waist.at, scale(waist.out, p.band));
  const centre = sub(apex, scale(waist.out, p.belly));
  const tailTouch = tangentPoint(tailEnd, centre, p.belly, 1);
  const boardTouch = tangentPoint(boardEnd, centre, p.belly, -1);
  const corner = { rounding: p.corner };
  const belly = tailTouch && boardTouch;
  const bulge: OutlinePoint[] = belly
    ? [
        outlinePoint(tailTouch.x, tailTouch.y, { side: "arc", radius: p.belly }),
        outlinePoint(apex.x, apex.y, { side: "arc", radius: p.belly }),
        outlinePoint(boardTouch.x, boardTouch.y),
      ]
    : // Ends that stand within the belly have no tangent to it.
      [outlinePoint(apex.x, apex.y, { kind: "fair", side: "curve", direction: angleOf(leftOf(waist.out)) })];
  const points = [
    outlinePoint(tail.at.x, tail.at.y, corner),
    outlinePoint(tailEnd.x, tailEnd.y, { ...corner, ...(belly ? {} : { side: "curve" as const }) }),
    ...bulge,
    outlinePoint(boardEnd.x, boardEnd.y, corner),
    ...innerEdge(board, from, to, round, rim, p.corner),
  ];
  return side === 1 ? points : points.map(turnedOver);
}

/** From the board's end back to the tail's, the last point left out. */
function innerEdge(
  board: Rim,
  from: number,
  to: number,
  round: number | undefined,
  rim: (angle: number) => Rim,
  rounding: number,
): OutlinePoint[] {
  if (round !== undefined) {
    const arc = { side: "arc", radius: -round } as const;
    const middle = rim((from + to) / 2).at;
    return [outlinePoint(board.at.x, board.at.y, { rounding, ...arc }), outlinePoint(middle.x, middle.y, arc)];
  }
  // Clockwise about the hole: to the right of the way out.
  const way = ({ out }: Rim): number => angleOf(scale(leftOf(out), -1));
  return [
    outlinePoint(board.at.x, board.at.y, { rounding, side: "curve", direction: way(board) }),
    ...Array.from({ length: PLACES }, (_, i) => rim(to + ((from - to) * (i + 1)) / (PLACES + 1))).map((place) =>
      outlinePoint(place.at.x, place.at.y, { kind: "fair", side: "curve", direction: way(place) }),
    ),
  ];
}

/** Where the line from a point touches a circle, on the right of the way to its centre for sign 1; undefined from within it. */
function tangentPoint(p: Vec, centre: Vec, radius: number, sign: 1 | -1): Vec | undefined {
  const away = distance(p, centre);
  if (!(away > radius * 1.001)) return undefined;
  const reach = Math.sqrt(away * away - radius * radius);
  return polar(p, reach, angleOf(sub(centre, p)) - sign * Math.asin(radius / away));
}

/** The point mirrored about the centre line. */
const turnedOver = (point: OutlinePoint): OutlinePoint => ({
  ...point,
  y: -point.y,
  radius: point.radius === undefined ? undefined : -point.radius,
  rise: point.rise === undefined ? undefined : -point.rise,
  direction: point.direction === undefined ? undefined : -point.direction,
  arriving: point.arriving === undefined ? undefined : -point.arriving,
});
