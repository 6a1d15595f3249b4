import type { Path } from "../path.ts";
import { piecesOf, tangentAt, type Piece } from "../segment.ts";
import { angleBetween, angleOf, distance } from "../vec.ts";
import { outlinePoint, type OutlinePoint } from "./point.ts";

/** A joint that turns by less than this, radians, is drawn as a fair point. */
const SMOOTH = 1e-4;

/**
 * Points that draw an open path again as it is, with every direction and handle given, so that a maker may go on from it by hand. Straight
 * sides and curves; arcs are given by their radius, which draws them again up to half a turn.
 */
export function pointsOf(path: Path): OutlinePoint[] {
  const pieces = piecesOf(path);
  const first = pieces[0];
  if (!first) return [];
  return [pointBetween(undefined, first), ...pieces.map((piece, i) => pointBetween(piece, pieces[i + 1]))];
}

function pointBetween(before: Piece | undefined, after: Piece | undefined): OutlinePoint {
  const arriving = before && tangentAt(before, 1);
  const leaving = after && tangentAt(after, 0);
  const place = after?.from ?? before!.segment.to;
  const smooth = arriving && leaving && Math.abs(angleBetween(arriving, leaving)) < SMOOTH;
  return outlinePoint(place.x, place.y, {
    kind: smooth ? "fair" : "corner",
    ...(after ? sideOf(after) : {}),
    ...(leaving ? { direction: angleOf(leaving) } : {}),
    ...(arriving && !smooth ? { arriving: angleOf(arriving) } : {}),
    ...(before?.segment.kind === "cubic" ? { before: distance(before.segment.c2, place) } : {}),
    ...(after?.segment.kind === "cubic" ? { after: distance(after.segment.c1, place) } : {}),
  });
}

function sideOf({ from, segment }: Piece): Partial<OutlinePoint> {
  if (segment.kind === "line") return { side: "straight" };
  if (segment.kind === "cubic") return { side: "curve" };
  return { side: "arc", radius: (segment.ccw ? 1 : -1) * distance(from, segment.centre) };
}
