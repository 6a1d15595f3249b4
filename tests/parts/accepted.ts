/** Random records that a table of parameters accepts, for property tests of any part. */
import * as fc from "fast-check";
import type { ParamTable } from "../../src/parts/contract.ts";
import type { AnySpec, RawRecord } from "../../src/parts/derived.ts";

/** Numbers of a spec: mostly usual ones, sometimes anything that is accepted. */
function numbers(spec: { min: number; max: number; usual?: { from: number; to: number } }, whole: boolean): fc.Arbitrary<number> {
  const between = (min: number, max: number): fc.Arbitrary<number> =>
    whole
      ? fc.integer({ min: Math.ceil(min), max: Math.floor(max) })
      : fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
  const all = between(spec.min, spec.max);
  return spec.usual
    ? fc.oneof({ weight: 4, arbitrary: between(spec.usual.from, spec.usual.to) }, { weight: 1, arbitrary: all })
    : all;
}

function acceptedBy(spec: AnySpec): fc.Arbitrary<unknown> {
  switch (spec.type) {
    case "length":
    case "number":
    case "optional-length":
      return numbers(spec, false);
    case "angle":
    case "optional-angle":
      // A bare angle in a record is in degrees.
      return numbers(spec, false).map((radians) => ((radians * 180) / Math.PI) * 0.999);
    case "count":
    case "optional-count":
      return numbers(spec, true);
    case "flag":
      return fc.boolean();
    case "text":
      return fc.string({ maxLength: spec.maxLength });
    case "choice":
      return fc.constantFrom(...spec.options.map((option) => option.value));
    case "counts":
      return fc.array(fc.integer({ min: spec.min, max: spec.max }), { maxLength: spec.maxItems });
    case "records":
      return fc.array(accepted(spec.of as unknown as ParamTable<unknown>, 0.7), { maxLength: spec.maxItems });
  }
}

/** Records of the table; each parameter is given with the probability `given`. */
export function accepted(table: ParamTable<unknown>, given = 0.3): fc.Arbitrary<RawRecord> {
  const fields = Object.entries(table as Record<string, AnySpec>).map(([key, spec]) =>
    fc
      .tuple(fc.integer({ min: 0, max: 999 }), acceptedBy(spec))
      .map(([chance, value]): RawRecord => (chance < given * 1000 ? { [key]: value } : {})),
  );
  return fc.tuple(...fields).map((records) => Object.assign({}, ...records) as RawRecord);
}
