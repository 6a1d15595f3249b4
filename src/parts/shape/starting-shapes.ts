/** Starting shapes of our own, by length along the centre line and width, about the origin: a half where the outline is mirrored. */
import { mirroredPoints, outlinePoint, type OutlinePoint } from "../../geometry/drawn/point.ts";
import type { StartingShape } from "./numbers.ts";

type Half = (l: number, w: number) => OutlinePoint[];

const HALVES: Readonly<Record<StartingShape, Half>> = {
  rectangle: (l, w) => [outlinePoint(-l, -w), outlinePoint(l, -w)],
  oval: (l, w) => [
    outlinePoint(-l, 0, { kind: "even", side: "curve" }),
    outlinePoint(0, -w, { kind: "even", side: "curve" }),
    outlinePoint(l, 0, { kind: "even", side: "curve" }),
  ],
  leaf: (l, w) => [
    outlinePoint(-l, 0, { side: "curve" }),
    outlinePoint(-0.15 * l, -w, { kind: "fair", side: "curve", direction: 0 }),
    outlinePoint(l, 0, { side: "curve" }),
  ],
  wedge: (l, w) => [outlinePoint(-l, -w), outlinePoint(l, -0.6 * w)],
  shield: (l, w) => [
    outlinePoint(-l, -w, { side: "curve", direction: 0 }),
    outlinePoint(0.2 * l, -0.78 * w, { kind: "fair", side: "curve" }),
    outlinePoint(l, 0, { kind: "even", side: "curve", direction: Math.PI / 2 }),
  ],
  bell: (l, w) => [
    outlinePoint(-l, -w, { rounding: Math.min(l, w) / 5 }),
    outlinePoint(-0.55 * l, -w, { kind: "fair", side: "curve" }),
    outlinePoint(0.1 * l, -0.42 * w, { kind: "fair", side: "curve" }),
    outlinePoint(l, 0, { kind: "even", side: "curve", direction: Math.PI / 2 }),
  ],
};

export function startingShape(shape: StartingShape, length: number, width: number, mirrored: boolean): OutlinePoint[] {
  const half = HALVES[shape](length / 2, width / 2);
  return mirrored ? half : mirroredPoints(half);
}
