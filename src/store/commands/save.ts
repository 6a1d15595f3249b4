import { keep } from "../keep.ts";
import type { Saving } from "../session-store.ts";
import type { Workbench } from "../workbench.ts";

/**
 * Keeps the open design in this browser, unless another tab has saved it meanwhile: then neither copy is touched.
 * @returns the outcome, which also stands in the session
 */
export const save = (bench: Workbench): Promise<Saving> => bench.inTurn(() => keep(bench));
