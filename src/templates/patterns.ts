/** Every template of a design as the design says that it is made. */
import type { Makings } from "../parts/makings.ts";
import { madeFrom } from "./edge.ts";
import { indexPins } from "./index-pins.ts";
import { makeTemplate, type Made, type MakingContext } from "./make.ts";
import type { Template } from "./template.ts";

/** A template as its part gives it, and as it is made. */
export interface Pattern {
  readonly source: Template;
  readonly made: Made;
  /** How far the joints between its sheets are moved, mm. */
  readonly joint: { readonly x: number; readonly y: number };
}

/** The moved joints of all that have some, by the template's id. */
export const jointsOf = (patterns: readonly Pattern[]): Readonly<Record<string, Pattern["joint"]>> =>
  Object.fromEntries(patterns.flatMap(({ source, joint }) => (joint.x === 0 && joint.y === 0 ? [] : [[source.id, joint]])));

/** Makes the templates; one that cannot be made says why, and the others are made all the same. */
export function makePatterns(sources: readonly Template[], makings: Makings, context: Omit<MakingContext, "pins">): Pattern[] {
  const pinsOf = new Map(
    [...new Set(sources.map(({ partId }) => partId))].map((partId) => {
      const shared = makings.shared(partId).value;
      return [
        partId,
        shared &&
          indexPins(
            sources.filter((source) => source.partId === partId),
            shared,
          ),
      ] as const;
    }),
  );
  return sources.map((source) => {
    const { value, problems } = makings.of(source.id, madeFrom(source));
    const problem = problems[0] ?? makings.shared(source.partId).problems[0];
    const joint = { x: value?.jointAcross ?? 0, y: value?.jointUp ?? 0 };
    if (!value || problem) return { source, joint, made: { ok: false, error: problem ?? { message: "", mend: "" } } };
    return { source, joint, made: makeTemplate(source, value, { ...context, pins: pinsOf.get(source.partId) }) };
  });
}
