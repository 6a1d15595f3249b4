/** A neck with its board and nut, derived from what a maker gives. */
import type { MeasuresByKind } from "../../../src/parts/contract.ts";
import { createDeriver } from "../../../src/parts/derive.ts";
import type { DerivedPart, DesignNumbers, Problem, RawRecord } from "../../../src/parts/derived.ts";

export interface Given {
  readonly neck?: RawRecord;
  readonly instrument?: RawRecord;
  readonly fingerboard?: RawRecord | undefined;
  readonly nut?: RawRecord;
  readonly limits?: NonNullable<DesignNumbers["limits"]>;
  readonly measured?: NonNullable<DesignNumbers["measured"]>;
}

export interface DerivedNeck {
  readonly problems: readonly Problem[];
  readonly part: DerivedPart;
  readonly m: MeasuresByKind["neck"];
  readonly instrument: MeasuresByKind["instrument"];
}

export function deriveNeck(given: Given = {}): DerivedNeck {
  const { neck = {}, instrument = {}, fingerboard = {}, nut = {}, limits, measured } = given;
  const derived = createDeriver()({
    units: "mm",
    instrument,
    parts: {
      ...("fingerboard" in given && given.fingerboard === undefined
        ? {}
        : { fingerboard: { kind: "fingerboard", ...fingerboard } }),
      nut: { kind: "nut", ...nut },
      neck: { kind: "neck", ...neck },
    },
    ...(limits ? { limits } : {}),
    ...(measured ? { measured } : {}),
  });
  const part = derived.parts.find(({ kind }) => kind === "neck")!;
  return {
    problems: derived.problems,
    part,
    m: part.measures as MeasuresByKind["neck"],
    instrument: derived.instrument.measures as MeasuresByKind["instrument"],
  };
}
