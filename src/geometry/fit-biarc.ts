import { distanceTo, edgeOf } from "./arc-edge.ts";
import { arc, line, type Arc, type Line } from "./path.ts";
import { add, cross, dot, leftOf, lerp, scale, sub, unit, type Vec } from "./vec.ts";

/** An arc that bows less than this off its chord, mm, is given as a straight side. */
const FLAT = 1e-7;

/**
 * Two arcs from the first to the last of `points` that leave along the unit vector `leaving`, arrive along `arriving` and join in one
 * direction, their tangents of one length (K. M. Bolton, "Biarc curves", 1975; named from memory); given only if every point keeps within
 * `tolerance` mm of them and the middle of every side within `bow`. An arc too flat to tell from its chord is a line.
 */
export function fitBiarc(
  points: readonly Vec[],
  leaving: Vec,
  arriving: Vec,
  tolerance: number,
  bow: number,
): readonly [Arc | Line, Arc | Line] | undefined {
  const a = points[0]!;
  const b = points.at(-1)!;
  const v = sub(b, a);
  // Both tangents as long as d: |v - d (leaving + arriving)|^2 = 4 d^2.
  const along = dot(v, add(leaving, arriving));
  const spread = 2 * (1 - dot(leaving, arriving));
  const square = dot(v, v);
  const root = Math.sqrt(along * along + spread * square);
  // The form that keeps its digits where the two directions agree.
  const d = square / (along + root);
  if (!(d > 0) || !Number.isFinite(d)) return undefined;
  const joint = lerp(add(a, scale(leaving, d)), sub(b, scale(arriving, d)), 0.5);
  const way = unit(sub(sub(b, scale(arriving, d)), add(a, scale(leaving, d))));
  const first = arcFrom(a, leaving, joint);
  const second = arcFrom(joint, way, b);
  if (!first || !second) return undefined;
  const edges = [edgeOf(a, first)!, edgeOf(joint, second)!] as const;
  const isNear = (x: number, y: number, reach: number): boolean =>
    distanceTo(edges[0], x, y) <= reach || distanceTo(edges[1], x, y) <= reach;
  for (let i = 1; i < points.length; i++) {
    const p = points[i - 1]!;
    const q = points[i]!;
    if (i > 1 && !isNear(p.x, p.y, tolerance)) return undefined;
    if (!isNear((p.x + q.x) / 2, (p.y + q.y) / 2, bow)) return undefined;
  }
  return [first, second];
}

/** The arc from `from` in the direction of the unit vector `way` to `to`; undefined where it would turn back. */
function arcFrom(from: Vec, way: Vec, to: Vec): Arc | Line | undefined {
  const chord = sub(to, from);
  if (!(dot(chord, way) > 0)) return undefined;
  const square = dot(chord, chord);
  const side = cross(way, chord);
  // The arc bows |chord| tan(a / 2) / 2 off its chord, a being the angle between the two.
  if (Math.abs(side) < 4 * FLAT) return line(to);
  return arc(to, add(from, scale(leftOf(way), square / (2 * side))), side > 0);
}
