import { zlibSync } from "fflate";
import { describe, expect, it } from "vitest";
import { readFace } from "../../src/lettering/face.ts";
import { bundledFile, fontFile, madeFile, tablesOf, withTable, type Tables } from "./font-files.ts";

const whole = tablesOf(madeFile("strokes.ttf"));
const kerned = tablesOf(madeFile("strokes.otf"));
const OTTO = 0x4f54544f;

const said = (bytes: Uint8Array): string => {
  const face = readFace(bytes);
  return face.ok ? "" : `${face.error.kind}: ${face.error.message}. ${face.error.mend}`;
};
const saidOf = (tables: Tables, signature?: number): string => said(fontFile(tables, signature));

/** Numbers written into a table, two bytes each. */
const put =
  (at: number, ...words: number[]) =>
  (table: Uint8Array) => {
    for (const [i, word] of words.entries()) table.set([(word >> 8) & 0xff, word & 0xff], at + 2 * i);
    return table;
  };
const text = (file: string): Uint8Array => new TextEncoder().encode(file);

/** A packed file of one table after the rules of WOFF 1.0. */
function packedFile(tag: string, packed: Uint8Array, length: number): Uint8Array {
  const file = new Uint8Array(64 + packed.length);
  const view = new DataView(file.buffer);
  file.set(text("wOFF"));
  view.setUint32(4, 0x00010000);
  view.setUint32(8, file.length);
  view.setUint16(12, 1);
  file.set(text(tag), 44);
  view.setUint32(48, 64);
  view.setUint32(52, packed.length);
  view.setUint32(56, length);
  file.set(packed, 64);
  return file;
}

describe("files that hold no face to cut", () => {
  it.each([
    ["nothing", new Uint8Array(), "is no font"],
    ["a text", text("Dear maker, this is a letter, but not of that kind."), "is no font"],
    ["WOFF2", text("wOF2\0\u0001\0\0........."), "WOFF2"],
    ["a collection", text("ttcf\0\u0001\0\0........."), "collection"],
    ["Type 1", text("%!PS-AdobeFont-1.0: Something"), "Type 1"],
  ])("are refused in plain words: %s", (_, bytes, words) => {
    expect(said(bytes)).toContain(words);
  });

  it("are refused where they hold pictures only, or outlines of an unknown kind", () => {
    const without = whole.filter(([tag]) => tag !== "glyf" && tag !== "loca");
    expect(saidOf([...without, ["CBDT", new Uint8Array(8)]])).toContain("pictures of its letters but no outlines");
    expect(saidOf([...without, ["CFF2", new Uint8Array(8)]])).toContain("CFF2");
    expect(saidOf(without)).toContain("no outlines");
  });
});

describe("files whose container is wrong", () => {
  it("are refused when a table does not match its checksum", () => {
    const file = madeFile("strokes.ttf");
    file[file.length - 200]! ^= 1;
    expect(said(file)).toMatch(/damaged: table \S+ does not match its checksum/);
  });

  it("are refused when cut short", () => {
    expect(said(madeFile("strokes.ttf").subarray(0, 1000))).toContain("lies beyond its end");
    expect(said(bundledFile("cinzel-latin-600-normal.woff").subarray(0, 9000))).toContain("not as long as it says");
  });

  it("are refused when a packed table unpacks to more than it says, without unpacking it", () => {
    expect(said(packedFile("glyf", zlibSync(new Uint8Array(30_000_000), { level: 9 }), 50_000))).toContain("more than it says");
    expect(said(packedFile("glyf", zlibSync(text("short")), 50_000))).toContain("less than it says");
    expect(said(packedFile("glyf", text("this is not packed at all"), 50_000))).toContain("does not unpack");
    expect(said(packedFile("glyf", zlibSync(text("short")), 0x7fffffff))).toContain("64 MB");
  });

  it("are refused when the header cannot be", () => {
    const head = (change: (table: Uint8Array) => Uint8Array): string => saidOf(withTable(whole, "head", change));
    expect(head(put(12, 0, 0))).toContain("magic");
    expect(head(put(18, 15))).toContain("15 units");
    expect(head(put(18, 16385))).toContain("16385 units");
    expect(head(put(18, 16))).toBe("");
    expect(saidOf(withTable(whole, "head", (table) => table.subarray(0, 40)))).toContain("head ends too early");
    expect(saidOf(withTable(whole, "cmap", () => undefined))).toContain("cmap is missing");
    expect(saidOf(withTable(whole, "hmtx", (table) => table.subarray(0, 20)))).toContain("hmtx ends too early");
    expect(saidOf([...whole, whole[0]!])).toContain("twice");
  });
});

describe("tables that would lead a reader astray", () => {
  /** The table of outlines with a composite glyph in the place of the one for "H" (glyph 3), made of `part`. */
  const madeOf = (part: number): Tables => {
    const loca = whole.find(([tag]) => tag === "loca")![1];
    const at = 2 * new DataView(loca.buffer, loca.byteOffset).getUint16(6);
    return withTable(whole, "glyf", put(at, 0xffff, 0, 0, 500, 700, 0x0003, part, 0, 0));
  };

  it("are refused: a letter made of itself, of nothing, or of parts without end", () => {
    expect(saidOf(madeOf(3))).toContain("made of itself");
    expect(saidOf(madeOf(900))).toContain("one that is not there");
  });

  it("are refused: outlines out of their table", () => {
    expect(saidOf(withTable(whole, "loca", put(8, 0xfff0)))).toContain("outline lies beyond");
  });

  it("are refused: a character map with endless ranges", () => {
    const map = new Uint8Array(12 + 28);
    put(0, 0, 1, 3, 10, 0, 12, 12, 0, 0, 28, 0, 0, 0, 1, 0, 32, 0x0010, 0xffff, 0, 1)(map);
    expect(saidOf(withTable(whole, "cmap", () => map))).toContain("letters that it does not hold");
    put(12 + 20, 0xffff, 0xffff)(map);
    expect(saidOf(withTable(whole, "cmap", () => map))).toContain("characters that are none");
  });

  it("are refused: kerning that names what is not there", () => {
    const gpos = kerned.find(([tag]) => tag === "GPOS")![1];
    const lookups = new DataView(gpos.buffer, gpos.byteOffset).getUint16(8);
    expect(saidOf(withTable(kerned, "GPOS", put(lookups, 1)), OTTO)).toContain("lookup that is not there");
    expect(
      saidOf(
        withTable(kerned, "GPOS", (table) => table.subarray(0, table.length - 20)),
        OTTO,
      ),
    ).toContain("GPOS ends too early");
  });

  it("leave a whole file readable", () => {
    expect(saidOf(whole)).toBe("");
    expect(saidOf(kerned, OTTO)).toBe("");
  });
});
