/** Where a template cannot give the line that is wanted: runs that a move swallows, and corners that come out rounded. */
import type { Shape } from "../drawing/drawing.ts";
import { difference } from "../geometry/clipper.ts";
import { close, open } from "../geometry/morphology.ts";
import { polygon, polyline } from "../geometry/path.ts";
import { ringCentroid, type Region } from "../geometry/region.ts";
import { swallowed } from "../geometry/swallowed.ts";
import type { Vec } from "../geometry/vec.ts";

/** A place that is lost, as drawn and as told. */
export interface LostPlace {
  readonly kind: "tight" | "narrow" | "outward" | "inward";
  readonly shape: Shape;
  readonly at: Vec;
}

/** What is nowhere wider than this comes from flattening and rounding, mm; such slivers also tie lost places together. */
const SLIVER = 0.01;

/** A shorter move loses nothing that a saw would find, mm. */
const LEAST_MOVE = 0.1;

/** Runs of the edge that find no place when it is moved by `delta`; corners that stay sharp are none. */
export function swallowedRuns(before: Region, delta: number, after: Region, idBase: string): LostPlace[] {
  if (Math.abs(delta) < LEAST_MOVE) return [];
  return swallowed(before, delta, after).runs.flatMap(({ kind, points }, i) => {
    if (kind === "corner" || points.length < 2) return [];
    const name =
      kind === "tight" ? "swallowed: bends tighter than the edge is moved" : "swallowed: narrower than the edge is moved";
    return [
      {
        kind,
        shape: { id: `${idBase}-${i + 1}`, role: "mark", line: "narrow", path: polyline(points), name },
        at: points[Math.floor(points.length / 2)]!,
      } satisfies LostPlace,
    ];
  });
}

/**
 * What comes out otherwise than the line: wood lost at outward corners sharper than `outward` (a radius, mm), and wood left in inward
 * ones sharper than `inward`.
 */
export function lostCorners(region: Region, outward: number, inward: number): LostPlace[] {
  const taken = outward > SLIVER ? difference(region, open(region, outward)) : [];
  const left = inward > SLIVER ? difference(close(region, inward), region) : [];
  return [...places(taken, "outward"), ...places(left, "inward")];
}

function places(lost: Region, kind: "outward" | "inward"): LostPlace[] {
  return open(lost, SLIVER / 2).map(({ outer }, i) => ({
    kind,
    shape: {
      id: `lost-${kind}-${i + 1}`,
      role: "mark",
      line: "narrow",
      path: polygon(outer),
      name: kind === "outward" ? "corner that is cut off round" : "corner that is left standing",
    },
    at: ringCentroid(outer),
  }));
}
