/** Inlay pieces laid side by side on the material they are cut from, its grain along x. Lengths in mm. */
import { pathBounds } from "../../geometry/measure.ts";
import { pathsOf, type Outline } from "../../geometry/outline.ts";
import { polyline, type Path } from "../../geometry/path.ts";
import { compose, rotation, scaling, transformOutline, translation } from "../../geometry/transform.ts";
import { vec, type Vec } from "../../geometry/vec.ts";

/** One piece on its material. */
export interface LaidPiece {
  /** Counted from 1, in the order of the inlay's pieces. */
  readonly number: number;
  readonly outline: Outline;
  readonly box: ReturnType<typeof pathBounds>;
}

export interface LayoutNumbers {
  /** Direction of the grain in the finished inlay, from the line of letters. */
  readonly grain: number;
  readonly turns: readonly { readonly piece: number; readonly turn: number }[];
  readonly mirrored: boolean;
  readonly spacing: number;
}

/** How far the grain of a piece is turned against the others'. */
export const grainOf = (turns: LayoutNumbers["turns"], number: number): number =>
  turns.filter(({ piece }) => piece === number).reduce((sum, { turn }) => sum + turn, 0);

/** A sheet of pieces is about this much longer than it is wide. */
const LONGER = 2;

/**
 * The pieces, each turned so that its grain runs along x, mirrored about the grain where they are cut from the back, set in rows from the
 * origin down. They keep their sizes and shapes.
 */
export function layPieces(pieces: readonly Outline[], { grain, turns, mirrored, spacing }: LayoutNumbers): LaidPiece[] {
  const turned = pieces.map((outline, i) => {
    const spin = rotation(-(grain + grainOf(turns, i + 1)));
    return transformOutline(mirrored ? compose(spin, scaling(1, -1)) : spin, outline);
  });
  const boxes = turned.map(({ outer }) => pathBounds(outer));
  const area = boxes.reduce((sum, box) => sum + (box.maxX - box.minX + spacing) * (box.maxY - box.minY + spacing), 0);
  const widest = Math.max(0, ...boxes.map((box) => box.maxX - box.minX));
  const length = Math.max(widest, Math.sqrt(LONGER * area));
  const laid: LaidPiece[] = [];
  let [x, y, rowHeight] = [0, 0, 0];
  for (const [i, outline] of turned.entries()) {
    const box = boxes[i]!;
    const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
    if (x > 0 && x + width > length) [x, y, rowHeight] = [0, y - rowHeight - spacing, 0];
    const moved = transformOutline(translation(vec(x - box.minX, y - box.maxY)), outline);
    laid.push({ number: i + 1, outline: moved, box: pathBounds(moved.outer) });
    x += width + spacing;
    rowHeight = Math.max(rowHeight, height);
  }
  return laid;
}

/** A double arrow of the given length along the grain, its middle at a point. */
export function grainArrow(middle: Vec, length: number, angle = 0): Path {
  const half = length / 2;
  const head = Math.min(half / 2, 2);
  const off = (x: number, y: number): Vec => {
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    return vec(middle.x + c * x - s * y, middle.y + s * x + c * y);
  };
  return polyline([
    off(-half + head, head / 2),
    off(-half, 0),
    off(-half + head, -head / 2),
    off(-half, 0),
    off(half, 0),
    off(half - head, head / 2),
    off(half, 0),
    off(half - head, -head / 2),
  ]);
}

export const allPaths = (outlines: readonly Outline[]): Path[] => outlines.flatMap(pathsOf);
