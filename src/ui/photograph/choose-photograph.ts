/** Takes a photograph from a file and lays it under a part's board. */
import { fileOpen } from "browser-fs-access";
import type { Photograph } from "../../document/board.ts";
import type { Trouble } from "../../document/design.ts";
import type { Bounds } from "../../geometry/bounds.ts";
import { pathsBounds } from "../../geometry/measure.ts";
import type { DerivedPart } from "../../parts/derived.ts";
import { setPhotograph } from "../../store/commands/edit-board.ts";
import type { Camera } from "../../store/session-store.ts";
import type { Workbench } from "../../store/workbench.ts";
import type { Result } from "../../units/result.ts";
import { takePicture } from "./take-picture.ts";

export async function choosePhotograph(): Promise<File | undefined> {
  try {
    return await fileOpen({
      extensions: [".png", ".jpg", ".jpeg", ".webp"],
      mimeTypes: ["image/png", "image/jpeg", "image/webp"],
      description: "Photograph",
    });
  } catch (error) {
    // The person let the dialog go.
    if (error instanceof DOMException && error.name === "AbortError") return undefined;
    throw error;
  }
}

/** A file that would be laid under a board when it is dropped there, as its maker names it. */
export const looksLikePicture = (file: File): boolean =>
  file.type.startsWith("image/") || /\.(png|jpe?g|webp|gif|tiff?|heic|avif|bmp|svg)$/i.test(file.name);

/** The drawing; of a part with loose points, where they are looked at. */
function frameOf(part: DerivedPart, camera: Camera | undefined): Bounds {
  const [outline] = part.outlines();
  if (outline?.loose) {
    const { x, y } = camera?.centre ?? outline.origin;
    const half = outline.loose.across / 2;
    return { minX: x - half, maxX: x + half, minY: y, maxY: y };
  }
  const paths = part.drawing().layers.flatMap(({ shapes }) => shapes.map(({ path }) => path));
  return paths.length > 0 ? pathsBounds(paths) : { minX: 0, maxX: 100, minY: -50, maxY: 50 };
}

/** As large as the drawing, in its middle, until it is brought to scale. */
export async function layPhotograph(bench: Workbench, part: DerivedPart, file: File): Promise<Result<void, Trouble>> {
  const taken = await takePicture(file);
  if (!taken.ok) return taken;
  const { width, height } = taken.value;
  const box = frameOf(part, bench.session.getState().cameras[part.id]);
  const mmAPixel = Math.max((box.maxX - box.minX) / width, (box.maxY - box.minY) / height, 1e-4) * 1.15;
  const photograph: Photograph = {
    name: file.name,
    ...taken.value,
    mmAPixel: Number(mmAPixel.toPrecision(4)),
    at: [Math.round((box.minX + box.maxX) / 2), Math.round((box.minY + box.maxY) / 2)],
    turn: 0,
  };
  setPhotograph(bench, part.id, photograph);
  return { ok: true, value: undefined };
}
