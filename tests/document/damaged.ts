/** Damage as it comes: files cut and flipped, values of another kind, nesting without end, numbers too large, names that mean something to the language. */
import * as fc from "fast-check";
import { readFileSync } from "node:fs";
import { strToU8 } from "fflate";

const whole = readFileSync(new URL("../data/designs/v1-full.json", import.meta.url), "utf8");
const bytes = strToU8(whole);

/** Values that stand in for others. */
const odd = fc.constantFrom<unknown>(null, true, 0, -1, 1e308, 1e9, "", "x", [], {}, [[]], { kind: "nut" }, "= = =", "\u0000", [
  "__proto__",
]);

/** The tree with the value at the nth place swapped, counted in the order of writing. */
function swapped(tree: unknown, nth: number, value: unknown): unknown {
  let left = nth;
  const walk = (node: unknown): unknown => {
    if (left-- === 0) return value;
    if (Array.isArray(node)) return node.map(walk);
    if (typeof node === "object" && node !== null)
      return Object.fromEntries(Object.entries(node).map(([key, child]) => [key, walk(child)]));
    return node;
  };
  return walk(tree);
}

const flips = fc.array(fc.tuple(fc.nat(bytes.length - 1), fc.nat(255)), { minLength: 1, maxLength: 20 }).map((changes) => {
  const damaged = bytes.slice();
  for (const [at, byte] of changes) damaged[at] = byte;
  return damaged;
});
const cuts = fc
  .tuple(fc.nat(bytes.length), fc.nat(bytes.length))
  .map(([a, b]) => new Uint8Array([...bytes.slice(0, Math.min(a, b)), ...bytes.slice(Math.max(a, b))]));
const swaps = fc
  .array(fc.tuple(fc.nat(200), odd), { minLength: 1, maxLength: 5 })
  .map((changes) =>
    JSON.stringify(changes.reduce<unknown>((tree, [nth, value]) => swapped(tree, nth, value), JSON.parse(whole))),
  );
const deep = fc
  .tuple(fc.constantFrom("[", '{"a":', '{"parts":', "[1,"), fc.nat(20_000))
  .map(([open, times]) => whole.replace('"kept": true', `"kept": ${open.repeat(times)}`));
const huge = fc
  .constantFrom("1e999", "-1e999", "9".repeat(400), "1e-999", "0.".padEnd(5000, "3"), "123456789012345678901234567890")
  .map((number) => whole.replace('"frets": 19', `"frets": ${number}`));
const prototypes = fc
  .tuple(
    fc.constantFrom("__proto__", "constructor", "prototype", "toString", "hasOwnProperty", "valueOf"),
    fc.constantFrom('"scale"', '"kind"', '"fingerboard"', '"order"', '"units"', '"value"'),
  )
  .map(([key, known]) => whole.replace(known, JSON.stringify(key)));
const texts = fc
  .tuple(fc.constantFrom('"24.9"', '"60 thou"', '"5 7 9 12 15"'), fc.string({ maxLength: 40 }))
  .map(([known, text]) => whole.replace(known, JSON.stringify(text)));

/** A design file after some damage. */
export const damagedFile: fc.Arbitrary<string | Uint8Array> = fc.oneof(
  { weight: 4, arbitrary: flips },
  { weight: 2, arbitrary: cuts },
  { weight: 6, arbitrary: swaps },
  deep,
  huge,
  prototypes,
  texts,
);
