import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { readFace } from "../../src/lettering/face.ts";
import { setLetters } from "../../src/lettering/lettering.ts";
import type { LetterSpec } from "../../src/lettering/letter-spec.ts";
import { bundledFile, fontFile, madeFile, tablesOf } from "./font-files.ts";
import { seeded } from "./seeded.ts";

const TTF = madeFile("strokes.ttf");
const OTF = madeFile("strokes.otf");
const PACKED = ["cinzel-latin-600", "pirata-one-latin-400", "great-vibes-latin-400"].map((name) =>
  bundledFile(`${name}-normal.woff`),
);
const FILES: readonly Uint8Array[] = [...PACKED, TTF, OTF];
/** Tables to damage; the small fonts oftener, since the large ones take long to read. */
const TABLES = [TTF, OTF, TTF, OTF, PACKED[0]!, TTF, OTF, PACKED[1]!].map((file) => ({
  tables: tablesOf(file),
  signature: file === OTF ? 0x4f54544f : 0x00010000,
}));

const spec: LetterSpec = {
  text: "HOV",
  size: { by: "em", value: 12 },
  tracking: 0,
  kerning: true,
  slant: 0,
  arrangement: { kind: "row" },
  nudges: [],
};

/** Processor time of the slowest single file, in which other programs have no part. */
let slowest = 0;

/** Reads the file and sets letters of it: a result or a reason, and nothing that is no number. */
function outcome(bytes: Uint8Array): "read" | "refused" {
  const before = process.cpuUsage();
  const face = readFace(bytes, spec.text);
  let result: "read" | "refused" = "refused";
  if (face.ok) {
    result = "read";
    const set = setLetters(spec, face.value);
    if (set.ok) {
      const { minX, minY, maxX, maxY } = set.value.bounds;
      expect([minX, minY, maxX, maxY].every(Number.isFinite)).toBe(true);
    } else expect(set.error.message.length).toBeGreaterThan(10);
  } else {
    expect(face.error.kind).toBe("file");
    expect(face.error.message.length).toBeGreaterThan(10);
    expect(face.error.mend).toMatch(/\.$/);
  }
  const { user, system } = process.cpuUsage(before);
  slowest = Math.max(slowest, (user + system) / 1e6);
  return result;
}

function flipped(bytes: Uint8Array, random: () => number): Uint8Array {
  const copy = bytes.slice();
  for (let n = 1 + Math.floor(random() * 4); n > 0; n--)
    copy[Math.floor(random() * copy.length)]! ^= 1 << Math.floor(random() * 8);
  return copy;
}

// The font library tells of strange operators on the console.
beforeAll(() => {
  for (const say of ["log", "warn", "error"] as const) vi.spyOn(console, say).mockImplementation(() => {});
});
afterAll(() => vi.restoreAllMocks());

describe("2,000 damaged font files", () => {
  it("flipped: 800 are refused, or read as the whole file is where the flip meant nothing", () => {
    const random = seeded(1);
    const whole = FILES.map((file) => JSON.stringify(faceKey(file)));
    for (let i = 0; i < 800; i++) {
      const at = i % FILES.length;
      const file = flipped(FILES[at]!, random);
      if (outcome(file) === "read") expect(JSON.stringify(faceKey(file))).toBe(whole[at]);
    }
  });

  it("cut short or stuffed: 400 are refused", () => {
    const random = seeded(2);
    for (let i = 0; i < 400; i++) {
      const file = FILES[i % FILES.length]!;
      const at = Math.floor(random() * file.length);
      const cut = file.subarray(0, at);
      const stuffed = Uint8Array.from([...cut, 0, 255, ...file.subarray(at)]);
      expect(outcome(i % 2 === 0 ? cut : stuffed)).toBe("refused");
    }
  });

  it("flipped within a table, checksums made to match: 800 are read or refused", () => {
    const random = seeded(3);
    const outcomes = { read: 0, refused: 0 };
    for (let i = 0; i < 800; i++) {
      const { tables, signature } = TABLES[i % TABLES.length]!;
      const aimed = ["glyf", "loca", "cmap", "GPOS", "kern", "hmtx", "CFF ", "head", "maxp", "hhea", "name", "OS/2"];
      const held = aimed.filter((tag) => tables.some(([name]) => name === tag));
      const tag = held[Math.floor(random() * held.length)]!;
      outcomes[
        outcome(
          fontFile(
            tables.map(([name, table]) => [name, name === tag ? flipped(table, random) : table]),
            signature,
          ),
        )
      ]++;
    }
    // Both ways are met, or the flips were too tame or too wild to try the readers behind the checksums.
    expect(outcomes.read).toBeGreaterThan(100);
    expect(outcomes.refused).toBeGreaterThan(100);
  });

  it("none of them takes a second of work", () => {
    expect(slowest).toBeGreaterThan(0);
    expect(slowest).toBeLessThan(1);
  });
});

/** What of a face matters, in a form that compares fast. */
function faceKey(file: Uint8Array): unknown {
  const face = readFace(file, spec.text);
  if (!face.ok) return face.error;
  const { glyphs, kerning, ...rest } = face.value;
  return [rest, [...glyphs], kerning.from, kerning.lookups.flat().length];
}
