/** What lies on another part: told from the host's own lines, and seen on the whole instrument where the host is. */
import type { Layer } from "../drawing/drawing.ts";
import { moveLayer } from "../drawing/move.ts";
import { inverse, type Affine } from "../geometry/transform.ts";
import type { InPlace, OnHost } from "./contract.ts";

/** Layers whose names and shapes tell which part they come from, so that they stay apart from those of the host. */
export const withOwner = (lies: OnHost | undefined, owner: string): OnHost | undefined =>
  lies && {
    ...lies,
    layers: lies.layers.map(({ name, shapes }) => ({
      name: `${owner}-${name}`,
      shapes: shapes.map((shape) => ({ ...shape, id: `${owner}-${shape.id}` })),
    })),
  };

/** Its place on the whole instrument, from that of the part that it lies on; empty where that one is not seen from the front. */
export function laidOn({ layers }: OnHost, { front, fromOwn }: InPlace): InPlace {
  if (!front) return {};
  return { front: { layers: fromOwn ? layers.map((layer) => moveLayer(fromOwn, layer)) : layers, dimensions: [] } };
}

/** What else lies on the same part, thin, in the frame of one that lies there by `place`: where the two meet is seen on its own drawing. */
export const besides = (layers: readonly Layer[], place: Affine): Layer[] =>
  layers.map((layer) => {
    const { name, shapes } = moveLayer(inverse(place), layer);
    return {
      name,
      shapes: shapes.map(({ id, path, holes, name: called }) => ({
        id,
        role: "guide",
        line: "adjacent",
        path,
        ...(holes ? { holes } : {}),
        name: `${called} of another part`,
      })),
    };
  });
