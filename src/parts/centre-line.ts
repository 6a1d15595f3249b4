/** The centre line, drawn and named in one way by every part. */
import type { Layer, Shape } from "../drawing/drawing.ts";
import { segmentPath } from "../geometry/path.ts";
import { vec, type Vec } from "../geometry/vec.ts";

export const centreLine = (from: Vec, to: Vec): Shape => ({
  id: "centre-line",
  role: "centre",
  line: "centre",
  path: segmentPath(from, to),
  name: "centre line",
});

/** Along x, in a layer of its own. */
export const centreAlong = (from: number, to: number): Layer => ({
  name: "centre",
  shapes: [centreLine(vec(from, 0), vec(to, 0))],
});
