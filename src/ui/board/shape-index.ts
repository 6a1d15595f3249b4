/** The shapes of a drawing with their boxes, so that what is out of sight or out of reach is passed over quickly. */
import type { Drawing, Shape } from "../../drawing/drawing.ts";
import { joinBounds, type Bounds } from "../../geometry/bounds.ts";
import { pathBounds } from "../../geometry/measure.ts";

export interface Indexed {
  readonly shape: Shape;
  readonly layer: string;
  readonly bounds: Bounds;
}

export interface ShapeIndex {
  /** In the order in which they are drawn. */
  readonly all: readonly Indexed[];
  readonly byId: ReadonlyMap<string, Indexed>;
  readonly layers: readonly { readonly name: string; readonly shapes: readonly Indexed[] }[];
  /** Round all shapes; undefined where there are none. */
  readonly bounds: Bounds | undefined;
}

export function indexShapes(drawing: Drawing): ShapeIndex {
  const layers = drawing.layers.map(({ name, shapes }) => ({
    name,
    shapes: shapes.map((shape) => ({ shape, layer: name, bounds: pathBounds(shape.path) })),
  }));
  const all = layers.flatMap(({ shapes }) => shapes);
  return {
    all,
    byId: new Map(all.map((one) => [one.shape.id, one])),
    layers,
    bounds: all.length > 0 ? all.map((one) => one.bounds).reduce((a, b) => joinBounds([a, b])) : undefined,
  };
}
