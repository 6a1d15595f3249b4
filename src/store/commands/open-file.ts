import type { Trouble } from "../../document/design.ts";
import type { Repair } from "../../document/read.ts";
import type { Result } from "../../units/result.ts";
import type { Workbench } from "../workbench.ts";

/**
 * Opens a design from a file as a design of its own in this browser; the file stays as it is. A file that cannot be read leaves the open
 * design untouched.
 * @returns what had to be repaired
 */
export async function openFile(
  bench: Workbench,
  file: { readonly name: string; readonly bytes: Uint8Array },
  drop = false,
): Promise<Result<readonly Repair[], Trouble>> {
  throw new Error("follows");
}
