/** Reads one font file off the main thread. A bug of ours is thrown here and arrives as the worker's error. */
import { readFace } from "./face.ts";

/** What `face-reader.ts` asks. */
export interface FaceRequest {
  readonly bytes: Uint8Array;
  readonly wanted: string;
}

self.addEventListener("message", ({ data }: MessageEvent<FaceRequest>) => {
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- A worker has no other origin.
  self.postMessage(readFace(data.bytes, data.wanted));
});
