/** A canvas over the whole board: painted at once when it is new or of another size, with the next frame after other changes. */
import { useLayoutEffect, useRef } from "react";

interface PaintedProps {
  /** px */
  readonly width: number;
  readonly height: number;
  /** Device pixels a px. */
  readonly ratio: number;
  /** Paints in px on a canvas that is empty. */
  readonly paint: (canvas: CanvasRenderingContext2D) => void;
  readonly opacity?: number;
}

export function Painted({ width, height, ratio, paint, opacity = 1 }: PaintedProps) {
  const element = useRef<HTMLCanvasElement>(null);
  useLayoutEffect(() => {
    const it = element.current;
    const canvas = it?.getContext("2d");
    if (!it || !canvas) return undefined;
    const now = (): void => {
      canvas.setTransform(1, 0, 0, 1, 0, 0);
      canvas.clearRect(0, 0, it.width, it.height);
      canvas.setTransform(ratio, 0, 0, ratio, 0, 0);
      canvas.save();
      paint(canvas);
      canvas.restore();
    };
    const [across, down] = [Math.floor(width * ratio), Math.floor(height * ratio)];
    if (it.width === across && it.height === down) {
      const frame = requestAnimationFrame(now);
      return () => cancelAnimationFrame(frame);
    }
    it.width = across;
    it.height = down;
    now();
    return undefined;
  });
  return <canvas ref={element} className="board-painted" style={{ width, height, opacity }} />;
}
