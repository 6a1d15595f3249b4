/** What is worked out of a part only when somebody asks for it, and then once. */
import type { Drawing } from "../drawing/drawing.ts";
import type { AnyPart } from "./any-part.ts";
import type { Finding, InPlace, Limits, OnHost, PointOutline, Sources, TemplateSource, Materials } from "./contract.ts";
import { withOwner } from "./on-host.ts";

export interface Later {
  readonly drawing: Once<Drawing>;
  readonly templates: Once<readonly TemplateSource[]>;
  readonly outlines: Once<readonly PointOutline[]>;
  readonly inPlace: Once<InPlace>;
  readonly materials: Once<Materials>;
  readonly findings: Once<readonly Finding[]>;
  readonly onHost: Once<OnHost | undefined>;
}

interface Once<T> {
  (): T;
  readonly isDone: () => boolean;
}

export const NOWHERE: InPlace = {};
export const NO_MATERIALS: Materials = { blanks: [] };

/** A part that has been measured, and where it stands in the design. */
interface Measured {
  readonly part: AnyPart;
  readonly id: string;
  readonly path: string;
  readonly p: unknown;
  readonly measures: unknown;
  readonly limits: Limits;
}

/** @param from what may still be read when it is asked for: what was there when the part was measured or taken over */
export function laterOf({ part, id, path, p, measures, limits }: Measured, from: Sources): Later {
  return {
    drawing: once(() => withPath(part.draw(p, measures, from, limits), path)),
    templates: once(() => part.templates(p, measures, from, limits)),
    outlines: once(() => part.outlines?.(p, measures, from) ?? []),
    inPlace: once(() => part.inPlace?.(p, measures, from) ?? NOWHERE),
    materials: once(() => part.materials?.(p, measures, from) ?? NO_MATERIALS),
    onHost: once(() => withOwner(part.onHost?.(p, measures, from), id)),
    findings: once(() =>
      part.checks.flatMap((check) => [...check.run({ p, m: measures, from, limits: limits[check.id] ?? {} })]),
    ),
  };
}

/** What has been asked for is taken from the one, and the rest from the other. */
export const askedOr = (asked: Later, rest: Later): Later => ({
  drawing: either(asked.drawing, rest.drawing),
  templates: either(asked.templates, rest.templates),
  outlines: either(asked.outlines, rest.outlines),
  inPlace: either(asked.inPlace, rest.inPlace),
  materials: either(asked.materials, rest.materials),
  onHost: either(asked.onHost, rest.onHost),
  findings: either(asked.findings, rest.findings),
});

const either = <T>(asked: Once<T>, rest: Once<T>): Once<T> => (asked.isDone() ? asked : rest);

/** A drawing whose dimensions name the numbers of this very part: a part writes its own as `.overhang`. */
const withPath = (drawing: Drawing, path: string): Drawing => ({
  ...drawing,
  dimensions: drawing.dimensions.map((dimension) =>
    dimension.edits?.startsWith(".") ? { ...dimension, edits: `${path}${dimension.edits}` } : dimension,
  ),
});

function once<T>(work: () => T): Once<T> {
  let done: { value: T } | undefined;
  return Object.assign(() => (done ??= { value: work() }).value, { isDone: () => done !== undefined });
}
