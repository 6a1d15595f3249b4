/** The templates of a design as it says that they are made. */
import type { Design } from "../../document/design.ts";
import { instrumentsOf } from "../../document/copies.ts";
import { fingerprintOf } from "../../document/fingerprint.ts";
import type { Derived } from "../../parts/derived.ts";
import { makingsOf } from "../../parts/makings.ts";
import { createDeriver } from "../../parts/derive.ts";
import { mergeRuns } from "../../templates/copies.ts";
import { makePatterns, type Pattern } from "../../templates/patterns.ts";
import { templatesOf, type Template } from "../../templates/template.ts";
import { lengthInFull } from "../../units/format.ts";
import { notationOf } from "../notation.ts";

/** Every template with what is made of it, or why it cannot be made; of all copies of the design, each once for all that it serves. */
export function patternsOfAll(design: Design, derived: Derived): Pattern[] {
  const fingerprint = fingerprintOf(design);
  const [first, ...copies] = instrumentsOf(design);
  const own = patternsOf(design, derived, fingerprint);
  if (copies.length === 0) return own;
  return mergeRuns([
    { name: first!.name, patterns: own },
    ...copies.map((copy) => ({ name: copy.name, patterns: patternsOf(copy.design, createDeriver()(copy.design), fingerprint) })),
  ]);
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
