/** What of a template leaves ink on the paper: its lines flattened, its lettering as boxes. */
import type { Text } from "../drawing/drawing.ts";
import { boundsOfPoints, joinBounds, type Bounds } from "../geometry/bounds.ts";
import { flatten } from "../geometry/flatten.ts";
import { pathBounds } from "../geometry/measure.ts";
import { add, polar, vec, type Vec } from "../geometry/vec.ts";
import type { Template } from "../templates/template.ts";
import { DESCENT, textWidth } from "./lettering.ts";

/** A line of ink: an open or closed run of straight sides. */
export interface Stroke {
  readonly points: readonly Vec[];
  readonly closed: boolean;
}

/** Greatest distance between a curve and its chords, mm; sheets keep more room than this round all ink. */
const CHORD = 0.02;

/** Every line of the template as straight sides within 0.02 mm, and the outline of every piece of lettering. */
export function inkOf(template: Template): Stroke[] {
  return template.drawing.layers.flatMap((layer) => [
    ...layer.shapes
      .flatMap((shape) => [shape.path, ...(shape.holes ?? [])])
      .map((path) => ({ points: flatten(path, CHORD), closed: path.closed })),
    ...(layer.texts ?? []).map((text) => ({ points: textCorners(text), closed: true })),
  ]);
}

/** The least box round the template's ink, lettering included, the curves exact. Throws where the template is empty. */
export function inkBounds(template: Template): Bounds {
  return joinBounds(
    template.drawing.layers.flatMap((layer) => [
      ...layer.shapes.map((shape) => pathBounds(shape.path)),
      ...(layer.texts ?? []).map((text) => boundsOfPoints(textCorners(text))),
    ]),
  );
}

/** The corners of the box that the lettering fills, counter-clockwise. */
export function textCorners(text: Text): Vec[] {
  const width = textWidth(text.text, text.height);
  const before = text.align === "start" ? 0 : text.align === "middle" ? width / 2 : width;
  const angle = text.angle ?? 0;
  const along = polar(vec(0, 0), 1, angle);
  const at = (u: number, v: number): Vec => add(text.at, vec(u * along.x - v * along.y, u * along.y + v * along.x));
  const [left, right, low, high] = [-before, width - before, -DESCENT * text.height, text.height];
  return [at(left, low), at(right, low), at(right, high), at(left, high)];
}
