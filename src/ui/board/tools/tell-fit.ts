/** Says how well what follows from a trace fits it. */
import { findingsOn, sentenceOf } from "../../../checks/findings.ts";
import type { Workbench } from "../../../store/workbench.ts";
import { tell } from "../../kit/tell.tsx";
import { say, wordsIn, type Notation } from "../../notation.ts";

export function tellFit(bench: Workbench, part: string, id: string, notation: Notation): void {
  const found = findingsOn(bench.design.getState().design, bench.derived.getState(), part).find((one) => one.id === id);
  if (!found) return;
  tell({
    title: sentenceOf(found, (value, quantity) => say(value, quantity, notation)),
    more: wordsIn(found.mend, notation),
    kind: found.severity,
  });
}
