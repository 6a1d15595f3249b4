/** From a chosen file to a photograph that is kept with the design: turned as it says, made no larger than is of use, compressed. */
import type { PictureType } from "../../document/board.ts";
import type { Trouble } from "../../document/design.ts";
import { MOST_PICTURE_BYTES, pictureHead } from "../../document/picture-head.ts";
import type { Result } from "../../units/result.ts";

export interface TakenPicture {
  readonly type: PictureType;
  readonly width: number;
  readonly height: number;
  /** base64 */
  readonly data: string;
}

/** Pixels that are kept: 12 megapixels are half a tenth of a millimetre on a sheet of A4. */
const MOST_PIXELS = 12_600_000;
const LONGEST = 4800;
/** Tried in turn until the picture is small enough to be saved with every change. */
const QUALITIES = [0.86, 0.72, 0.55];
const MOST_KEPT_BYTES = 3_500_000;

const refuse = (message: string, mend: string): Result<never, Trouble> => ({ ok: false, error: { message, mend } });
const DAMAGED = refuse("the picture is damaged or cut off", "Choose another copy of the photograph.");

export async function takePicture(file: Blob): Promise<Result<TakenPicture, Trouble>> {
  if (file.size > MOST_PICTURE_BYTES)
    return refuse(
      `the file is larger than ${MOST_PICTURE_BYTES / 1024 / 1024} MB`,
      "Save the photograph smaller; 12 megapixels are plenty.",
    );
  const head = pictureHead(new Uint8Array(await file.arrayBuffer()));
  if (!head.ok) return head;
  let whole: ImageBitmap;
  try {
    // Said to be what its bytes are, whatever its name; turned by its own note of how the camera was held.
    whole = await createImageBitmap(new Blob([file], { type: head.value.type }), { imageOrientation: "from-image" });
  } catch {
    return DAMAGED;
  }
  const k = Math.min(1, LONGEST / Math.max(whole.width, whole.height), Math.sqrt(MOST_PIXELS / (whole.width * whole.height)));
  const width = Math.max(1, Math.round(whole.width * k));
  const height = Math.max(1, Math.round(whole.height * k));
  const canvas = document.createElement("canvas");
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext("2d");
  if (!context) throw new Error("no canvas for a photograph");
  context.imageSmoothingQuality = "high";
  context.drawImage(whole, 0, 0, width, height);
  whole.close();
  const blob = await compressed(canvas);
  canvas.width = 0;
  if (!blob) return DAMAGED;
  return { ok: true, value: { type: blob.type as PictureType, width, height, data: await base64Of(blob) } };
}

async function compressed(canvas: HTMLCanvasElement): Promise<Blob | undefined> {
  let last: Blob | undefined;
  for (const quality of QUALITIES) {
    // A browser that writes no WebP gives PNG, many times as large.
    const webp = await blobOf(canvas, "image/webp", quality);
    last = webp?.type === "image/webp" ? webp : await blobOf(canvas, "image/jpeg", quality);
    if (last && last.size <= MOST_KEPT_BYTES) return last;
  }
  return last;
}

const blobOf = (canvas: HTMLCanvasElement, type: PictureType, quality: number): Promise<Blob | undefined> =>
  new Promise((resolve) => canvas.toBlob((blob) => resolve(blob ?? undefined), type, quality));

function base64Of(blob: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.addEventListener("load", () => resolve((reader.result as string).slice((reader.result as string).indexOf(",") + 1)));
    reader.addEventListener("error", () => reject(reader.error ?? new Error("a picture could not be read")));
    reader.readAsDataURL(blob);
  });
}

/** The compressed picture as a file again. */
export function blobOfData(data: string, type: PictureType): Blob {
  const binary = atob(data);
  const bytes = new Uint8Array(binary.length);
  for (let i = 0; i < binary.length; i++) bytes[i] = binary.charCodeAt(i);
  return new Blob([bytes], { type });
}
