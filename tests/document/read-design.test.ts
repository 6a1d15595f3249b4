import { readFileSync } from "node:fs";
import { zlibSync, zipSync, gzipSync, strToU8 } from "fflate";
import { describe, expect, it } from "vitest";
import { MOST_BYTES, readDesign } from "../../src/document/read.ts";
import { writeDesign } from "../../src/document/write.ts";

const full = readFileSync(new URL("../data/designs/v1-full.json", import.meta.url), "utf8");
const minimal = { format: "gramil-design", version: 1, units: "mm", instrument: {}, parts: {} };
const file = (changes: object): string => JSON.stringify({ ...minimal, ...changes });

function refusal(source: string | Uint8Array) {
  const read = readDesign(source);
  if (read.ok) throw new Error("it was opened");
  expect(read.message).not.toMatch(/[.\n]$/);
  expect(read.mend).toMatch(/\.$/);
  return read.message;
}
function opened(source: string | Uint8Array) {
  const read = readDesign(source);
  if (!read.ok) throw new Error(read.message);
  return { design: read.design, repairs: read.repairs.map(({ path, says }) => `${path}: ${says}`) };
}

const bigEndian = (n: number): number[] => [n >>> 24, (n >>> 16) & 255, (n >>> 8) & 255, n & 255];

function pngChunk(type: string, data: Uint8Array): number[] {
  const body = [...strToU8(type), ...data];
  let crc = 0xffffffff;
  for (const byte of body) {
    crc ^= byte;
    for (let k = 0; k < 8; k++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return [...bigEndian(data.length), ...body, ...bigEndian(~crc >>> 0)];
}

/** A real picture of one black pixel: signature, IHDR, IDAT and IEND as in the PNG specification (W3C, third edition, 5 and 11). */
const png = new Uint8Array([
  ...strToU8("\u0089PNG\r\n\u001a\n", true),
  ...pngChunk("IHDR", new Uint8Array([0, 0, 0, 1, 0, 0, 0, 1, 8, 0, 0, 0, 0])),
  ...pngChunk("IDAT", zlibSync(new Uint8Array([0, 0]))),
  ...pngChunk("IEND", new Uint8Array()),
]);

describe("a file that is no design is refused in one line that says what it is", () => {
  it("empty, or blank", () => {
    expect(refusal("")).toBe("the file is empty");
    expect(refusal(new Uint8Array())).toBe("the file is empty");
    expect(refusal(" \n\t\n")).toBe("the file is empty");
  });

  it("a piece of a file that ends before anything is said of the instrument", () => {
    const bytes = strToU8(full);
    for (let end = 1; end < full.indexOf('"instrument"'); end++)
      expect(refusal(bytes.slice(0, end)), `cut at ${end}`).toMatch(
        /^only a part of the file is there: .*\(line \d+, column \d+\)$/,
      );
  });

  it("a picture, a page, an archive", () => {
    expect(refusal(png)).toBe("the file is a picture (PNG) and no design");
    expect(refusal(new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 16]))).toBe("the file is a picture (JPEG) and no design");
    expect(refusal(strToU8("RIFF\u0004\0\0\0WEBPVP8 ", true))).toBe("the file is a picture (WebP) and no design");
    expect(refusal(strToU8("%PDF-1.7\n"))).toBe("the file is a PDF and no design");
    expect(refusal(zipSync({ "a.json": strToU8("{}") }))).toBe("the file is a zip archive and no design");
    expect(refusal(gzipSync(strToU8(full)))).toBe("the file is a gzip archive and no design");
    expect(refusal(new Uint8Array([0xff, 0xfe, 0x7b, 0]))).toBe("the file is text in UTF-16 and no design");
    expect(refusal('<svg xmlns="http://www.w3.org/2000/svg"/>')).toBe("the file is no design");
    expect(refusal("hello")).toBe("the file is no design");
    expect(refusal(new Uint8Array(5000).fill(0xfe))).toBe("the file is no text");
    expect(refusal(new Uint8Array(200_000).fill(0x20, 0, 100_000).fill(0xfe, 100_000))).toBe("the file is no text");
  });

  it("JSON of another kind", () => {
    expect(refusal("{}")).toBe("the file is JSON, but no design");
    expect(refusal('{"format":"gramil-designs","version":1}')).toBe("the file is JSON, but no design");
    expect(refusal('[{"format":"gramil-design","version":1}]')).toBe("the file is JSON, but no design");
  });

  it("damaged JSON, with the place", () => {
    expect(refusal(full.replace('"units": "in"', '"units" "in"'))).toBe(
      "the file is damaged: a colon is missing behind a key (line 4, column 11)",
    );
    expect(refusal('{"format":"gramil-design","version":1,"units":"mm" "instrument":{}}')).toBe(
      'the file is damaged: a comma is missing before " (line 1, column 52)',
    );
  });

  it("too large, or nested too deep", () => {
    expect(refusal(new Uint8Array(MOST_BYTES + 1).fill(32))).toBe("the file is larger than 32 MB");
    expect(refusal(`{"format":"gramil-design","version":1,"x":${"[".repeat(200_000)}`)).toMatch(/deep in each other/);
  });

  it("of a later version, of the file or of a part in it", () => {
    expect(refusal(file({ version: 2 }))).toBe("the file is of version 2, and this Gramil knows versions up to 1");
    expect(refusal(file({ parts: { board: { kind: "fingerboard", version: 9 } } }))).toMatch(/^the part board is of version 9/);
    expect(refusal(file({ instrument: { version: 4 } }))).toMatch(/^the part instrument is of version 4/);
    expect(refusal(file({ version: "1" }))).toMatch(/no whole number/);
    expect(refusal(file({ version: 0 }))).toMatch(/no whole number/);
  });
});

describe("a damaged design opens as far as it can, and each thing left out is told", () => {
  it("says nothing of a whole file, with a byte order mark or without", () => {
    expect(opened(full).repairs).toEqual([]);
    expect(opened(strToU8(full)).repairs).toEqual([]);
    expect(opened(`\uFEFF${full}`).design).toEqual(opened(full).design);
    expect(opened(strToU8(`\uFEFF${full}`)).design).toEqual(opened(full).design);
  });

  it("leaves values of another type out, and list items one by one", () => {
    const { design, repairs } = opened(
      file({
        fractions: "yes",
        order: { title: 27, player: ["x"], status: "lost" },
        instrument: {
          scale: { mm: 650 },
          zeroFret: "true",
          handed: null,
          strings: ["0.01 in", true, { gauge: [], note: 5 }, null],
          courses: [2, "2", 2],
        },
        limits: { "a.b.c": false },
        measured: { "instrument.nutWidth": "43 mm", "instrument.scale": { how: "rule" }, x: 0 },
      }),
    );
    expect(design).toEqual({
      ...minimal,
      order: { title: "27" },
      instrument: { strings: ["0.01 in", { note: "5" }], courses: [2, 2] },
      limits: {},
      measured: { "instrument.nutWidth": { value: "43 mm" }, x: { value: 0 } },
    });
    expect(repairs.toSorted()).toEqual(
      [
        "fractions: it was a text and not true or false: left out",
        'order.title: it was the number 27: now the text "27"',
        "order.player: it was a list and not a text: left out",
        "order.status: it was a text and not one of in work, done, kept, scrapped: left out",
        "instrument.scale: it was a record and not a number or a text: left out",
        "instrument.zeroFret: it was a text and not true or false: left out",
        "instrument.handed: it was null and not a text: left out",
        "instrument.strings[1]: it was true and not a record: left out",
        "instrument.strings[2].gauge: it was a list and not a number or a text: left out",
        'instrument.strings[2].note: it was the number 5: now the text "5"',
        "instrument.strings[3]: it was null and not a record: left out",
        "instrument.courses[1]: it was a text and not a number: left out",
        "limits.a.b.c: it was false and not a number or a text: left out",
        "measured.instrument.nutWidth: the value stood there alone: now it stands in a record",
        "measured.instrument.scale: it had no value: left out",
        "measured.x: the value stood there alone: now it stands in a record",
      ].toSorted(),
    );
  });

  it("puts empty records for the instrument and the parts where there are none, and says that a bare number is taken for mm", () => {
    const { design, repairs } = opened('{"format":"gramil-design","version":1,"instrument":[],"units":"cm"}');
    expect(design).toEqual(minimal);
    expect(repairs).toEqual([
      'units: the units were "cm": now mm. Look at numbers typed without a unit',
      "instrument: it was a list: now an empty record",
      "parts: it was missing: now an empty record",
    ]);
  });

  it("keeps parts of unknown kinds, renames ids that no path can name, and leaves out what is no part", () => {
    const { design, repairs } = opened(
      file({
        parts: {
          "a.b": { kind: "nut" },
          "a-b2": { kind: "x", y: 1 },
          instrument: { kind: "nut" },
          "[0]": { kind: "nut" },
          n: 5,
          m: { kind: 5 },
          toString: { kind: "nut" },
        },
      }),
    );
    expect(Object.keys(design.parts)).toEqual(["a-b3", "a-b2", "instrument2", "nut2", "toString"]);
    expect(design.parts["a-b2"]).toEqual({ kind: "x", y: 1 });
    expect(repairs).toEqual([
      "parts.a.b: a part cannot be called so: it is a-b3 now",
      "parts.instrument: a part cannot be called so: it is instrument2 now",
      "parts.[0]: a part cannot be called so: it is nut2 now",
      "parts.n: it was 5 and not a part: left out",
      "parts.m: its kind was 5, so nobody knows what part it is: left out",
    ]);
  });

  it("leaves out a cut whose numbers are gone, and reads the frozen numbers of the others like a design's", () => {
    const whole = { date: "2025-01-02", part: "nut", template: "t", fingerprint: "f" };
    const numbers = { units: "in", instrument: { scale: true }, parts: {} };
    const { design, repairs } = opened(file({ cuts: [{ ...whole, numbers }, { ...whole, numbers: 5 }, 7, { numbers }] }));
    const frozen = { units: "in", instrument: {}, parts: {} };
    expect(design.cuts).toEqual([
      { ...whole, numbers: frozen },
      { date: "", part: "", template: "", fingerprint: "", numbers: frozen },
    ]);
    expect(repairs[0]).toBe("cuts[0].numbers.instrument.scale: it was true and not a number or a text: left out");
    expect(repairs[1]).toBe("cuts[1].numbers: the numbers were 5: the record of this cut is left out");
    expect(repairs).toHaveLength(8);
  });

  it("tells of characters that are no UTF-8, of numbers too large, and of keys that are not taken", () => {
    const bytes = strToU8(file({ order: { title: "xx" } }));
    bytes[bytes.indexOf(0x78)] = 0xff;
    expect(opened(bytes).repairs).toEqual([": 1 characters cannot be read: they stand as \uFFFD"]);
    const { design, repairs } = opened(
      '{"format":"gramil-design","version":1,"units":"mm","instrument":{"scale":1e999,"__proto__":{"frets":99}},"parts":{}}',
    );
    expect(design).toEqual(minimal);
    expect((design.instrument as { frets?: number }).frets).toBeUndefined();
    expect(repairs).toEqual([
      "instrument.scale: the number is larger than any can be: left out",
      "instrument.__proto__: a key of this name is not taken: left out",
    ]);
  });

  it("keeps a text that is no length as it was typed", () => {
    const { design, repairs } = opened(
      file({ instrument: { scale: "about 25 inches", nutWidth: "-4 mm", frets: "1000000000" } }),
    );
    expect(design.instrument).toEqual({ scale: "about 25 inches", nutWidth: "-4 mm", frets: "1000000000" });
    expect(repairs).toEqual([]);
  });

  it("gives a design that needs no second repair", () => {
    const { design } = opened(file({ instrument: { scale: [], strings: [1, {}, false] }, order: { title: 3 } }));
    expect(opened(writeDesign(design)).repairs).toEqual([]);
  });
});
