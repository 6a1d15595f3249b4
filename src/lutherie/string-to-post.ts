/**
 * A string from the nut to its post, seen square to the head's face.
 *
 * It leaves the slot at S and meets the post (centre C, radius r) at the tangent point T: with d = |SC| the line S T is sqrt(d^2 - r^2)
 * long and turned from S C by asin(r / d). Source: geometry of the tangent.
 */
import { distanceToSegment, norm, scale, sub, turned, add, type Vec } from "../geometry/vec.ts";

/** Which side of the post the string touches, looking from the slot to the post. */
export type PostSide = "left" | "right";

/** Where the string meets the post; undefined where the slot lies on the post or inside it. */
export function postTangent(slot: Vec, post: Vec, radius: number, side: PostSide): Vec | undefined {
  const way = sub(post, slot);
  const d = norm(way);
  if (!(radius >= 0 && d > radius)) return undefined;
  const turn = Math.asin(radius / d);
  return add(slot, scale(turned(way, side === "left" ? turn : -turn), Math.sqrt(d * d - radius * radius) / d));
}

/** Air between a straight string of `gauge` and a post it passes, mm; below 0 the string would have to bend round it. */
export const passingClearance = (from: Vec, to: Vec, gauge: number, post: Vec, radius: number): number =>
  distanceToSegment(post, from, to) - radius - gauge / 2;
