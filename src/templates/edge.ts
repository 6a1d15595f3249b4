/** What a template is about: the closed edge that is followed, and the centre line that it is drawn on. */
import type { Drawing, Shape } from "../drawing/drawing.ts";
import { pathArea } from "../geometry/measure.ts";
import { pathsOf, regionOf, type Outline } from "../geometry/outline.ts";
import { asCircle, type Path } from "../geometry/path.ts";
import type { Region } from "../geometry/region.ts";
import { reversePath } from "../geometry/segment.ts";
import { cross, distance, dot, leftOf, sub, unit, type Vec } from "../geometry/vec.ts";
import type { TemplateSource } from "../parts/contract.ts";
import type { MadeFrom } from "../parts/making-choices.ts";

/** The straight line that a part is laid out on; distances are taken along `way` from the drawing's own origin. */
export interface CentreLine {
  readonly from: Vec;
  readonly to: Vec;
  /** Unit vector from start to end. */
  readonly way: Vec;
}

export const shapesOf = (drawing: Drawing): readonly Shape[] => drawing.layers.flatMap((layer) => layer.shapes);

/** The closed edge that the template is about, if it has one. */
export const edgeOf = ({ edge, drawing }: TemplateSource): Shape | undefined =>
  edge === undefined ? undefined : shapesOf(drawing).find((shape) => shape.id === edge && shape.path.closed);

/** The edge, or where the template is not about one, the closed outline that it shows. */
export const outlineOf = (template: TemplateSource): Shape | undefined =>
  edgeOf(template) ?? shapesOf(template.drawing).find((shape) => shape.id === "outline" && shape.path.closed);

const wound = (path: Path, sign: 1 | -1): Path => (Math.sign(pathArea(path)) === -sign ? reversePath(path) : path);

/** A closed shape as an outline: run counter-clockwise, its holes clockwise. */
export const asOutline = ({ path, holes = [] }: Shape): Outline => ({
  outer: wound(path, 1),
  holes: holes.map((hole) => wound(hole, -1)),
});
export const areaOf = (outlines: readonly Outline[]): Region => regionOf(outlines.flatMap(pathsOf));

/** The longest straight centre line of the drawing. */
export function centreLineOf(drawing: Drawing): CentreLine | undefined {
  let longest: CentreLine | undefined;
  for (const { role, line, path } of shapesOf(drawing)) {
    const [only, ...more] = path.segments;
    if (role !== "centre" || line !== "centre" || only?.kind !== "line" || more.length > 0) continue;
    const length = distance(path.start, only.to);
    if (length > (longest ? distance(longest.from, longest.to) : 0))
      longest = { from: path.start, to: only.to, way: unit(sub(only.to, path.start)) };
  }
  return longest;
}

/** How far along the centre line's direction a point lies, from the drawing's origin, mm. */
export const alongLine = ({ way }: CentreLine, p: Vec): number => dot(p, way);
/** How far to the left of the centre line a point lies, mm. */
export const besideLine = ({ from, way }: CentreLine, p: Vec): number => cross(way, sub(p, from));
/** The point `along` mm from the origin on the line, `beside` to its left. */
export function pointOnLine({ from, way }: CentreLine, along: number, beside = 0): Vec {
  const rest = along - dot(from, way);
  const left = leftOf(way);
  return { x: from.x + way.x * rest + left.x * beside, y: from.y + way.y * rest + left.y * beside };
}

export const holesOf = (drawing: Drawing): readonly Shape[] =>
  shapesOf(drawing).filter(({ role, path }) => role === "drill" && asCircle(path) !== undefined);

/** What can be done to a template. */
export function madeFrom(template: TemplateSource): MadeFrom {
  const edge = edgeOf(template);
  return {
    edge: edge !== undefined,
    centreLine: centreLineOf(template.drawing) !== undefined,
    holes: holesOf(template.drawing).length > 0,
    recess: edge?.role === "pocket",
    grain: template.grain,
  };
}

/** The drawing with other shapes in the place of one. */
export const withShapes = (drawing: Drawing, id: string, shapes: readonly Shape[]): Drawing => ({
  dimensions: [],
  layers: drawing.layers.map((layer) => ({
    ...layer,
    shapes: layer.shapes.flatMap((shape) => (shape.id === id ? shapes : [shape])),
  })),
});
