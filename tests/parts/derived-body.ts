/** A whole instrument, or the parts of one that a test asks for, from what a maker gives. */
import type { MeasuresByKind, PartKind } from "../../src/parts/contract.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { Derived, DerivedPart, RawRecord } from "../../src/parts/derived.ts";

export interface DerivedInstrument {
  readonly derived: Derived;
  readonly part: (kind: PartKind) => DerivedPart;
  readonly measures: <K extends PartKind>(kind: K) => MeasuresByKind[K];
}

export const WHOLE_INSTRUMENT: Readonly<Record<string, RawRecord>> = Object.fromEntries(
  ["fingerboard", "nut", "body", "neck", "headstock", "bridge", "soundhole", "sides", "bracing"].map((kind) => [kind, { kind }]),
);

/** Parts by kind, each with what is given of it; the instrument's own numbers under `instrument`. */
export function deriveInstrument(
  given: Readonly<Record<string, RawRecord>>,
  derive: (design: Parameters<ReturnType<typeof createDeriver>>[0]) => Derived = createDeriver(),
): DerivedInstrument {
  const { instrument = {}, ...parts } = given;
  const derived = derive({
    units: "mm",
    instrument,
    parts: Object.fromEntries(Object.entries(parts).map(([kind, raw]) => [kind, { kind, ...raw }])),
  });
  const part = (kind: PartKind): DerivedPart => {
    const found = derived.parts.find((one) => one.kind === kind);
    if (!found) throw new Error(`no ${kind}`);
    return found;
  };
  return {
    derived,
    part,
    measures: <K extends PartKind>(kind: K) => part(kind).measures as MeasuresByKind[K],
  };
}
