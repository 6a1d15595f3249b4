/** Any parts of one instrument, derived from what a maker gives. */
import type { MeasuresByKind, PartKind } from "../../src/parts/contract.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { DerivedPart, DesignNumbers, Problem, RawRecord } from "../../src/parts/derived.ts";

export interface GivenParts {
  readonly instrument?: RawRecord;
  /** By kind, which is also the id. */
  readonly parts: Readonly<Record<string, RawRecord>>;
  readonly limits?: NonNullable<DesignNumbers["limits"]>;
}

export interface DerivedParts {
  readonly problems: readonly Problem[];
  readonly part: (kind: PartKind) => DerivedPart;
  readonly m: <K extends PartKind>(kind: K) => MeasuresByKind[K];
}

export function deriveParts({ instrument = {}, parts, limits }: GivenParts): DerivedParts {
  const derived = createDeriver()({
    units: "mm",
    instrument,
    parts: Object.fromEntries(Object.entries(parts).map(([kind, raw]) => [kind, { kind, ...raw }])),
    ...(limits ? { limits } : {}),
  });
  const part = (kind: PartKind): DerivedPart => {
    const found = [derived.instrument, ...derived.parts].find((one) => one.kind === kind);
    if (!found) throw new Error(`no ${kind}`);
    return found;
  };
  return {
    problems: derived.problems,
    part,
    m: <K extends PartKind>(kind: K) => part(kind).measures as MeasuresByKind[K],
  };
}
