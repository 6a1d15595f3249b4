/** The pixels of a photograph that lies under a board: read from the design, flattened where it was taken aslant, in several sizes. */
import { useEffect, useState } from "react";
import type { Photograph } from "../../document/board.ts";
import { flatGrid, type FlatGrid, type PictureScale } from "../../geometry/picture-plane.ts";
import { compose, IDENTITY, rotation, translation, type Affine } from "../../geometry/transform.ts";
import { boardPlane, place, scaleOf } from "./photograph-plane.ts";
import type { FlattenWish } from "./flatten.worker.ts";
import { blobOfData } from "./take-picture.ts";

/** One picture, each size half of the one before. */
export type Sizes = readonly ImageBitmap[];

export interface ShownPicture {
  readonly sizes: Sizes;
  /** From the pixels of its first size to the drawing. */
  readonly toBoard: Affine;
}

export type PictureState = { readonly state: "none" | "busy" | "broken" } | ({ readonly state: "shown" } & ShownPicture);

const MOST_FLAT_PIXELS = 12_600_000;
const LEAST_SIDE = 400;

async function inSizes(whole: ImageBitmap): Promise<Sizes> {
  const sizes = [whole];
  for (let last = whole; Math.max(last.width, last.height) > 2 * LEAST_SIDE; last = sizes.at(-1)!)
    sizes.push(
      await createImageBitmap(last, {
        resizeWidth: Math.max(1, last.width >> 1),
        resizeHeight: Math.max(1, last.height >> 1),
        resizeQuality: "medium",
      }),
    );
  return sizes;
}

/** One picture is on the board at a time; the last stays at hand, since undo and a look at another part come back to it. */
let lastRead: { readonly data: string; readonly sizes: Promise<Sizes> } | undefined;

function readSizes({ data, type }: Photograph): Promise<Sizes> {
  if (lastRead?.data !== data) lastRead = { data, sizes: createImageBitmap(blobOfData(data, type)).then(inSizes) };
  return lastRead.sizes;
}

let lastFlat: { readonly data: string; readonly grid: string; readonly sizes: Promise<Sizes> } | undefined;

function flatSizes(photograph: Photograph, grid: FlatGrid): Promise<Sizes> {
  const key = JSON.stringify(grid);
  if (lastFlat?.data !== photograph.data || lastFlat.grid !== key)
    lastFlat = { data: photograph.data, grid: key, sizes: readSizes(photograph).then(([whole]) => flattened(whole!, grid)) };
  return lastFlat.sizes;
}

async function flattened(whole: ImageBitmap, grid: FlatGrid): Promise<Sizes> {
  const worker = new Worker(new URL("flatten.worker.ts", import.meta.url), { type: "module" });
  try {
    const picture = await createImageBitmap(whole);
    const flat = await new Promise<ImageBitmap>((resolve, reject) => {
      worker.addEventListener("message", ({ data }: MessageEvent<ImageBitmap>) => resolve(data));
      worker.addEventListener("error", (event) => reject(new Error(event.message || "a photograph could not be flattened")));
      const wish: FlattenWish = { picture, grid };
      worker.postMessage(wish, { transfer: [picture] });
    });
    return await inSizes(flat);
  } finally {
    worker.terminate();
  }
}

/**
 * @param plain shows it as it was taken, for marking its corners: at the scale that it has on the board about its first mark
 */
export function usePicture(photograph: Photograph | undefined, plain: boolean): PictureState {
  const [read, setRead] = useState<{ readonly of: string; readonly sizes: Sizes | undefined }>();
  const scale = photograph && scaleOf(photograph);
  const grid = photograph && scale?.by === "rectangle" && !plain ? flatGrid(photograph, scale, MOST_FLAT_PIXELS) : undefined;
  const key = photograph ? `${photograph.data.length} ${photograph.data.slice(-64)} ${grid ? JSON.stringify(grid) : ""}` : "";
  useEffect(() => {
    if (!photograph) return undefined;
    let here = true;
    const take = (sizes: Sizes | undefined): void => {
      if (here) setRead({ of: key, sizes });
    };
    (grid ? flatSizes(photograph, grid) : readSizes(photograph)).then(take, () => take(undefined));
    return () => {
      here = false;
    };
    // The key stands for the picture and its grid.
    // eslint-disable-next-line react/exhaustive-deps
  }, [key]);
  if (!photograph) return { state: "none" };
  if (read?.of !== key) return { state: "busy" };
  const toBoard = read.sizes && (grid ? laid(photograph, grid.toPlane) : plainMap(photograph, scale));
  return read.sizes && toBoard ? { state: "shown", sizes: read.sizes, toBoard } : { state: "broken" };
}

const laid = ({ at, turn }: Photograph, toPlane: Affine): Affine =>
  compose(toPlane, rotation((turn * Math.PI) / 180), translation(place(at)));

/** A picture as it was taken; a slanted one is shown about as large as its rectangle is. */
export function plainMap(photograph: Photograph, scale: PictureScale | undefined): Affine | undefined {
  const even: Photograph =
    scale?.by === "rectangle" && photograph.scale?.by === "rectangle"
      ? {
          ...photograph,
          scale: {
            by: "points",
            points: [photograph.scale.corners[0], photograph.scale.corners[1]],
            length: photograph.scale.across,
          },
        }
      : photograph;
  const h = boardPlane(even);
  return h && { ...IDENTITY, a: h[0], c: h[1], e: h[2], b: h[3], d: h[4], f: h[5] };
}
