/** The true-size patterns of a whole design, ready to be laid on paper. */
import type { TemplateSource } from "../parts/contract.ts";
import type { Derived, DerivedPart } from "../parts/derived.ts";
import { partName } from "../parts/part-name.ts";

export interface Template extends TemplateSource {
  /** `<partId>/<name>`, unique within the design. */
  readonly id: string;
  readonly partId: string;
  /** "Fingerboard" */
  readonly partLabel: string;
  /** What could not be made as asked, in sentences; drawn on the template where it is. */
  readonly cautions?: readonly string[];
  /** Which instruments it serves, where a design has copies: "No. 21 and 22". */
  readonly serves?: string;
}

/** Every template of every part, in the order of the parts. A part with problems gives none. */
export function templatesOf(derived: Derived): Template[] {
  return [derived.instrument, ...derived.parts].flatMap((part) =>
    part.problems.length > 0 ? [] : part.templates().map((source) => templateOf(part, source)),
  );
}

const templateOf = (part: DerivedPart, source: TemplateSource): Template => ({
  ...source,
  id: `${part.id}/${source.name}`,
  partId: part.id,
  partLabel: partName(part),
});
