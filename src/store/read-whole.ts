import type { Trouble } from "../document/design.ts";
import { readDesign, type ReadDesign } from "../document/read.ts";
import { everyPart } from "../parts/registry.ts";
import type { Result } from "../units/result.ts";

/** Sees to it that the code of every part is here, before a design is read. Undefined: it is. */
export async function partsMissing(): Promise<Trouble | undefined> {
  try {
    await everyPart();
    return undefined;
  } catch {
    return { message: "what is needed for its parts has not come", mend: "Look to the connection and load the page anew." };
  }
}

/** Reads a design file, once the code of every part is here: what it says and what had to be repaired, or why it is refused. */
export async function readWhole(file: string | Uint8Array): Promise<Result<Extract<ReadDesign, { ok: true }>, Trouble>> {
  const missing = await partsMissing();
  if (missing) return { ok: false, error: missing };
  const read = readDesign(file);
  return read.ok ? { ok: true, value: read } : { ok: false, error: { message: read.message, mend: read.mend } };
}
