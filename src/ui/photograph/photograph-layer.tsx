/** A photograph on a stage of its own under the drawing: it is drawn again only when the board looks elsewhere. */
import { memo } from "react";
import { KonvaStage, Painted } from "../board/konva-stage.tsx";
import { toScreen, type View } from "../board/viewport.ts";
import type { ShownPicture } from "./use-picture.ts";

interface PhotographLayerProps {
  readonly shown: ShownPicture;
  readonly opacity: number;
  readonly view: View;
  /** Device pixels a px. */
  readonly ratio: number;
}

function Laid({ shown, opacity, view, ratio }: PhotographLayerProps) {
  const { sizes, toBoard } = shown;
  const origin = toScreen(view, { x: toBoard.e, y: toBoard.f });
  const k = view.camera.pxPerMm;
  // The smallest size that still has a pixel for every one of the screen.
  const grows = Math.hypot(toBoard.a, toBoard.b) * k * ratio;
  let size = 0;
  while (size + 1 < sizes.length && grows * 2 ** (size + 1) <= 1) size++;
  const picture = sizes[size]!;
  const [kx, ky] = [sizes[0]!.width / picture.width, sizes[0]!.height / picture.height];
  return (
    <KonvaStage width={view.width} height={view.height} ratio={ratio}>
      <Painted
        paint={(canvas) => {
          canvas.globalAlpha = opacity;
          // y of the drawing runs up, that of the screen down.
          canvas.transform(toBoard.a * k * kx, -toBoard.b * k * kx, toBoard.c * k * ky, -toBoard.d * k * ky, origin.x, origin.y);
          canvas.drawImage(picture, 0, 0);
        }}
      />
    </KonvaStage>
  );
}

/** The drawing under it changes with every move of a drag, and with it the board's view, though it looks where it did. */
const isSame = (a: PhotographLayerProps, b: PhotographLayerProps): boolean =>
  a.opacity === b.opacity &&
  a.ratio === b.ratio &&
  a.shown.sizes === b.shown.sizes &&
  JSON.stringify([a.shown.toBoard, a.view]) === JSON.stringify([b.shown.toBoard, b.view]);

export const PhotographLayer = memo(Laid, isSame);
