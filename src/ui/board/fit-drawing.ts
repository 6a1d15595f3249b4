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
/** A room lower or narrower than this is flat: margins along and across it are tried apart, px. */
const FLAT = 300;
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
  const at = (across: number, down: number): Camera =>
    fitted(bounds ?? EMPTY, size, {
      left: room.left + across,
      top: room.top + down,
      right: size.width - room.right + across,
      bottom: size.height - room.bottom + down,
    });
  const main = dimensions.filter(({ rank }) => rank < 3);
  const [width, height] = [room.right - room.left, room.bottom - room.top];
  const margins = [Math.min(MARGINS[0]!, SHARE * width, SHARE * height), ...MARGINS.slice(1)];
  const isFlat = Math.min(width, height) < FLAT;
  const cameras = margins
    .flatMap((across) => (isFlat ? [...margins, MARGINS[0]!] : [across]).map((down) => at(across, down)))
    .toSorted((a, b) => b.pxPerMm - a.pxPerMm);
  let best = at(margins[0]!, margins[0]!);
  const largest = best.pxPerMm;
  let most = -1;
  for (const camera of cameras) {
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
