/** Plain figures that stand beside letters or around them, about the origin. Lengths in mm; curves are true. */
import { roundedPolygon } from "../geometry/arc.ts";
import type { Outline } from "../geometry/outline.ts";
import { circle, polygon, type Path } from "../geometry/path.ts";
import { reversePath } from "../geometry/segment.ts";
import { ORIGIN, polar, vec } from "../geometry/vec.ts";
import type { Result } from "../units/result.ts";
import { shapeOf } from "./letter-shape.ts";
import { trouble, type Trouble } from "./trouble.ts";

const whole = (outer: Path): Outline => ({ outer, holes: [] });
const pierced = (outer: Path, inner: Path): Outline => ({ outer, holes: [reversePath(inner)] });

/** A round spot; its diameter above 0. */
export const spot = (diameter: number): Outline => whole(circle(ORIGIN, diameter / 2));

/** A ring of the given outside diameter, `width` from outside to inside. Refused where nothing would be left within it. */
export function ring(diameter: number, width: number): Result<Outline, Trouble> {
  const inner = diameter / 2 - width;
  return inner > 0 ? { ok: true, value: pierced(circle(ORIGIN, diameter / 2), circle(ORIGIN, inner)) } : tooWide("ring");
}

/**
 * A border of `width` along the inside of a rectangle of `length` by `height` whose corners are rounded by `radius` (0 leaves them sharp); the
 * corners inside keep the centres of those outside, and are sharp where the width uses the radius up. Refused where the numbers leave no
 * room for it.
 */
export function border(length: number, height: number, radius: number, width: number): Result<Outline, Trouble> {
  if (2 * width >= Math.min(length, height)) return tooWide("border");
  const outer = roundedRectangle(length, height, radius);
  const inner = roundedRectangle(length - 2 * width, height - 2 * width, Math.max(0, radius - width));
  return outer && inner
    ? { ok: true, value: pierced(outer, inner) }
    : trouble("size", "The border's corners are rounder than it has room for", "Make the corner radius smaller.");
}

const tooWide = (what: string) =>
  trouble("size", `The ${what} is so wide that nothing is left within it`, `Make the ${what} narrower, or larger across.`);

function roundedRectangle(length: number, height: number, radius: number): Path | undefined {
  const [x, y] = [length / 2, height / 2];
  return roundedPolygon([vec(-x, -y), vec(x, -y), vec(x, y), vec(-x, y)], [radius, radius, radius, radius]);
}

/** A star of `points` (3 or more), one of them up, from a circle of `diameter` down to one of `inner`, 0 < inner <= diameter. */
export function star(points: number, diameter: number, inner: number): Outline {
  if (!Number.isInteger(points) || points < 3) throw new RangeError("star: needs three points");
  if (!(inner > 0 && inner <= diameter))
    throw new RangeError("star: the inner diameter lies above 0 and not above the outer one");
  return whole(
    polygon(
      Array.from({ length: 2 * points }, (_, i) =>
        polar(ORIGIN, (i % 2 === 0 ? diameter : inner) / 2, Math.PI / 2 + (i * Math.PI) / points),
      ),
    ),
  );
}

/** A lozenge, its corners on the axes; both above 0. */
export const lozenge = (length: number, height: number): Outline =>
  whole(polygon([vec(length / 2, 0), vec(0, height / 2), vec(-length / 2, 0), vec(0, -height / 2)]));

/**
 * Drawn or imported closed paths as outlines: what they cover by the nonzero rule. Refused where a path is open or they cover nothing.
 */
export function drawn(paths: readonly Path[]): Result<readonly Outline[], Trouble> {
  if (!paths.every(({ closed }) => closed))
    return trouble("outline", "The drawn outline is not closed", "Close it, end to start.");
  const { outlines } = shapeOf(paths);
  return outlines.length > 0
    ? { ok: true, value: outlines }
    : trouble("outline", "The drawn outline encloses nothing", "Draw it round an area.");
}
