import { historyOf, isDirty } from "../design-store.ts";
import type { Saving } from "../session-store.ts";
import { writeDesign } from "../../document/write.ts";
import type { Workbench } from "../workbench.ts";

/**
 * Keeps the open design in this browser, unless another tab has saved it meanwhile: then neither copy is touched.
 * @returns the outcome, which also stands in the session
 */
export async function save(bench: Workbench): Promise<Saving> {
  throw new Error("follows");
}
