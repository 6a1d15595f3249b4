import type { Trouble } from "../../document/design.ts";
import type { Result } from "../../units/result.ts";
import type { Workbench } from "../workbench.ts";

/** Brings a recent version of the open design back, as one step that can be undone. */
export async function restoreVersion(bench: Workbench, version: number): Promise<Result<void, Trouble>> {
  throw new Error("follows");
}
