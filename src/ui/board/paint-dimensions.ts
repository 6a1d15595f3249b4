/** Dimension lines, extension lines and arrows on the canvas, and the texts of those that are not fields. */
import type { Colours } from "./colours.ts";
import { ARROW_PX, type Placed } from "./dimension-layout.ts";
import type { Stroke } from "./label-box.ts";
import type { Canvas } from "./paint-drawing.ts";
import { snapFor } from "./trace.ts";
import type { Px } from "./viewport.ts";

/** Size of the type of dimension texts, px. */
export const DIMENSION_TYPE_PX = 13;
export const dimensionFont = (colours: Colours): string => `600 ${DIMENSION_TYPE_PX}px ${colours.numbers}`;

const ARROW_HALF_PX = 2;

export function paintDimensions(canvas: Canvas, placed: readonly Placed[], colours: Colours, ratio: number): void {
  const snap = snapFor(1, ratio);
  canvas.lineWidth = Math.max(1, Math.round(ratio)) / ratio;
  canvas.setLineDash([]);
  canvas.strokeStyle = colours.soft;
  canvas.beginPath();
  for (const { line, extensions } of placed) for (const stroke of [line, ...extensions]) laid(canvas, stroke, snap);
  canvas.stroke();
  canvas.fillStyle = colours.ink;
  canvas.beginPath();
  for (const one of placed) arrows(canvas, one, snap);
  canvas.fill();
  for (const one of placed) if (one.dimension.edits === undefined) label(canvas, one, colours);
}

function laid(canvas: Canvas, [a, b]: Stroke, snap: (px: number) => number): void {
  const upright = Math.abs(a.x - b.x) < 0.01;
  const level = Math.abs(a.y - b.y) < 0.01;
  canvas.moveTo(upright ? snap(a.x) : a.x, level ? snap(a.y) : a.y);
  canvas.lineTo(upright ? snap(a.x) : b.x, level ? snap(a.y) : b.y);
}

function arrows(canvas: Canvas, { feet: [a, b], arrows: how, ends }: Placed, snap: (px: number) => number): void {
  const angle = Math.atan2(b.y - a.y, b.x - a.x) + (how === "outside" ? Math.PI : 0);
  const on = (p: Px): Px => ({
    x: Math.abs(a.x - b.x) < 0.01 ? snap(p.x) : p.x,
    y: Math.abs(a.y - b.y) < 0.01 ? snap(p.y) : p.y,
  });
  arrow(canvas, on(b), angle);
  if (ends === "both") arrow(canvas, on(a), angle + Math.PI);
}

/** A filled arrowhead with its tip at `tip`, pointing along `angle`. */
function arrow(canvas: Canvas, tip: Px, angle: number): void {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const back = { x: tip.x - c * ARROW_PX, y: tip.y - s * ARROW_PX };
  canvas.moveTo(tip.x, tip.y);
  canvas.lineTo(back.x - s * ARROW_HALF_PX, back.y + c * ARROW_HALF_PX);
  canvas.lineTo(back.x + s * ARROW_HALF_PX, back.y - c * ARROW_HALF_PX);
  canvas.closePath();
}

function label(canvas: Canvas, { text, box }: Placed, colours: Colours): void {
  canvas.save();
  canvas.translate(box.centre.x, box.centre.y);
  canvas.rotate(box.angle);
  canvas.fillStyle = colours.board;
  canvas.fillRect(-box.width / 2, -box.height / 2, box.width, box.height);
  canvas.font = dimensionFont(colours);
  canvas.textAlign = "center";
  canvas.textBaseline = "middle";
  canvas.fillStyle = colours.ink;
  canvas.fillText(text, 0, 1);
  canvas.restore();
}
