/** How the points of an outline look: a square for a corner, a circle for a fair point, a diamond for an even one. */
import type Konva from "konva";
import type { PointKind } from "../../../geometry/drawn/point.ts";
import type { Px } from "../viewport.ts";

const SIZE_PX = 5;
const LINE_PX = 1.75;
/** Width of what a finger finds about a point. */
export const REACH_PX = 22;

/** Konva wraps every call of the canvas. */
// eslint-disable-next-line no-underscore-dangle
export const plainCanvas = (context: Konva.Context): CanvasRenderingContext2D => context._context;

/** What shows that a point is chosen, and how far it reaches. */
export function paintReach(context: Konva.Context, { x, y }: Px, colour: string): void {
  const canvas = plainCanvas(context);
  canvas.save();
  canvas.globalAlpha *= 0.14;
  canvas.fillStyle = colour;
  canvas.beginPath();
  canvas.arc(x, y, REACH_PX / 2, 0, 2 * Math.PI);
  canvas.fill();
  canvas.restore();
}

export function paintPoint(context: Konva.Context, { x, y }: Px, kind: PointKind, fill: string, stroke: string): void {
  const canvas = plainCanvas(context);
  canvas.beginPath();
  if (kind === "corner") canvas.rect(x - SIZE_PX, y - SIZE_PX, 2 * SIZE_PX, 2 * SIZE_PX);
  else if (kind === "fair") canvas.arc(x, y, SIZE_PX + 0.5, 0, 2 * Math.PI);
  else {
    const reach = SIZE_PX + 2.5;
    canvas.moveTo(x, y - reach);
    canvas.lineTo(x + reach, y);
    canvas.lineTo(x, y + reach);
    canvas.lineTo(x - reach, y);
    canvas.closePath();
  }
  canvas.fillStyle = fill;
  canvas.fill();
  canvas.strokeStyle = stroke;
  canvas.lineWidth = LINE_PX;
  canvas.stroke();
}
