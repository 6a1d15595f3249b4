/** The camera that shows a whole drawing with room for its dimensions. */
import type { Dimension } from "../../drawing/drawing.ts";
import type { Bounds } from "../../geometry/bounds.ts";
import type { Camera } from "../../store/session-store.ts";
import { layOut, type Measure, type Obstacles } from "./dimension-layout.ts";
import type { Room } from "./label-box.ts";
import { fitted, type View } from "./viewport.ts";

/** Shown where there is nothing to show. */
const EMPTY: Bounds = { minX: -50, minY: -50, maxX: 50, maxY: 50 };
/** Margins tried one after the other, px. */
const MARGINS = [40, 64, 90, 120];
/** The first of them is at most this share of the room, so that a flat board is not all margin. */
const SHARE = 0.12;
/** Room for dimensions is not bought with a drawing smaller than this share of what it could be. */
const LEAST = 0.6;

/** The nearest camera at which as many of the main dimensions find room as at any of the margins tried that leave the drawing large. */
export function fitDrawing(
  bounds: Bounds | undefined,
  dimensions: readonly Dimension[],
  size: { readonly width: number; readonly height: number },
  room: Room,
  measure: Measure,
  obstacles: (view: View) => Obstacles,
): Camera {
  const at = (margin: number): Camera =>
    fitted(bounds ?? EMPTY, size, {
      left: room.left + margin,
      top: room.top + margin,
      right: size.width - room.right + margin,
      bottom: size.height - room.bottom + margin,
    });
  const main = dimensions.filter(({ rank }) => rank < 3);
  const margins = [
    Math.min(MARGINS[0]!, SHARE * (room.right - room.left), SHARE * (room.bottom - room.top)),
    ...MARGINS.slice(1),
  ];
  let best = at(margins[0]!);
  const largest = best.pxPerMm;
  let most = -1;
  for (const margin of margins) {
    const camera = at(margin);
    if (camera.pxPerMm < LEAST * largest) break;
    const view: View = { camera, ...size };
    const count = layOut(main, view, room, measure, obstacles(view)).length;
    if (count > most) {
      best = camera;
      most = count;
    }
    if (count === main.length) break;
  }
  return best;
}
