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

/** Every template with what is made of it, or why it cannot be made; of all copies of the design, each once for all that it serves. */
export function patternsOfAll(design: Design, derived: Derived, deriveOther: DeriveOther): AllPatterns {
  const fingerprint = fingerprintOf(design);
  const [first, ...copies] = instrumentsOf(design);
  const own = patternsOf(design, derived, fingerprint);
  if (copies.length === 0) return { patterns: own, waiting: derived.waiting };
  const run = copies.map((copy, i) => ({ ...copy, derived: deriveOther(copyKey(i), copy.design) }));
  const patterns = mergeRuns([
    { name: first!.name, patterns: own },
    ...run.map((copy) => ({ name: copy.name, patterns: patternsOf(copy.design, copy.derived, fingerprint) })),
  ]);
  return { patterns, waiting: derived.waiting || run.some((copy) => copy.derived.waiting) };
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
