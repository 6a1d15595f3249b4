/** Random designs for property tests: known numbers with texts as makers type them, and keys that no version knows. */
import * as fc from "fast-check";
import type { Design } from "../../src/document/design.ts";

const LENGTHS = [
  "1 11/16 in",
  '1-11/16"',
  "43/64",
  '.095"',
  "95 thou",
  "1.2mm",
  "42,86 mm",
  "25.4",
  "= nutWidth - 2 * 0.095 in",
  "not a length",
  "",
  "½",
  "2' 1\"",
];
export const length = fc.oneof(
  fc.constantFrom(...LENGTHS),
  fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e6, max: 1e6 }).map((n) => n + 0),
);

const FORBIDDEN = ["__proto__", "constructor", "prototype"];
const key = fc.string({ minLength: 1, maxLength: 8 }).filter((k) => !FORBIDDEN.includes(k));
const json = fc
  .jsonValue({ maxDepth: 3 })
  .map((value) => JSON.parse(JSON.stringify(value)) as unknown)
  .filter((value) => !FORBIDDEN.some((k) => JSON.stringify(value).includes(k)));
/** Keys of no table: they begin as no known key does. */
const unknown = fc.dictionary(
  key.map((k) => `zz ${k}`),
  json,
  { maxKeys: 2 },
);

const some = <T extends Record<string, fc.Arbitrary<unknown>>>(known: T): fc.Arbitrary<Record<string, unknown>> =>
  fc.tuple(fc.record(known, { requiredKeys: [] }), unknown).map(([a, b]) => Object.assign({}, a, b));

const string = some({ gauge: length, wound: fc.boolean(), note: fc.string({ maxLength: 4 }) });
const instrument = some({
  handed: fc.constantFrom("left", "right", "both"),
  strings: fc.array(fc.oneof(string, length), { maxLength: 8 }),
  courses: fc.oneof(fc.array(fc.nat(4), { maxLength: 8 }), fc.constant("1 1 2 2")),
  scale: length,
  bassScale: length,
  frets: fc.oneof(fc.nat(40), fc.constant("20")),
  zeroFret: fc.boolean(),
  nutWidth: length,
  nutSpread: length,
  saddleSpread: length,
});
const fingerboard = some({
  widthAtJoin: length,
  overhang: length,
  end: fc.constantFrom("square", "curved"),
  radius: length,
  binding: fc.oneof(length, fc.array(some({ name: fc.string(), thickness: length }), { maxLength: 3 })),
  markerFrets: fc.array(fc.nat(36), { maxLength: 5 }),
}).map((record) => Object.assign({}, record, { kind: "fingerboard" }));
const part = fc.oneof(
  fingerboard,
  fc.constant({ kind: "nut" }),
  unknown.map((record) => Object.assign({}, record, { kind: "of-a-later-version" })),
);
const partId = fc.constantFrom("fingerboard", "nut", "board2", "x_y", "ünter-brett", "toString");

const numbers = {
  units: fc.constantFrom("in" as const, "mm" as const),
  instrument,
  parts: fc.dictionary(partId, part, { maxKeys: 4 }),
  measured: fc.dictionary(
    fc.constantFrom("instrument.nutWidth", "parts.fingerboard.overhang"),
    fc.tuple(length, unknown).map(([value, rest]) => Object.assign({ value, date: "2025-01-01" }, rest)),
    { minKeys: 1 },
  ),
  limits: fc.dictionary(fc.constantFrom("a.b.c", "fingerboard.x.y"), length, { minKeys: 1 }),
  templates: fc.dictionary(
    fc.constantFrom("fingerboard", "fingerboard/blank-outline", "nut/blank", "gone/outline"),
    some({ follow: fc.constantFrom("bush", "moved"), bush: length, bit: length, mirrored: fc.boolean(), pin: length }),
    { minKeys: 1 },
  ),
};
const frozen = fc.record(numbers, { requiredKeys: ["units", "instrument", "parts"] });
const words = fc.string({ maxLength: 12 });
const cut = fc
  .tuple(
    fc.record(
      { date: words, part: words, template: words, fingerprint: words, numbers: frozen, material: words },
      { requiredKeys: ["date", "part", "template", "fingerprint", "numbers"] },
    ),
    unknown,
  )
  .map(([a, b]) => Object.assign({}, a, b));

export const design: fc.Arbitrary<Design> = fc
  .tuple(
    fc.record(
      {
        ...numbers,
        fractions: fc.boolean(),
        order: some({
          title: words,
          player: words,
          number: words,
          notes: words,
          status: fc.constant("done"),
          reference: fc.dictionary(key, length, { maxKeys: 3 }),
        }),
        cuts: fc.array(cut, { maxLength: 2 }),
      },
      { requiredKeys: ["units", "instrument", "parts"] },
    ),
    unknown,
  )
  .map(([known, others]) => Object.assign({}, others, known, { format: "gramil-design", version: 1 }) as unknown as Design);
