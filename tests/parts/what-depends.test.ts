/** What is worked out again when a number changes: only the parts that have read it, and never too few of them. */
import * as fc from "fast-check";
import { isDeepStrictEqual, types } from "node:util";
import { describe, expect, it } from "vitest";
import { createDeriver } from "../../src/parts/derive.ts";
import type { Derived, DerivedPart, RawRecord } from "../../src/parts/derived.ts";
import { arrange } from "../../src/parts/general-arrangement.ts";
import { REGISTRY } from "../../src/parts/registry.ts";
import { deriveInstrument, WHOLE_INSTRUMENT } from "./derived-body.ts";

type Given = Readonly<Record<string, RawRecord>>;
const THINGS = ["drawing", "templates", "outlines", "inPlace", "materials", "findings"] as const;
type Thing = (typeof THINGS)[number];
const everyOf = ({ instrument, parts }: Derived): readonly DerivedPart[] => [instrument, ...parts];

/** A deriver that notes the kinds of the parts which it measures. */
function watched(): { readonly derive: ReturnType<typeof createDeriver>; readonly measured: () => string[] } {
  let kinds: string[] = [];
  const derive = createDeriver(
    REGISTRY.map((part) => ({
      ...part,
      measure: (p, from) => {
        kinds.push(part.kind);
        return part.measure(p, from);
      },
    })),
  );
  const measured = (): string[] => {
    const seen = kinds.toSorted();
    kinds = [];
    return seen;
  };
  return { derive, measured };
}

const whole = (given: Given): Given => ({
  ...WHOLE_INSTRUMENT,
  ...Object.fromEntries(Object.entries(given).map(([kind, raw]) => [kind, { ...WHOLE_INSTRUMENT[kind], ...raw }])),
});
const strings = (note: string): RawRecord => ({
  strings: [
    { gauge: 1.3462, wound: true, note },
    { gauge: 1.0668, wound: true, note: "A2" },
    { gauge: 0.8128, wound: true, note: "D3" },
    { gauge: 0.6096, wound: true, note: "G3" },
    { gauge: 0.4064, wound: false, note: "B3" },
    { gauge: 0.3048, wound: false, note: "E4" },
  ],
});

/** The number, and which parts are measured anew. */
const CHANGES: readonly (readonly [string, Given, Given, string])[] = [
  // Strings run otherwise: over the board, the nut, the neck, to the tuners and to the bridge, which turns as the strings lie, and by it go the
  // hole's distance and the bridge plate. Body and sides know nothing of the strings' width.
  ["nutWidth", {}, { instrument: { nutWidth: 44 } }, "bracing bridge fingerboard headstock instrument neck nut soundhole"],
  [
    "saddleSpread",
    {},
    { instrument: { saddleSpread: 55 } },
    "bracing bridge fingerboard headstock instrument neck nut soundhole",
  ],
  // All but the nut's and the head's numbers are laid off from the join.
  ["joinFret", {}, { instrument: { joinFret: 13 } }, "body bracing bridge fingerboard instrument neck sides soundhole"],
  // The board grows to its end; the hole stands behind that and the braces about the hole. Nut and neck read the frets' lines.
  ["frets", {}, { instrument: { frets: 19 } }, "bracing fingerboard instrument neck nut soundhole"],
  // Frets, wire and the saddle's set-back; the body lies about the join, which stays.
  ["zeroFret", {}, { instrument: { zeroFret: true } }, "bracing bridge fingerboard headstock instrument neck nut soundhole"],
  // Everything follows the scale, and everything has a side.
  ["scale", {}, { instrument: { scale: 640 } }, "body bracing bridge fingerboard headstock instrument neck nut sides soundhole"],
  [
    "handed",
    {},
    { instrument: { handed: "left" } },
    "body bracing bridge fingerboard headstock instrument neck nut sides soundhole",
  ],
  // Read with its string by whoever reads strings; the bridge moves by it, and hole and bracing with the bridge.
  [
    "a string's note",
    { instrument: strings("E2") },
    { instrument: strings("D2") },
    "bracing bridge fingerboard headstock instrument neck nut soundhole",
  ],
  // How wide the lining is nobody else reads; how deep the sides are tells the braces of the back how they arch.
  ["liningWidth", {}, { sides: { liningWidth: 7 } }, "sides"],
  ["depthTail", {}, { sides: { depthTail: 110 } }, "bracing sides"],
  ["no number", {}, {}, ""],
];

describe("one number of a whole instrument", () => {
  it.each(CHANGES)("%s measures anew only what reads it", (_name, before, after, kinds) => {
    for (const isDrawn of [false, true]) {
      const { derive, measured } = watched();
      const first = deriveInstrument(whole(before), derive);
      if (isDrawn) askAll(first.derived);
      expect(measured()).toHaveLength(10);
      const then = deriveInstrument(whole(after), derive);
      if (isDrawn) askAll(then.derived);
      expect(measured().join(" ")).toBe(kinds);
      expect(then.derived.problems).toEqual([]);
      // Whatever was not measured anew is the very same.
      for (const part of everyOf(then.derived).filter(({ kind }) => !kinds.split(" ").includes(kind)))
        expect(part.measures).toBe(everyOf(first.derived).find(({ id }) => id === part.id)!.measures);
    }
  });
});

function askAll(derived: Derived): void {
  for (const part of everyOf(derived)) for (const thing of THINGS) part[thing]();
  arrange(derived);
}

/** What differs from the same design derived with nothing remembered. Of a part that is asked nothing no measure is looked at, as some wait for it. */
const differences = (derived: Derived, fresh: Derived, things: readonly (readonly [number, Thing])[]): string[] => {
  const [parts, others] = [everyOf(derived), everyOf(fresh)];
  const told = isDeepStrictEqual(derived.problems, fresh.problems) ? [] : ["problems"];
  const looked = new Set(things.map(([i]) => i % parts.length));
  const measured = parts.flatMap((part, i) => {
    const other = others[i]!;
    const own = looked.has(i) ? [part.measures, other.measures] : [];
    return isDeepStrictEqual([part.summary, part.fields, own[0]], [other.summary, other.fields, own[1]])
      ? []
      : [`${part.id} measures`];
  });
  const asked = things.flatMap(([i, thing]) => {
    const part = parts[i % parts.length]!;
    return isDeepStrictEqual(part[thing](), others[i % parts.length]![thing]()) ? [] : [`${part.id} ${thing}`];
  });
  return [...told, ...measured, ...asked];
};

/** The first place that holds something else than plain data, such as the view through which another part was read. */
function notPlain(value: unknown, path = ""): string | undefined {
  if (typeof value === "function") return path;
  if (typeof value !== "object" || value === null) return undefined;
  const kind: unknown = Object.getPrototypeOf(value);
  if (types.isProxy(value) || (kind !== Object.prototype && kind !== Array.prototype)) return path;
  for (const [key, inner] of Object.entries(value)) {
    const found = notPlain(inner, `${path}.${key}`);
    if (found !== undefined) return found;
  }
  return undefined;
}

const RING = { kind: "inlay", on: "headstock", text: "", ornaments: [{ figure: "ring", size: 12 }] };
/** The instrument, its nine parts, a guard, a port and an inlay. */
const PARTS = 13;
const ALL: readonly (readonly [number, Thing])[] = Array.from({ length: PARTS }, (_, i) =>
  THINGS.map((thing) => [i, thing] as const),
).flat();
const maybe = <T>(one: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> => fc.option(one, { nil: undefined, freq: 1 });
/** What one step changes; whatever is undefined keeps its last value. */
const step = fc.record({
  number: fc.oneof(
    fc.record({ nutWidth: fc.double({ min: 38, max: 50, noNaN: true }) }),
    fc.record({ nutMargin: fc.double({ min: 2.5, max: 4, noNaN: true }) }),
    fc.record({ saddleSpread: fc.double({ min: 48, max: 60, noNaN: true }) }),
    fc.record({ scale: fc.constantFrom(628, 645, 650) }),
    fc.record({ bassScale: fc.constantFrom(null, 660) }),
    fc.record({ joinFret: fc.integer({ min: 12, max: 14 }) }),
    fc.record({ frets: fc.integer({ min: 18, max: 21 }) }),
    fc.record({ zeroFret: fc.boolean() }),
    fc.record({ handed: fc.constantFrom("left", "right") }),
    fc.record({ marginTo: fc.constantFrom("edge", "centre") }),
    fc.constantFrom(strings("E2"), strings("D2"), strings("C2")),
  ),
  own: fc.oneof(
    fc.constant({}),
    fc.record({ body: fc.record({ cutaway: fc.constantFrom("none", "rounded", "pointed") }) }),
    fc.record({ body: fc.record({ topRadius: fc.constantFrom(null, 9000) }) }),
    fc.record({ body: fc.record({ topThickness: fc.constantFrom(2.6, 3) }) }),
    fc.record({ soundhole: fc.record({ diameter: fc.constantFrom(96, 102) }) }),
    fc.record({ sides: fc.record({ depthTail: fc.constantFrom(100, 110) }) }),
    fc.record({ bridge: fc.record({ type: fc.constantFrom("pinned", "tied") }) }),
    fc.record({ fingerboard: fc.record({ thickness: fc.constantFrom(6, 7) }) }),
    fc.record({ neck: fc.record({ heelDepth: fc.constantFrom(85, 95) }) }),
  ),
  without: maybe(fc.constantFrom("soundhole", "bridge", "nut", "sides")),
  asked: fc.oneof(
    fc.array(fc.tuple(fc.nat({ max: PARTS - 1 }), fc.constantFrom(...THINGS)), { maxLength: 12 }),
    fc.constant(ALL),
  ),
});

it("no view through which a part reads goes into a question: a worker could not take it", () => {
  const asked: unknown[] = [];
  createDeriver()(
    {
      units: "mm",
      instrument: {},
      parts: {
        headstock: { kind: "headstock" },
        inlay: { ...RING, templates: "one-inside" },
      },
    },
    { answer: (_asker, _work, question) => void asked.push(question) },
  );
  expect(asked.length).toBeGreaterThan(0);
  expect(asked.flatMap((question) => notPlain(question, "question") ?? [])).toEqual([]);
  expect(() => structuredClone(asked)).not.toThrow();
});

describe("after any changes", () => {
  it("everything is as if it had been derived for the first time, whatever was asked for in between and when", () => {
    fc.assert(
      fc.property(fc.array(step, { minLength: 2, maxLength: 5 }), fc.nat(), (steps, seed) => {
        const derive = createDeriver();
        let given: Given = { ...WHOLE_INSTRUMENT, pickguard: {}, port: {}, inlay: RING };
        const made = steps.map(({ number, own, without, asked }) => {
          const changed = Object.entries({ instrument: number, ...own } as Given);
          given = { ...given, ...Object.fromEntries(changed.map(([kind, raw]) => [kind, { ...given[kind], ...raw }])) };
          const design = Object.fromEntries(Object.entries(given).filter(([kind]) => kind !== without));
          const { derived } = deriveInstrument(design, derive);
          const fresh = deriveInstrument(design).derived;
          expect(differences(derived, fresh, asked)).toEqual([]);
          return { derived, fresh };
        });
        // The last is asked for all the rest in some order; the earlier ones, asked late, still tell of their own time.
        const order = ALL.map((_, i) => ALL[(i * 53 + seed) % ALL.length]!);
        for (const [i, { derived, fresh }] of made.toReversed().entries())
          expect(differences(derived, fresh, i === 0 ? order : order.slice(0, 12))).toEqual([]);
        for (const { derived } of made)
          expect(everyOf(derived).flatMap(({ id, measures }) => notPlain(measures, id) ?? [])).toEqual([]);
        expect(isDeepStrictEqual(arrange(made.at(-1)!.derived), arrange(made.at(-1)!.fresh))).toBe(true);
      }),
      { numRuns: 8 },
    );
  }, 240_000);
});
