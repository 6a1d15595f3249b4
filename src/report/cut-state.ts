/** What was cut, and whether the templates of the present numbers still are what was cut. */
import { numbersOfCut } from "../document/cuts.ts";
import type { Cut, Design } from "../document/design.ts";
import { createDeriver } from "../parts/derive.ts";
import type { Derived } from "../parts/derived.ts";
import { makingsOf } from "../parts/makings.ts";
import { differenceOf, type Difference } from "../templates/difference.ts";
import { makePatterns } from "../templates/patterns.ts";
import { templatesOf, type Template } from "../templates/template.ts";

export interface CutState {
  readonly cut: Cut;
  /** "Fingerboard, fret slots" */
  readonly name: string;
  /** Undefined: the template cannot be made now, or its numbers of then give none any more. */
  readonly difference: Difference | undefined;
}

/** The state of every cut in the record, in its order. */
export function cutStates(design: Design, derived: Derived): readonly CutState[] {
  const now = madeOf(design, derived);
  return (design.cuts ?? []).map((cut, index) => {
    const isIts = (one: Template): boolean => one.partId === cut.part && one.name === cut.template;
    const then = templatesThen(design, cut, index).find(isIts);
    const present = now.find(isIts);
    return {
      cut,
      name: then ? `${then.partLabel}, ${then.title.toLowerCase()}` : `${cut.part}, ${cut.template}`,
      difference: then && present && differenceOf(then.drawing, present.drawing),
    };
  });
}

const thens = new WeakMap<Cut, readonly Template[]>();

/** A cut and its numbers never change, so what was cut is worked out once. */
function templatesThen(design: Design, cut: Cut, index: number): readonly Template[] {
  const known = thens.get(cut);
  if (known) return known;
  const numbers = numbersOfCut(design, index);
  const templates = numbers.ok ? madeOf(numbers.value, createDeriver()(numbers.value)) : [];
  thens.set(cut, templates);
  return templates;
}

/** The lines of every template; its lettering does not matter here. */
const madeOf = (design: Design, derived: Derived): readonly Template[] =>
  makePatterns(templatesOf(derived), makingsOf(design, derived), {
    say: (mm) => `${mm} mm`,
    number: "",
    fingerprint: "",
  }).flatMap(({ made }) => (made.ok ? [made.value] : []));
