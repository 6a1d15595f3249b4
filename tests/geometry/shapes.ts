/** Shapes that several geometry tests use, mm. */
import { cubic, line, type Path } from "../../src/geometry/path.ts";
import type { Ring } from "../../src/geometry/region.ts";
import { vec, type Vec } from "../../src/geometry/vec.ts";

/** Points of an ellipse about the origin, counter-clockwise. */
export const ellipseRing = (a: number, b: number, points: number): Ring =>
  Array.from({ length: points }, (_, i) =>
    vec(a * Math.cos((2 * Math.PI * i) / points), b * Math.sin((2 * Math.PI * i) / points)),
  );

const flip = (p: Vec): Vec => vec(p.x, -p.y);

/** The outline of a plucked instrument's body, about 480 by 380, in eight cubics, counter-clockwise. */
export function bodyPath(): Path {
  const half = [
    cubic(vec(480, 95), vec(430, 190), vec(340, 190)),
    cubic(vec(265, 190), vec(250, 118), vec(190, 118)),
    cubic(vec(150, 118), vec(140, 142), vec(95, 142)),
    cubic(vec(40, 142), vec(0, 95), vec(0, 30)),
  ];
  const starts = [vec(480, 0), ...half.map((c) => c.to)];
  const other = half.toReversed().map((c, i) => cubic(flip(c.c2), flip(c.c1), flip(starts[half.length - 1 - i]!)));
  return { start: vec(480, 0), segments: [...half, line(vec(0, -30)), ...other], closed: true };
}

/** A ring of waves about a circle: a smooth outline with inward and outward bends. */
export const wavyRing = (radius: number, wave: number, count: number, points: number): Ring =>
  Array.from({ length: points }, (_, i) => {
    const angle = (2 * Math.PI * i) / points;
    const r = radius + wave * Math.cos(count * angle);
    return vec(r * Math.cos(angle), r * Math.sin(angle));
  });
