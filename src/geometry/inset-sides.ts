import { PARALLEL_SINE } from "./tolerance.ts";
import { ringArea, type Ring } from "./region.ts";
import { add, cross, distance, dot, leftOf, scale, sub, unit, type Vec } from "./vec.ts";

/** The moved ring, or the first side that stands in the way and why. */
export type InsetSides =
  | { readonly ok: true; readonly ring: Ring }
  | {
      readonly ok: false;
      /** `vanished`: the side's neighbours meet before it; `parallel`: it runs on in line with the next one, which moves by another amount. */
      readonly reason: "vanished" | "parallel";
      /** Index of the side, from `ring[side]` to the point after it. */
      readonly side: number;
    };

/**
 * The ring with side i (from point i to the next) moved inwards by `distances[i]` mm, outwards where negative; neighbours are carried on
 * to where they meet, exactly. Works for either winding. The ring must be simple, with sides of some length; whether far sides now
 * overlap (in a neck narrower than both moves) is not looked at: `selfCrossings` tells.
 */
export function insetSides(ring: Ring, distances: readonly number[]): InsetSides {
  const n = ring.length;
  if (n < 3 || distances.length !== n) throw new RangeError("insetSides: needs three points and one distance for each side");
  const inward = Math.sign(ringArea(ring));
  if (inward === 0) throw new RangeError("insetSides: the ring holds no area");
  const along = ring.map((p, i) => unit(sub(ring[(i + 1) % n]!, p)));
  const moved: Vec[] = [];
  for (let i = 0; i < n; i++) {
    const before = (i + n - 1) % n;
    const u = along[before]!;
    const v = along[i]!;
    const du = inward * distances[before]!;
    const dv = inward * distances[i]!;
    const sine = cross(u, v);
    if (Math.abs(sine) <= PARALLEL_SINE) {
      if (du !== dv || dot(u, v) < 0) return { ok: false, reason: "parallel", side: before };
      moved.push(add(ring[i]!, scale(leftOf(v), dv)));
    } else {
      // The point q off the corner with q . left(u) = du and q . left(v) = dv.
      moved.push(add(ring[i]!, scale(sub(scale(v, du), scale(u, dv)), 1 / sine)));
    }
  }
  for (let i = 0; i < n; i++) {
    const side = sub(moved[(i + 1) % n]!, moved[i]!);
    // A side as long as rounding alone makes it is gone too.
    if (dot(side, along[i]!) <= 1e-12 * distance(ring[i]!, ring[(i + 1) % n]!)) return { ok: false, reason: "vanished", side: i };
  }
  return { ok: true, ring: moved };
}
