/** A design file that ends in the middle: what stands whole in it is kept as it was, and nothing else. */
import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { readDesign } from "../../src/document/read.ts";
import { isRecord, madeUp } from "./made-up.ts";

const root = resolve(import.meta.dirname, "../..");
const files = [
  ...readdirSync(join(root, "examples")).map((name) => join("examples", name)),
  "tests/data/designs/v1-full.json",
].map((name) => ({ name, text: readFileSync(join(root, name), "utf8") }));

/** A third of all places in each run. */
const STEP = process.env["GRAMIL_ALL"] ? 1 : 3;

function opened(text: string) {
  const read = readDesign(text);
  if (!read.ok) throw new Error(read.message);
  return read;
}

describe.each(files)("$name, cut anywhere", ({ text }) => {
  const whole = text.trimEnd().length;
  const { design } = opened(text);

  it("is refused with a reason, or opens with nothing in it that the whole file does not say, and with a word of where it ends", () => {
    const wrong: string[] = [];
    let before = 0;
    for (let end = 1; end < whole; end += STEP) {
      const read = readDesign(text.slice(0, end));
      const kept = read.ok ? JSON.stringify(read.design).length : 0;
      if (kept < before) wrong.push(`${end}: less is kept than of a shorter piece`);
      before = kept;
      if (!read.ok) {
        if (!/^only a part of the file is there: .*\(line \d+, column \d+\)$/.test(read.message))
          wrong.push(`${end}: ${read.message}`);
        continue;
      }
      if (!read.damaged) wrong.push(`${end}: taken for whole`);
      if (!/^the file ends behind this, in the middle \(line \d+, column \d+\)/.test(read.repairs[0]?.says ?? ""))
        wrong.push(`${end}: its end is not told`);
      for (const path of madeUp(read.design, design, "")) wrong.push(`${end}: ${path}`);
    }
    expect(wrong).toEqual([]);
    expect(before, "all but the last sign is there").toBeGreaterThan(0.9 * JSON.stringify(design).length);
  });
});

/** The same file with the keys of every record in the order of the alphabet, as another program may write it. */
const sorted = (value: unknown): unknown =>
  Array.isArray(value)
    ? value.map(sorted)
    : isRecord(value)
      ? Object.fromEntries(
          Object.keys(value)
            .toSorted()
            .map((key) => [key, sorted(value[key])]),
        )
      : value;

describe.each(files)("$name with its units at the end", ({ text }) => {
  it("is refused where they are lost, since its inches would become millimetres", () => {
    const other = JSON.stringify(sorted(JSON.parse(text)), undefined, 1);
    const units = other.lastIndexOf('"units"');
    for (let end = other.indexOf('"nutWidth"'); end <= units + 8; end += 50)
      expect(readDesign(other.slice(0, end)).ok).toBe(false);
    expect(readDesign(other)).toMatchObject({ ok: true, damaged: false });
  });
});

describe("what a cut goes through is left out", () => {
  const lines = (...more: string[]): string =>
    ['{"format":"gramil-design","version":1,"units":"mm","instrument":{"scale":"650","frets":1', ...more].join("");

  it("a number whose end is not there, since 18 may have stood where 1 does", () => {
    expect(opened(lines()).design.instrument).toEqual({ scale: "650" });
    expect(opened(lines("8")).design.instrument).toEqual({ scale: "650" });
    expect(opened(lines("8", "}")).design.instrument).toEqual({ scale: "650", frets: 18 });
  });

  it("a text that is not closed, and a key without a value", () => {
    expect(opened(lines("8", ',"nutWidth":"4')).design.instrument).toEqual({ scale: "650", frets: 18 });
    expect(opened(lines("8", ',"nutWidth"')).design.instrument).toEqual({ scale: "650", frets: 18 });
  });

  it("a list as a whole, so that six strings never become four", () => {
    expect(opened(lines("8", ',"strings":["1","2",')).design.instrument).toEqual({ scale: "650", frets: 18 });
    expect(opened(lines("8", ',"strings":["1","2"],')).design.instrument).toEqual({
      scale: "650",
      frets: 18,
      strings: ["1", "2"],
    });
  });

  it("a measured value as a whole, since what stands behind it says whether it leads", () => {
    const measured = (end: string) =>
      opened(lines("8", '},"parts":{},"measured":{"instrument.scale":{"value":"651"', end)).design;
    expect(measured(',"leads":fal')).not.toHaveProperty("measured.instrument.scale");
    expect(measured(',"leads":false}}').measured).toEqual({ "instrument.scale": { value: "651", leads: false } });
  });

  it("and the zeros that a failing disk wrote over the rest are no more than an end", () => {
    expect(opened(lines("8", "}", "\0".repeat(500))).design.instrument).toEqual({ scale: "650", frets: 18 });
    expect(opened(lines("8", ',"nutWidth":"4', "\0".repeat(500))).design.instrument).toEqual({ scale: "650", frets: 18 });
  });

  it("and the place and the loss are told", () => {
    expect(opened(lines("8", ',"nutWidth":"4')).repairs).toEqual([
      {
        path: "instrument.frets",
        says: "the file ends behind this, in the middle (line 1, column 104): whatever followed is lost",
      },
      { path: "parts", says: "it was missing: now an empty record" },
    ]);
  });
});
