/** The templates of a design as it says that they are made. */
import type { Design } from "../../document/design.ts";
import { copyKey, instrumentsOf } from "../../document/copies.ts";
import { fingerprintOf } from "../../document/fingerprint.ts";
import type { Derived, DeriveOther } from "../../parts/derived.ts";
import { makingsOf } from "../../parts/makings.ts";
import { mergeRuns } from "../../templates/copies.ts";
import { makePatterns, type Pattern } from "../../templates/patterns.ts";
import { templatesOf, type Template } from "../../templates/template.ts";
import { lengthInFull } from "../../units/format.ts";
import { notationOf } from "../notation.ts";

/** The patterns of a design and its copies, and whether some of their lines are still being worked out. */
export interface AllPatterns {
  readonly patterns: readonly Pattern[];
  readonly waiting: boolean;
}

/** Made last: who comes back to the sheets finds the same objects, and so the same sheets. */
let last: { readonly from: readonly unknown[]; readonly all: AllPatterns } | undefined;

/** Every template with what is made of it, or why it cannot be made; of all copies of the design, each once for all that it serves. */
export function patternsOfAll(design: Design, derived: Derived, deriveOther: DeriveOther): AllPatterns {
  const [first, ...copies] = instrumentsOf(design);
  const run = copies.map((copy, i) => ({ ...copy, derived: deriveOther(copyKey(i), copy.design) }));
  const from = [design, derived, ...run.map((copy) => copy.derived)];
  if (last?.from.length === from.length && from.every((one, i) => one === last!.from[i])) return last.all;
  const fingerprint = fingerprintOf(design);
  const own = patternsOf(design, derived, fingerprint);
  const patterns =
    copies.length === 0
      ? own
      : mergeRuns([
          { name: first!.name, patterns: own },
          ...run.map((copy) => ({ name: copy.name, patterns: patternsOf(copy.design, copy.derived, fingerprint) })),
        ]);
  last = { from, all: { patterns, waiting: derived.waiting || run.some((copy) => copy.derived.waiting) } };
  return last.all;
}

/** The same of the design alone. */
export function patternsOf(design: Design, derived: Derived, fingerprint = fingerprintOf(design)): Pattern[] {
  const notation = notationOf(design);
  return makePatterns(templatesOf(derived), makingsOf(design, derived), {
    say: (mm) => lengthInFull(mm, notation),
    number: design.order?.number ?? "",
    fingerprint,
  });
}

/** Those that can be made. */
export const madeOf = (patterns: readonly Pattern[]): Template[] => patterns.flatMap(({ made }) => (made.ok ? [made.value] : []));
