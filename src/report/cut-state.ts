/** What was cut, and whether the templates of the present numbers still are what was cut. */
import { cutKey, numbersOfCut } from "../document/cuts.ts";
import type { Cut, Design } from "../document/design.ts";
import type { Derived, DeriveOther } from "../parts/derived.ts";
import { makingsOf } from "../parts/makings.ts";
import { differenceOf, type Difference } from "../templates/difference.ts";
import { lowerFirst } from "../sheets/words.ts";
import { makePatterns } from "../templates/patterns.ts";
import { templatesOf, type Template } from "../templates/template.ts";

export interface CutState {
  readonly cut: Cut;
  /** "Fingerboard, fret slots" */
  readonly name: string;
  /** Undefined: the template cannot be made now, or its numbers of then give none any more. */
  readonly difference: Difference | undefined;
  /** Not everything is worked out yet: what is said of it is not the last word. */
  readonly waiting: boolean;
}

/** The state of every cut in the record, in its order. */
export function cutStates(design: Design, derived: Derived, deriveOther: DeriveOther): readonly CutState[] {
  const now = madeOf(design, derived);
  return (design.cuts ?? []).map((cut, index) => {
    const isIts = (one: Template): boolean => one.partId === cut.part && one.name === cut.template;
    const cutFrom = templatesThen(design, cut, index, deriveOther);
    const then = cutFrom.templates.find(isIts);
    const present = now.find(isIts);
    return {
      cut,
      name: then ? `${then.partLabel}, ${lowerFirst(then.title)}` : `${cut.part}, ${cut.template}`,
      difference: then && present && differenceOf(then.drawing, present.drawing),
      waiting: derived.waiting || cutFrom.waiting,
    };
  });
}

interface CutFrom {
  readonly templates: readonly Template[];
  readonly waiting: boolean;
}
const NOTHING: CutFrom = { templates: [], waiting: false };

const thens = new WeakMap<Cut, CutFrom>();

/** A cut and its numbers never change, so what was cut is worked out once. */
function templatesThen(design: Design, cut: Cut, index: number, deriveOther: DeriveOther): CutFrom {
  const known = thens.get(cut);
  if (known) return known;
  const numbers = numbersOfCut(design, index);
  const derived = numbers.ok ? deriveOther(cutKey(index), numbers.value) : undefined;
  const then = numbers.ok && derived ? { templates: madeOf(numbers.value, derived), waiting: derived.waiting } : NOTHING;
  if (!then.waiting) thens.set(cut, then);
  return then;
}

/** The lines of every template; its lettering does not matter here. */
const madeOf = (design: Design, derived: Derived): readonly Template[] =>
  makePatterns(templatesOf(derived), makingsOf(design, derived), {
    say: (mm) => `${mm} mm`,
    number: "",
    fingerprint: "",
  }).flatMap(({ made }) => (made.ok ? [made.value] : []));
