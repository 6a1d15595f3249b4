/** The rulers along the top and the left edge of the board, and the mark of the pointer on them. */
import type { LengthStyle } from "../../units/format.ts";
import type { Colours } from "./colours.ts";
import type { Canvas } from "./paint-drawing.ts";
import { ticks } from "./ticks.ts";
import { snapFor } from "./trace.ts";
import { seen, toScreen, type Px, type View } from "./viewport.ts";

/** Width of a ruler, px. */
export const RULER_PX = 24;
const LENGTHS = [4, 7, 10] as const;
const TYPE_PX = 11;

export function paintRulers(canvas: Canvas, view: View, style: LengthStyle, colours: Colours, ratio: number): void {
  const { width, height, camera } = view;
  const snap = snapFor(1, ratio);
  const sight = seen(view);
  canvas.fillStyle = colours.sheet;
  canvas.fillRect(0, 0, width, RULER_PX);
  canvas.fillRect(0, 0, RULER_PX, height);
  canvas.lineWidth = Math.max(1, Math.round(ratio)) / ratio;
  canvas.setLineDash([]);
  canvas.strokeStyle = colours.soft;
  canvas.fillStyle = colours.soft;
  canvas.font = `400 ${TYPE_PX}px ${colours.numbers}`;
  canvas.textAlign = "left";
  canvas.textBaseline = "alphabetic";

  canvas.beginPath();
  const across = ticks(sight.minX, sight.maxX, camera.pxPerMm, style);
  for (const { at, rank } of across) {
    const x = snap(toScreen(view, { x: at, y: 0 }).x);
    if (x < RULER_PX) continue;
    canvas.moveTo(x, RULER_PX);
    canvas.lineTo(x, RULER_PX - LENGTHS[rank]);
  }
  const upward = ticks(sight.minY, sight.maxY, camera.pxPerMm, style);
  for (const { at, rank } of upward) {
    const y = snap(toScreen(view, { x: 0, y: at }).y);
    if (y < RULER_PX) continue;
    canvas.moveTo(RULER_PX, y);
    canvas.lineTo(RULER_PX - LENGTHS[rank], y);
  }
  canvas.stroke();

  for (const { at, label } of across) {
    const x = Math.round(toScreen(view, { x: at, y: 0 }).x);
    if (label !== undefined && x >= RULER_PX) canvas.fillText(label, x + 4, 11);
  }
  for (const { at, label } of upward) {
    const y = Math.round(toScreen(view, { x: 0, y: at }).y);
    if (label === undefined || y < RULER_PX) continue;
    canvas.save();
    canvas.translate(11, y - 4);
    canvas.rotate(-Math.PI / 2);
    canvas.fillText(label, 0, 0);
    canvas.restore();
  }

  canvas.fillStyle = colours.sheet;
  canvas.fillRect(0, 0, RULER_PX, RULER_PX);
  canvas.fillStyle = colours.soft;
  canvas.textAlign = "center";
  canvas.textBaseline = "middle";
  canvas.fillText(style.unit, RULER_PX / 2, RULER_PX / 2 + 1);
  canvas.strokeStyle = colours.rule;
  canvas.beginPath();
  const edge = snap(RULER_PX);
  canvas.moveTo(0, edge);
  canvas.lineTo(width, edge);
  canvas.moveTo(edge, 0);
  canvas.lineTo(edge, height);
  canvas.stroke();
}

/** Where the pointer stands, as a line across each ruler. */
export function paintCursor(canvas: Canvas, at: Px, colours: Colours, ratio: number): void {
  const snap = snapFor(1, ratio);
  canvas.strokeStyle = colours.pen;
  canvas.lineWidth = Math.max(1, Math.round(ratio)) / ratio;
  canvas.setLineDash([]);
  canvas.beginPath();
  canvas.moveTo(snap(at.x), 0);
  canvas.lineTo(snap(at.x), RULER_PX);
  canvas.moveTo(0, snap(at.y));
  canvas.lineTo(RULER_PX, snap(at.y));
  canvas.stroke();
}
