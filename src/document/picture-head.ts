/** What the first bytes of a picture's file say of it, read before anything is unpacked: its kind and its size in pixels. */
import type { Result } from "../units/result.ts";
import type { PictureType } from "./board.ts";
import type { Trouble } from "./design.ts";
import { sniff } from "./sniff.ts";

export interface PictureHead {
  readonly type: PictureType;
  /** Pixels as they are stored, before the picture is turned as it says it should be. */
  readonly width: number;
  readonly height: number;
}

/** Bytes of the largest file that is read, and pixels of the largest picture. */
export const MOST_PICTURE_BYTES = 64 * 1024 * 1024;
const MOST_MEGAPIXELS = 120;

const KINDS = "Choose a photograph saved as PNG, JPEG or WebP.";
const refuse = (message: string, mend: string): Result<never, Trouble> => ({ ok: false, error: { message, mend } });

/** By the formats' own specifications (PNG, W3C 2003, 11.2.2; JPEG, ITU-T T.81, B.2.2; WebP, RFC 9649, 2.5 to 2.7). */
export function pictureHead(bytes: Uint8Array): Result<PictureHead, Trouble> {
  if (bytes.length === 0) return refuse("the file is empty", "Choose another copy of the photograph.");
  const type = typeOf(bytes);
  if (!type) {
    const other = sniff(bytes);
    return refuse(other ? `the file is ${other.what}` : "the file is no photograph", KINDS);
  }
  const size = type === "image/png" ? sizeOfPng(bytes) : type === "image/jpeg" ? sizeOfJpeg(bytes) : sizeOfWebp(bytes);
  if (!size) return refuse("the picture is damaged or cut off", "Choose another copy of the photograph.");
  const [width, height] = size;
  if (width === 0 || height === 0) return refuse("the picture has no pixels", "Choose another copy of the photograph.");
  if (width * height > MOST_MEGAPIXELS * 1e6)
    return refuse(`the picture is larger than ${MOST_MEGAPIXELS} megapixels`, "Save it smaller; 12 megapixels are plenty.");
  return { ok: true, value: { type, width, height } };
}

const text = (bytes: Uint8Array, from: number, to: number): string => String.fromCharCode(...bytes.subarray(from, to));

function typeOf(bytes: Uint8Array): PictureType | undefined {
  if (text(bytes, 0, 8) === "\u0089PNG\r\n\u001a\n") return "image/png";
  if (bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff) return "image/jpeg";
  return text(bytes, 0, 4) === "RIFF" && text(bytes, 8, 12) === "WEBP" ? "image/webp" : undefined;
}

type Pixels = readonly [width: number, height: number] | undefined;

const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

function sizeOfPng(bytes: Uint8Array): Pixels {
  if (bytes.length < 24 || text(bytes, 12, 16) !== "IHDR") return undefined;
  return [viewOf(bytes).getUint32(16), viewOf(bytes).getUint32(20)];
}

/** Segments are walked to the frame header, which says the size. */
function sizeOfJpeg(bytes: Uint8Array): Pixels {
  const view = viewOf(bytes);
  for (let at = 2; at + 9 < bytes.length;) {
    if (bytes[at] !== 0xff) return undefined;
    const marker = bytes[at + 1]!;
    if (marker === 0xff) at++;
    else if (marker === 0x01 || (marker >= 0xd0 && marker <= 0xd7)) at += 2;
    // Frame headers, without the tables that stand among their numbers.
    else if (marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc)
      return [view.getUint16(at + 7), view.getUint16(at + 5)];
    else if (marker === 0xda || marker === 0xd9) return undefined;
    else at += 2 + view.getUint16(at + 2);
  }
  return undefined;
}

function sizeOfWebp(bytes: Uint8Array): Pixels {
  if (bytes.length < 30) return undefined;
  const view = viewOf(bytes);
  switch (text(bytes, 12, 16)) {
    case "VP8 ":
      return [view.getUint16(26, true) & 0x3fff, view.getUint16(28, true) & 0x3fff];
    case "VP8L": {
      const bits = view.getUint32(21, true);
      return [(bits & 0x3fff) + 1, ((bits >>> 14) & 0x3fff) + 1];
    }
    case "VP8X":
      return [1 + (view.getUint32(24, true) & 0xffffff), 1 + (view.getUint32(26, true) >>> 8)];
    default:
      return undefined;
  }
}
