import { numbersOfCut } from "../../document/cuts.ts";
import type { Trouble } from "../../document/design.ts";
import type { Result } from "../../units/result.ts";
import { commitResult } from "../commit-result.ts";
import type { Workbench } from "../workbench.ts";

/** Brings back the numbers that a cut was made from; the order and the record of cuts stay. */
export function returnToCut(bench: Workbench, index: number): Result<void, Trouble> {
  return commitResult(bench, numbersOfCut(bench.design.getState().design, index), { label: "return to a cut" });
}
