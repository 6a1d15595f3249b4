/**
 * An oval hole and the lines that run round it at a distance.
 *
 *   point at the angle s: (a cos s, b sin s), moved out by d along the normal (b cos s, a sin s) / hypot(b cos s, a sin s)
 *
 * Source: the ellipse and its parallel curves, any text on plane curves.
 */
import { circle, type Path } from "../geometry/path.ts";
import { add, scale, unit, vec, type Vec } from "../geometry/vec.ts";
import { curvePath } from "../geometry/curve-path.ts";

/** Half axes along x and y, mm, both above 0. */
export interface Oval {
  readonly centre: Vec;
  readonly a: number;
  readonly b: number;
}

/** The closed line `out` mm (0 or more) outside an oval, counter-clockwise, within `tolerance` mm; a circle is a true circle. */
export function roundOval({ centre, a, b }: Oval, out: number, tolerance = 1e-3): Path {
  if (!(a > 0 && b > 0 && out >= 0 && a + b + out < Infinity))
    throw new RangeError("roundOval: needs two half axes and a distance");
  if (a === b) return circle(centre, a + out);
  const at = (s: number): Vec => {
    const [c, n] = [Math.cos(s), Math.sin(s)];
    const normal = unit(vec(b * c, a * n));
    return add(centre, add(vec(a * c, b * n), scale(normal, out)));
  };
  const direction = (s: number): Vec => unit(vec(-a * Math.sin(s), b * Math.cos(s)));
  const start = at(0);
  const quarters = [0, 1, 2, 3].flatMap(
    (k) => curvePath({ at, direction }, (k * Math.PI) / 2, ((k + 1) * Math.PI) / 2, tolerance).segments,
  );
  const last = quarters.at(-1)!;
  return { start, segments: [...quarters.slice(0, -1), { ...last, to: start }], closed: true };
}
