/** Shapes and layers of a drawing moved, turned, scaled or mirrored; lettering keeps its height and stays readable. */
import { carryPath, transformPoint, transformVector, type Affine } from "../geometry/transform.ts";
import { angleOf, ORIGIN, polar, scale } from "../geometry/vec.ts";
import type { Layer, Shape, Text } from "./drawing.ts";
import { DESCENT } from "./lettering.ts";

/** The shape under an affine map, in mm. */
export const moveShape = (by: Affine, shape: Shape): Shape => ({
  ...shape,
  path: carryPath(by, shape.path),
  ...(shape.holes ? { holes: shape.holes.map((hole) => carryPath(by, hole)) } : {}),
});

/** The layer under an affine map, in mm. */
export const moveLayer = (by: Affine, layer: Layer): Layer => ({
  ...layer,
  shapes: layer.shapes.map((shape) => moveShape(by, shape)),
  ...(layer.texts ? { texts: layer.texts.map((text) => moveText(by, text)) } : {}),
});

/** The line through the middle of the letters is carried over; letters are never mirrored, and are read from below or from the right (ISO 129-1). */
function moveText(by: Affine, text: Text): Text {
  const { angle = 0, align } = text;
  const rise = ((1 - DESCENT) * text.height) / 2;
  const middle = transformPoint(by, polar(text.at, rise, angle + Math.PI / 2));
  const way = transformVector(by, polar(ORIGIN, 1, angle));
  const upsideDown = way.x < -1e-9 || (Math.abs(way.x) <= 1e-9 && way.y < 0);
  const now = angleOf(upsideDown ? scale(way, -1) : way);
  return {
    ...text,
    at: polar(middle, -rise, now + Math.PI / 2),
    align: upsideDown && align !== "middle" ? (align === "start" ? "end" : "start") : align,
    ...(text.angle === undefined && now === 0 ? {} : { angle: now }),
  };
}
