import type { Trouble, Units } from "../../document/design.ts";
import { setUnits } from "../../document/set-units.ts";
import type { Result } from "../../units/result.ts";
import { commitResult } from "../commit-result.ts";
import type { Workbench } from "../workbench.ts";

/** Shows lengths in other units. No length changes: a number typed without its unit gets the unit that it was typed in. */
export function switchUnits(bench: Workbench, units: Units, fractions?: boolean): Result<void, Trouble> {
  return commitResult(bench, setUnits(bench.design.getState().design, units, fractions), { label: "units" });
}
