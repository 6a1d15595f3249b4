/** A design file with a mistake in its middle: what is certain of it stands as it was, the rest is named, and no value is made up. */
import * as fc from "fast-check";
import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { strFromU8, strToU8 } from "fflate";
import { describe, expect, it, vi } from "vitest";
import { readDesign } from "../../src/document/read.ts";
import { madeUp } from "./made-up.ts";

vi.setConfig({ testTimeout: 300_000 });

const root = resolve(import.meta.dirname, "../..");
const files = [
  ...readdirSync(join(root, "examples")).map((name) => join("examples", name)),
  "tests/data/designs/v1-full.json",
].map((name) => ({ name, text: readFileSync(join(root, name), "utf8") }));

const isJson = (text: string): boolean => {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
};

function opened(text: string | Uint8Array) {
  const read = readDesign(text);
  if (!read.ok) throw new Error(read.message);
  return read;
}

/** A byte put for another, put in or taken out, more often one that gives the file its form. */
const slip = fc.record({
  at: fc.noBias(fc.nat()),
  how: fc.constantFrom("put for", "put in", "taken out"),
  byte: fc.oneof(fc.nat(255), fc.constantFrom(...strToU8('"{}[],:\\\n\r 0159-'))),
  onForm: fc.boolean(),
});
type Slip = typeof slip extends fc.Arbitrary<infer T> ? T : never;

function slipped(bytes: Uint8Array, { at, how, byte, onForm }: Slip): { readonly bytes: Uint8Array; readonly line: number } {
  const forms = [...bytes.keys()].filter((i) => '"{}[],:\n'.includes(String.fromCharCode(bytes[i]!)));
  const place = onForm ? forms[at % forms.length]! : at % bytes.length;
  const after = how === "put in" ? place : place + 1;
  return {
    bytes: new Uint8Array([...bytes.slice(0, place), ...(how === "taken out" ? [] : [byte]), ...bytes.slice(after)]),
    line: bytes.slice(0, place).filter((one) => one === 10).length + 1,
  };
}

const counts = { read: 0, opened: 0, entries: 0, kept: 0 };
/** A tenth of all cases in each run. */
const RUNS = process.env["GRAMIL_ALL"] ? 1500 : 150;

describe.each(files)("$name with a byte wrong anywhere", ({ text }) => {
  const { design } = opened(text);
  const size = JSON.stringify(design).length;

  it.each([
    ["as it is written", text],
    ["on one line", JSON.stringify(JSON.parse(text))],
  ])("%s: holds nothing that the whole file does not say", (form, source) => {
    const bytes = strToU8(source);
    fc.assert(
      fc.property(slip, (one) => {
        const damaged = slipped(bytes, one);
        // What is JSON still may say something else now: no reader can tell.
        if (isJson(strFromU8(damaged.bytes))) return;
        const start = process.cpuUsage();
        const read = readDesign(damaged.bytes);
        const { user, system } = process.cpuUsage(start);
        expect(user + system).toBeLessThan(1_000_000);
        if (form !== "on one line") counts.read++;
        else if (!read.ok) return;
        if (!read.ok) {
          // Where it says what it is, or the instrument begins.
          expect(text.split("\n")[damaged.line - 1]).toMatch(/^\{|^  "(format|version|units|instrument)"/);
          return;
        }
        expect(read.damaged).toBe(true);
        expect(read.repairs.length).toBeGreaterThan(0);
        expect(madeUp(read.design, design, "")).toEqual([]);
        if (form === "on one line") return;
        counts.opened++;
        counts.entries += size;
        counts.kept += JSON.stringify(read.design).length;
      }),
      { numRuns: RUNS },
    );
  });
});

it("most files open, with nearly all of what they say", () => {
  expect(counts.read).toBeGreaterThan(RUNS);
  expect(counts.opened).toBeGreaterThan(0.9 * counts.read);
  expect(counts.kept).toBeGreaterThan(0.9 * counts.entries);
});

describe("a mistake of the hand", () => {
  const nylon = files.find(({ name }) => name.endsWith("nylon-650.json"))!.text;
  const whole = opened(nylon).design;
  const after = (from: string | RegExp, to: string) => {
    const text = nylon.replace(from, to);
    expect(text).not.toBe(nylon);
    return opened(text);
  };

  it("a comma too many or too few is put right where the value beside it is closed", () => {
    const title = after('"Nylon-string, 650",', '"Nylon-string, 650"');
    expect(title.design).toEqual(whole);
    expect(title.repairs).toEqual([{ path: "order.title", says: "line 6: a comma is missing behind it: put in" }]);
    const part = after(/\},\n {4}"nut"/, '}\n    "nut"');
    expect(part.design).toEqual(whole);
    expect(part.repairs).toHaveLength(1);
    const last = after(/"\n {4}\},\n {4}"nut"/, '",\n    },\n    "nut"');
    expect(last.design).toEqual(whole);
    expect(last.repairs[0]!.says).toMatch(/^line \d+: a comma too many stands behind it: taken out$/);
  });

  it("a number beside it is left out by name, since a digit may be the sign that is wrong", () => {
    const { design, repairs } = after(/("frets": 19),/, "$1");
    expect(design.instrument).not.toHaveProperty("frets");
    expect(repairs[0]).toMatchObject({ path: "instrument.frets", says: expect.stringContaining("left out") });
    expect(design.parts).toEqual(whole.parts);
  });

  it("words without quotes, and a remark, are left out by name, and all else stands", () => {
    const { design, repairs } = after('"frets": 19', '"frets": NaN');
    expect(repairs).toEqual([
      { path: "instrument.frets", says: expect.stringMatching(/^line \d+: “"frets": NaN,” cannot be read: left out$/) },
    ]);
    expect({ ...design.instrument, frets: 19 }).toEqual(whole.instrument);
    const remark = after('    "frets": 19', '    // one more?\n    "frets": 19');
    expect(remark.design).toEqual(whole);
    expect(remark.repairs).toHaveLength(1);
  });

  it("a part whose opening is lost is left out whole; one whose end is lost stands", () => {
    const { design, repairs } = after('"nut": {', '"nut": (');
    const { nut: _nut, ...parts } = whole.parts;
    expect(design.parts).toEqual(parts);
    expect(repairs[0]).toMatchObject({ path: "parts.nut", says: expect.stringContaining("the sign that opens it is lost") });
    const end = after(/\},\n {4}"nut"/, ')\n    "nut"');
    expect(end.repairs[0]!.says).toMatch(/the sign that closes it is lost: put in|cannot be read/);
    expect(end.design.parts).toEqual(whole.parts);
  });

  it("a list with a mistake in it is left out whole, so that six strings never become five", () => {
    const { design, repairs } = after('"note": "A2"', '"note": A2"');
    expect(design.instrument).not.toHaveProperty("strings");
    expect(repairs.map(({ path }) => path)).toContain("instrument.strings");
  });

  it("lines that are lost together leave out all up to the next section", () => {
    const at = nylon.indexOf('"frets"');
    const to = nylon.indexOf('"parts"') + 60;
    const { design, repairs } = opened(nylon.slice(0, at) + "\0".repeat(to - at) + nylon.slice(to));
    expect(design.instrument).toEqual(
      Object.fromEntries(Object.entries(whole.instrument).slice(0, Object.keys(whole.instrument).indexOf("frets"))),
    );
    expect(design.parts).toEqual({});
    const told = repairs.map(({ says }) => says).join();
    expect(told).toMatch(/nothing can be read beyond doubt: left out/);
    for (const id of Object.keys(whole.parts).slice(1)) expect(told).toContain(id);
  });

  it("units, version, format and instrument must be there", () => {
    for (const key of ["format", "version", "units", "instrument"])
      expect(readDesign(nylon.replace(`"${key}"`, `"${key}`))).toMatchObject({ ok: false });
  });
});
