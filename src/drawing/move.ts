/** Shapes and layers of a drawing moved, turned, scaled or mirrored; lettering keeps its height and stays readable. */
import type { Path } from "../geometry/path.ts";
import { reversePath } from "../geometry/segment.ts";
import { transformPath, transformPoint, type Affine } from "../geometry/transform.ts";
import { add, angleOf, sub, vec } from "../geometry/vec.ts";
import type { Layer, Shape, Text } from "./drawing.ts";

/** The shape under an affine map, in mm. */
export const moveShape = (by: Affine, shape: Shape): Shape => ({
  ...shape,
  path: moved(by, shape.path),
  ...(shape.holes ? { holes: shape.holes.map((hole) => moved(by, hole)) } : {}),
});

/** A closed path keeps its turning direction, also in a mirror. */
function moved(by: Affine, path: Path): Path {
  const made = transformPath(by, path);
  return path.closed && by.a * by.d - by.b * by.c < 0 ? reversePath(made) : made;
}

/** The layer under an affine map, in mm. */
export const moveLayer = (by: Affine, layer: Layer): Layer => ({
  ...layer,
  shapes: layer.shapes.map((shape) => moveShape(by, shape)),
  ...(layer.texts ? { texts: layer.texts.map((text) => moveText(by, text)) } : {}),
});

/** Only its place and direction move: a mirror does not mirror letters, and what would be read from above is turned round. */
function moveText(by: Affine, text: Text): Text {
  const at = transformPoint(by, text.at);
  const along = vec(Math.cos(text.angle ?? 0), Math.sin(text.angle ?? 0));
  const way = sub(transformPoint(by, add(text.at, along)), at);
  const upsideDown = way.x < -1e-9 || (Math.abs(way.x) <= 1e-9 && way.y < 0);
  const angle = angleOf(upsideDown ? vec(-way.x, -way.y) : way);
  const align = upsideDown && text.align !== "middle" ? (text.align === "start" ? "end" : "start") : text.align;
  return { ...text, at, align, ...(text.angle === undefined && angle === 0 ? {} : { angle }) };
}
