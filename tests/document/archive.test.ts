import { strToU8, unzipSync, zipSync } from "fflate";
import * as fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { packArchive, unpackArchive } from "../../src/document/archive.ts";
import { fileNameOf } from "../../src/document/file-name.ts";

// A busy machine must not fail a property.
vi.setConfig({ testTimeout: 120_000 });

const archive = {
  designs: [
    { id: "a1", name: "27-tenor.json", text: '{"one": "é"}\n' },
    { id: "b2", name: "27-tenor.json", text: "{}" },
    { id: "c3", name: "design.json", text: "{}" },
  ],
  settings: { theme: "slate", printers: [{ name: "office", x: 1.002 }] },
};

describe("an archive of everything", () => {
  it("gives back every design and setting, designs of one name beside each other", () => {
    const unpacked = unpackArchive(packArchive(archive));
    expect(unpacked.ok && unpacked.value.settings).toEqual(archive.settings);
    expect(unpacked.ok && unpacked.value.designs.toSorted((a, b) => (a.id < b.id ? -1 : 1))).toEqual([
      archive.designs[0],
      { ...archive.designs[1], name: "27-tenor-2.json" },
      archive.designs[2],
    ]);
  });

  it("is a plain zip file of design files, the same bytes for the same content", () => {
    const bytes = packArchive(archive);
    expect(Object.keys(unzipSync(bytes)).toSorted()).toEqual([
      "designs/27-tenor-2.json",
      "designs/27-tenor.json",
      "designs/design.json",
      "gramil-archive.json",
    ]);
    expect(packArchive(archive)).toEqual(bytes);
  });

  it("is read without its list of contents, and with a list that is damaged", () => {
    const files = { "x/board.json": strToU8("{}"), "readme.txt": strToU8("hello") };
    const plain = unpackArchive(zipSync(files));
    expect(plain).toEqual({
      ok: true,
      value: { designs: [{ id: "x/board.json", name: "board.json", text: "{}" }], settings: {} },
    });
    expect(unpackArchive(zipSync({ ...files, "gramil-archive.json": strToU8('{"designs":[5,{"id":7}],"settings":[]') }))).toEqual(
      plain,
    );
  });

  it("is refused where it holds no designs, or is no zip file", () => {
    for (const bytes of [
      new Uint8Array(),
      strToU8("{}"),
      zipSync({ "a.txt": strToU8("a") }),
      packArchive({ designs: [], settings: {} }),
    ])
      expect(unpackArchive(bytes).ok).toBe(false);
  });

  it("never throws when its bytes are damaged, cut, or say more than they hold", () => {
    const whole = packArchive(archive);
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(whole.length - 1), fc.nat(255)), { maxLength: 12 }),
        fc.nat(whole.length),
        (changes, cut) => {
          const bytes = whole.slice(0, changes.length === 0 ? cut : whole.length);
          for (const [at, byte] of changes) bytes[at] = byte;
          const unpacked = unpackArchive(bytes);
          if (!unpacked.ok) expect(unpacked.error.mend).toMatch(/\.$/);
        },
      ),
      { numRuns: 2000 },
    );
  });
});

describe("the name of a design's file", () => {
  it("is its number and title, in letters and digits that every system takes", () => {
    expect(fileNameOf({ number: "27", title: "Tenor guitar, Ines" })).toBe("27-tenor-guitar-ines.json");
    expect(fileNameOf({ title: "../..\\:*?" })).toBe("design.json");
    expect(fileNameOf({ title: "Größe Élan" })).toBe("größe-élan.json");
    expect(fileNameOf({})).toBe("design.json");
  });
});
