/** Pieces that the neck's drawing and its templates share: lines said about, layers moved to their place on the page. */
import type { Dimension, Layer, Said } from "../../drawing/drawing.ts";
import { moveLayer } from "../../drawing/move.ts";
import type { Path } from "../../geometry/path.ts";
import { transformPath, translation } from "../../geometry/transform.ts";
import { add, type Vec } from "../../geometry/vec.ts";

export const said = (label: string, value: number): Said => ({ label, value, quantity: "length" });
export const saidAngle = (label: string, value: number): Said => ({ label, value, quantity: "angle" });

export const movedPath = (path: Path, by: Vec): Path => transformPath(translation(by), path);

/** The layer moved by a vector. */
export const movedLayer = (layer: Layer, by: Vec): Layer => moveLayer(translation(by), layer);

export const movedDimensions = (dimensions: readonly Dimension[], by: Vec): Dimension[] =>
  dimensions.map((dimension) => ({ ...dimension, from: add(dimension.from, by), to: add(dimension.to, by) }));

/** The layer in a list, or nothing. */
export const present = (layer: Layer | undefined): Layer[] => (layer ? [layer] : []);

export const placeName = (fret: number): string => (fret === 0 ? "nut" : `fret ${fret}`);
