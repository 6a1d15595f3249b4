/** Which glyph stands for which character (OpenType specification: cmap, formats 4 and 12). */
import type { Bytes } from "./bytes.ts";
import type { FontTables } from "./font-tables.ts";
import { tableOf } from "./font-header.ts";
import { Damage } from "./trouble.ts";

/** Unicode subtables by platform and encoding, the one that reaches furthest first. */
const UNICODE = ["3/10", "0/6", "0/4", "3/1", "0/3", "0/2", "0/1", "0/0"];
/** Characters of a map at most: Unicode has no more than 160,000 that are assigned. */
const MOST_CHARACTERS = 200_000;

/**
 * Glyph numbers by code point, rising; characters mapped to glyph 0 ("no glyph") are left out. Throws `Damage` where the file holds no
 * Unicode map of a known format, or one that goes beyond its table or `glyphCount`.
 */
export function readCharacters(tables: FontTables, glyphCount: number): ReadonlyMap<number, number> {
  const cmap = tableOf(tables, "cmap", 4);
  const found = new Map<string, Bytes>();
  for (let i = 0; i < cmap.u16(2); i++) {
    const at = 4 + 8 * i;
    const key = `${cmap.u16(at)}/${cmap.u16(at + 2)}`;
    if (UNICODE.includes(key)) found.set(key, cmap.from(cmap.u32(at + 4)));
  }
  const best = UNICODE.flatMap((key) => found.get(key) ?? []).find((map) => map.u16(0) === 4 || map.u16(0) === 12);
  if (!best) throw new Damage("it does not say which letter is which in Unicode");
  const glyphs = new Map<number, number>();
  const add = (code: number, glyph: number): void => {
    if (glyph >= glyphCount) throw new Damage("it names letters that it does not hold");
    if (glyphs.size >= MOST_CHARACTERS) throw new Damage("it names more characters than there are");
    if (glyph > 0) glyphs.set(code, glyph);
  };
  if (best.u16(0) === 4) readSegments(best, add);
  else readGroups(best, add);
  return new Map([...glyphs].toSorted(([a], [b]) => a - b));
}

function readSegments(map: Bytes, add: (code: number, glyph: number) => void): void {
  const twice = map.u16(6);
  const ends = 14;
  const starts = 16 + twice;
  const deltas = starts + twice;
  const ranges = deltas + twice;
  for (let k = 0; k < twice; k += 2) {
    const end = map.u16(ends + k);
    const range = map.u16(ranges + k);
    for (let code = map.u16(starts + k); code <= end && code < 0xffff; code++) {
      // The range counts from its own place in the table.
      const listed = range === 0 ? code : map.u16(ranges + k + range + 2 * (code - map.u16(starts + k)));
      if (range === 0 || listed !== 0) add(code, (listed + map.u16(deltas + k)) & 0xffff);
    }
  }
}

function readGroups(map: Bytes, add: (code: number, glyph: number) => void): void {
  for (let i = 0; i < map.u32(12); i++) {
    const at = 16 + 12 * i;
    const start = map.u32(at);
    const end = map.u32(at + 4);
    if (end > 0x10ffff) throw new Damage("it names characters that are none");
    for (let code = start; code <= end; code++) add(code, map.u32(at + 8) + code - start);
  }
}
