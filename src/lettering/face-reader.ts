import type { Result } from "../units/result.ts";
import type { Face } from "./face.ts";
import type { FaceRequest } from "./face.worker.ts";
import { trouble, type Trouble } from "./trouble.ts";

/** A sound face takes well under a second; one that takes longer hangs. */
const LIMIT_MS = 10_000;

const startWorker = (): Worker => new Worker(new URL("./face.worker.ts", import.meta.url), { type: "module" });

/**
 * What `readFace` gives for the file and the wanted characters, worked out in a worker of its own that is ended afterwards, and after
 * `limitMs` at the latest. Rejects where the worker itself fails.
 */
export function readFaceApart(
  bytes: Uint8Array,
  wanted = "",
  { limitMs = LIMIT_MS, start = startWorker }: { readonly limitMs?: number; readonly start?: () => Worker } = {},
): Promise<Result<Face, Trouble>> {
  return new Promise((resolve, reject) => {
    const worker = start();
    const end = (): void => {
      clearTimeout(timer);
      worker.terminate();
    };
    const timer = setTimeout(() => {
      end();
      resolve(trouble("time", "Reading the font file takes too long, so it was given up", "Choose another file of this face."));
    }, limitMs);
    worker.addEventListener("message", ({ data }: MessageEvent<Result<Face, Trouble>>) => {
      end();
      resolve(data);
    });
    worker.addEventListener("error", ({ message }) => {
      end();
      reject(new Error(`the reading of a font file failed: ${message}`));
    });
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- A worker has no other origin.
    worker.postMessage({ bytes, wanted } satisfies FaceRequest);
  });
}
