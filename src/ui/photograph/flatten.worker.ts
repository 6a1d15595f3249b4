/** Flattens a photograph beside the page, so that the board goes on meanwhile. */
import { mappedPixels } from "../../geometry/flatten-pixels.ts";
import type { FlatGrid } from "../../geometry/picture-plane.ts";

export interface FlattenWish {
  readonly picture: ImageBitmap;
  readonly grid: FlatGrid;
}

addEventListener("message", ({ data: { picture, grid } }: MessageEvent<FlattenWish>) => {
  const { width, height, toSource } = grid;
  const from = new OffscreenCanvas(picture.width, picture.height).getContext("2d", { willReadFrequently: true })!;
  from.drawImage(picture, 0, 0);
  const source = from.getImageData(0, 0, picture.width, picture.height);
  picture.close();
  const to = new OffscreenCanvas(width, height);
  to.getContext("2d")!.putImageData(
    new ImageData(mappedPixels(source, toSource, width, height) as Uint8ClampedArray<ArrayBuffer>, width, height),
    0,
    0,
  );
  const flat = to.transferToImageBitmap();
  postMessage(flat, { transfer: [flat] });
});
