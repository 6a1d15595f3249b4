/** Templates that are no longer what was cut, as the places tell them. */
import { useMemo } from "react";
import { stateWords } from "../../report/content.ts";
import { cutStates } from "../../report/cut-state.ts";
import { isSame } from "../../templates/difference.ts";
import { useDerived, useDeriveOther, useDesign, useNotation } from "../bench.ts";
import { say } from "../notation.ts";

export interface ChangedCut {
  readonly partId: string;
  readonly template: string;
  /** "Fingerboard, fret slots" */
  readonly name: string;
  /** "No longer as cut on 2025-03-31: up to 0.4 mm off at fret 20." */
  readonly says: string;
}

/** Of every template that was cut its newest cut, where the lines are others now. */
export function useChangedCuts(): readonly ChangedCut[] {
  const design = useDesign();
  const derived = useDerived();
  const deriveOther = useDeriveOther();
  const notation = useNotation();
  return useMemo(() => {
    const newest = new Map(
      cutStates(design, derived, deriveOther).map((state) => [`${state.cut.part}/${state.cut.template}`, state]),
    );
    return [...newest.values()]
      .filter(({ difference, waiting }) => !waiting && !(difference && isSame(difference)))
      .map((state) => ({
        partId: state.cut.part,
        template: state.cut.template,
        name: state.name,
        says: `No longer as cut on ${state.cut.date}: ${stateWords(state, (mm) => say(mm, "length", notation))}.`,
      }));
  }, [design, derived, deriveOther, notation]);
}
