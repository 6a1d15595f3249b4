import type { Design, Trouble } from "../../document/design.ts";
import type { Result } from "../../units/result.ts";
import type { Workbench } from "../workbench.ts";

/** Begins a design: a new one (see document/new-design.ts), an example, or a copy of an old order. Saved in this browser at once. */
export async function startDesign(bench: Workbench, design: Design, drop = false): Promise<Result<void, Trouble>> {
  throw new Error("follows");
}
