/** A photograph's own words as numbers: its scale, its place, its plane. */
import type { Pair, Photograph } from "../../document/board.ts";
import type { Corners, Homography } from "../../geometry/homography.ts";
import { lengthBetween, placedPlane, planeOf, type PictureScale } from "../../geometry/picture-plane.ts";
import { inverse, transformPoint, type Affine } from "../../geometry/transform.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { readQuantity } from "../../units/read.ts";

export const place = ([x, y]: Pair): Vec => vec(x, y);
export const pair = ({ x, y }: Vec): Pair => [x, y];

/** mm of a length that was kept with its unit; undefined for what is none. */
export function lengthOf(text: string): number | undefined {
  const read = readQuantity(text, { quantity: "length", bareUnit: "mm" });
  return read.ok && read.value.value > 0 ? read.value.value : undefined;
}

const DEGREE = Math.PI / 180;

/** Undefined where a length cannot be read. */
export function scaleOf(photograph: Photograph): PictureScale | undefined {
  const { scale, width, height, mmAPixel = 0.1 } = photograph;
  if (!scale) return { by: "guess", mmAPixel, at: vec(width / 2, height / 2) };
  if (scale.by === "points") {
    const length = lengthOf(scale.length);
    return length === undefined ? undefined : { by: "points", points: pairOf(scale.points), length };
  }
  const [across, down] = [lengthOf(scale.across), lengthOf(scale.down)];
  if (across === undefined || down === undefined) return undefined;
  const [a, b, c, d] = scale.corners;
  const corners: Corners = [place(a), place(b), place(c), place(d)];
  return { by: "rectangle", corners, across, down };
}

const pairOf = ([a, b]: readonly [Pair, Pair]): readonly [Vec, Vec] => [place(a), place(b)];

/** Pixels of the photograph to places of the drawing. */
export function boardPlane(photograph: Photograph): Homography | undefined {
  const scale = scaleOf(photograph);
  return scale && placedPlane(scale, { at: place(photograph.at), turn: photograph.turn * DEGREE });
}

/** What a further known length comes out as, and by how much that is off. */
export interface Residual {
  readonly known: number;
  readonly measured: number;
  readonly share: number;
}

export function residualOf(photograph: Photograph): Residual | undefined {
  const check = photograph.scale?.by === "rectangle" ? photograph.scale.check : undefined;
  const scale = check && scaleOf(photograph);
  const plane = scale && planeOf(scale);
  const known = check && lengthOf(check.length);
  const measured = plane && check && lengthBetween(plane, place(check.points[0]), place(check.points[1]));
  return known === undefined || measured === undefined ? undefined : { known, measured, share: measured / known - 1 };
}

/** Sheets whose corners are at hand in every shop, sides in the unit that they are named by (ISO 216, ANSI Y14.1). */
export const SHEETS: readonly { readonly name: string; readonly sides: readonly [string, string] }[] = [
  { name: "A4", sides: ["297 mm", "210 mm"] },
  { name: "A3", sides: ["420 mm", "297 mm"] },
  { name: "Letter", sides: ["11 in", "8 1/2 in"] },
  { name: "Legal", sides: ["14 in", "8 1/2 in"] },
];

/** The pixel of the photograph under a place of the drawing. */
export function pixelUnder(toBoard: Affine, at: Vec): Pair {
  const { x, y } = transformPoint(inverse(toBoard), at);
  return [x, y];
}
