import { describe, expect, it } from "vitest";
import { readFace } from "../../src/lettering/face.ts";
import { readFaceApart } from "../../src/lettering/face-reader.ts";
import type { FaceRequest } from "../../src/lettering/face.worker.ts";
import { madeFile } from "./font-files.ts";

const file = madeFile("strokes.otf");

/** Stands for a worker that answers as `answer` says; tells whether it was ended. */
function workerThat(answer: (request: FaceRequest, worker: EventTarget) => void): { start: () => Worker; ended: () => boolean } {
  let ended = false;
  const start = (): Worker => {
    const target = new EventTarget();
    return Object.assign(target, {
      postMessage: (request: FaceRequest) => answer(structuredClone(request), target),
      terminate: () => void (ended = true),
    }) as unknown as Worker;
  };
  return { start, ended: () => ended };
}

describe("reading a face in a worker", () => {
  it("gives what reading it here gives, and ends the worker", async () => {
    const { start, ended } = workerThat(({ bytes, wanted }, worker) =>
      worker.dispatchEvent(new MessageEvent("message", { data: structuredClone(readFace(bytes, wanted)) })),
    );
    expect(await readFaceApart(file, "AV", { start })).toEqual(readFace(file, "AV"));
    expect(ended()).toBe(true);
  });

  it("ends a worker that does not answer in time, and says so", async () => {
    const { start, ended } = workerThat(() => {});
    expect(await readFaceApart(file, "", { start, limitMs: 20 })).toMatchObject({ ok: false, error: { kind: "time" } });
    expect(ended()).toBe(true);
  });

  it("rejects where the worker itself fails: that is a bug, not a damaged file", async () => {
    const { start, ended } = workerThat((_, worker) =>
      worker.dispatchEvent(Object.assign(new Event("error"), { message: "x is not a function" })),
    );
    await expect(readFaceApart(file, "", { start })).rejects.toThrow("x is not a function");
    expect(ended()).toBe(true);
  });
});
