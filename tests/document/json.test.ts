import * as fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { readJson, type JsonBounds } from "../../src/document/json.ts";

// A busy machine must not fail a property.
vi.setConfig({ testTimeout: 120_000 });

const BOUNDS: JsonBounds = { depth: 64, values: 100_000 };

const accepts = (text: string): boolean => readJson(text, BOUNDS).ok;
function nativeAccepts(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}
function mistakeIn(text: string, bounds = BOUNDS) {
  const read = readJson(text, bounds);
  if (read.ok) throw new Error(`${text} was read`);
  return read.error;
}

describe("JSON", () => {
  it("is read as the language's own parser reads it", () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 6 }), (text) => {
        const read = readJson(text, BOUNDS);
        if (/"(__proto__|constructor|prototype)"/.test(text)) return;
        expect(read.ok && read.value.value).toEqual(JSON.parse(text));
      }),
      { numRuns: 2000 },
    );
  });

  it("is accepted exactly where the language's own parser accepts it, after one character of it was changed", () => {
    fc.assert(
      fc.property(
        fc.json({ maxDepth: 4 }),
        fc.nat(),
        fc.constantFrom("", '"', "\\", ",", "}", "[", "0", "-", ".", "e", " ", "\n", "\u0001", "x"),
        (text, at, put) => {
          const place = at % text.length;
          const damaged = text.slice(0, place) + put + text.slice(place + 1);
          expect(accepts(damaged)).toBe(nativeAccepts(damaged));
        },
      ),
      { numRuns: 5000 },
    );
  });

  // Cases after the grammar of RFC 8259, sections 2 to 7, each written by hand.
  it.each([
    "[1.]",
    "[.5]",
    "[01]",
    "[+1]",
    "[1e]",
    "[-]",
    "[NaN]",
    "[Infinity]",
    "['a']",
    '["a\\x"]',
    '["\\u12G4"]',
    '["\t"]',
    "[1,]",
    '{"a":1,}',
    "{a:1}",
    "[1] 2",
    "[",
    "nul",
    "// a\n1",
    "",
  ])("refuses %j", (text) => {
    expect(accepts(text)).toBe(false);
  });
  it.each(["0", "-0.5e-3", '"\\u00e9\\n\\\\\\""', " [ ] ", '{"":{"":[]}}', "true", '"\u2028"', '"\\\\"', '["\\\\","\\""]'])(
    "reads %j",
    (text) => {
      const read = readJson(text, BOUNDS);
      expect(read.ok && read.value.value).toEqual(JSON.parse(text));
    },
  );

  it("names line and column of the first mistake, counted from 1", () => {
    expect(mistakeIn('{\n  "a": 1,\n  "b": NaN,\n  "c": 2 }')).toMatchObject({
      line: 3,
      column: 8,
      cutOff: false,
      message: "“NaN” is no value",
    });
    expect(mistakeIn('{"a": 1 "b": 2}')).toMatchObject({ line: 1, column: 9, cutOff: false });
  });

  it("tells at every place in a text whether it was cut off there", () => {
    const text = '{ "format": "x", "list": [1, -2.5e3, true, null, {"a": "b\\n"}] }';
    for (let end = 1; end < text.length; end++) expect(mistakeIn(text.slice(0, end)).cutOff, text.slice(0, end)).toBe(true);
  });

  it("leaves out keys that reach into the language's objects, and tells", () => {
    const read = readJson('{"a": {"__proto__": {"polluted": 1}, "constructor": 2, "b": 3}, "prototype": []}', BOUNDS);
    if (!read.ok) throw new Error(read.error.message);
    expect(read.value.value).toEqual({ a: { b: 3 } });
    expect(Object.getPrototypeOf((read.value.value as { a: object }).a)).toBe(Object.prototype);
    expect(read.value.omissions).toEqual([
      { path: "a.__proto__", what: "forbidden key" },
      { path: "a.constructor", what: "forbidden key" },
      { path: "prototype", what: "forbidden key" },
    ]);
  });

  it("leaves out numbers that no double holds, and tells; the last of two like keys stands, and that is told too", () => {
    const read = readJson('{"a": 1e999, "b": [1, -1e400, 2], "c": 1, "c": 2}', BOUNDS);
    expect(read).toEqual({
      ok: true,
      value: {
        value: { b: [1, 2], c: 2 },
        omissions: [
          { path: "a", what: "number too large" },
          { path: "b[1]", what: "number too large" },
          { path: "c", what: "key twice" },
        ],
      },
    });
  });

  it("refuses what is nested too deep or holds too much, without ending the stack", () => {
    expect(mistakeIn("[".repeat(1_000_000)).message).toMatch(/more than 64 deep/);
    expect(mistakeIn('{"a":'.repeat(1_000_000)).message).toMatch(/more than 64 deep/);
    expect(mistakeIn(`[${"1,".repeat(20)}1]`, { depth: 5, values: 20 }).message).toMatch(/more than 20 values/);
    expect(readJson("[".repeat(64) + "]".repeat(64), BOUNDS).ok).toBe(true);
  });
});
