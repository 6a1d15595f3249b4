import { addCut } from "../../document/cuts.ts";
import type { Cut } from "../../document/design.ts";
import { commit } from "../design-store.ts";
import type { Workbench } from "../workbench.ts";

/** Enters that a template was cut, with the numbers as they are now. */
export function recordCut(bench: Workbench, cut: Pick<Cut, "date" | "part" | "template" | "material" | "note">): void {
  commit(bench.design, addCut(bench.design.getState().design, cut), { label: "record of a cut" });
}
