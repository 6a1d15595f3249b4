/** Pieces that the neck's drawing and its templates share: lines said about, layers moved to their place on the page. */
import type { Dimension, Layer, Said, Shape } from "../../drawing/drawing.ts";
import { moveLayer } from "../../drawing/move.ts";
import { segmentPath, type Path } from "../../geometry/path.ts";
import { transformPath, translation } from "../../geometry/transform.ts";
import { add, vec, type Vec } from "../../geometry/vec.ts";

export const said = (label: string, value: number): Said => ({ label, value, quantity: "length" });
export const saidAngle = (label: string, value: number): Said => ({ label, value, quantity: "angle" });

export const movedPath = (path: Path, by: Vec): Path => transformPath(translation(by), path);

/** The layer moved by a vector. */
export const movedLayer = (layer: Layer, by: Vec): Layer => moveLayer(translation(by), layer);

export const movedDimensions = (dimensions: readonly Dimension[], by: Vec): Dimension[] =>
  dimensions.map((dimension) => ({ ...dimension, from: add(dimension.from, by), to: add(dimension.to, by) }));

/** A centre line between two points. */
export const centreLine = (id: string, from: Vec, to: Vec): Shape => ({
  id,
  role: "centre",
  line: "centre",
  path: segmentPath(from, to),
  name: "centre line",
});

/** The centre line along x. */
export const centreAlong = (from: number, to: number): Layer => ({
  name: "centre",
  shapes: [centreLine("centre-line", vec(from, 0), vec(to, 0))],
});

/** The layer in a list, or nothing. */
export const present = (layer: Layer | undefined): Layer[] => (layer ? [layer] : []);

export const placeName = (fret: number): string => (fret === 0 ? "nut" : `fret ${fret}`);
