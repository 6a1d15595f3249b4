/** The small tables of a font that say how large it is and what it is called (OpenType specification: head, hhea, hmtx, maxp, OS/2, name). */
import { bytesOf, type Bytes } from "./bytes.ts";
import type { FontTables } from "./font-tables.ts";
import { Damage } from "./trouble.ts";

/** Lengths in font units, y up from the baseline. */
export interface FontHeader {
  readonly name: string;
  readonly unitsPerEm: number;
  readonly ascender: number;
  readonly descender: number;
  /** What the file itself says; undefined where it says nothing. */
  readonly capHeight: number | undefined;
  readonly xHeight: number | undefined;
  readonly glyphCount: number;
  /** Offsets of outlines are written in two bytes, not four. */
  readonly shortOffsets: boolean;
  /** Width and left bearing of a glyph below `glyphCount`. */
  readonly spacing: (glyph: number) => { readonly advance: number; readonly left: number };
}

/** Throws `Damage` where a table is missing, too short, or says what cannot be. */
export function readHeader(tables: FontTables): FontHeader {
  const head = tableOf(tables, "head", 54);
  const hhea = tableOf(tables, "hhea", 36);
  const maxp = tableOf(tables, "maxp", 6);
  const hmtx = tableOf(tables, "hmtx", 4);
  if (head.u32(12) !== 0x5f0f3cf5) throw new Damage("table head has no magic number");
  const unitsPerEm = head.u16(18);
  if (unitsPerEm < 16 || unitsPerEm > 16384) throw new Damage(`its em has ${unitsPerEm} units, outside 16 to 16384`);
  const glyphCount = maxp.u16(4);
  const measured = hhea.u16(34);
  if (glyphCount === 0 || measured === 0 || measured > glyphCount) throw new Damage("it counts its letters wrongly");
  // Glyphs beyond the measured ones share the last width and have only a bearing.
  if (hmtx.length < 4 * measured + 2 * (glyphCount - measured)) throw new Damage("table hmtx ends too early");
  return {
    name: nameOf(tables),
    unitsPerEm,
    ascender: hhea.i16(4),
    descender: hhea.i16(6),
    ...heightsOf(tables),
    glyphCount,
    shortOffsets: head.i16(50) === 0,
    spacing: (glyph) =>
      glyph < measured
        ? { advance: hmtx.u16(4 * glyph), left: hmtx.i16(4 * glyph + 2) }
        : { advance: hmtx.u16(4 * (measured - 1)), left: hmtx.i16(4 * measured + 2 * (glyph - measured)) },
  };
}

/** A table that must be there and hold at least `least` bytes. */
export function tableOf(tables: FontTables, tag: string, least: number): Bytes {
  const table = tables.get(tag);
  if (!table) throw new Damage(`table ${tag.trim()} is missing`);
  if (table.length < least) throw new Damage(`table ${tag.trim()} ends too early`);
  return bytesOf(table, `table ${tag.trim()}`);
}

/** Heights of x and of capitals stand in OS/2 from its version 2 on; 0 stands for unknown. */
function heightsOf(tables: FontTables): Pick<FontHeader, "capHeight" | "xHeight"> {
  if (!tables.get("OS/2")) return { capHeight: undefined, xHeight: undefined };
  const os2 = tableOf(tables, "OS/2", 2);
  const said = (at: number): number | undefined => {
    const height = os2.u16(0) >= 2 ? os2.i16(at) : 0;
    return height > 0 ? height : undefined;
  };
  return { capHeight: said(88), xHeight: said(86) };
}

const FULL_NAME = 4;
const WINDOWS = 3;
const MACINTOSH = 1;
const ENGLISH = 0x409;

/** The full name, in English where there is a choice; empty where the file gives none that can be read. */
function nameOf(tables: FontTables): string {
  if (!tables.get("name")) return "";
  const table = tableOf(tables, "name", 6);
  const strings = table.u16(4);
  let best = "";
  for (let i = 0; i < table.u16(2); i++) {
    const at = 6 + 12 * i;
    const platform = table.u16(at);
    if (table.u16(at + 6) !== FULL_NAME || (platform !== WINDOWS && platform !== MACINTOSH)) continue;
    const text = textOf(table.from(strings + table.u16(at + 10), table.u16(at + 8)), platform === WINDOWS ? 2 : 1);
    if (platform === WINDOWS && table.u16(at + 4) === ENGLISH) return text;
    best ||= text;
  }
  return best;
}

/** Text of two bytes a character (UTF-16) or one, without control characters. */
function textOf(bytes: Bytes, size: 1 | 2): string {
  let text = "";
  for (let at = 0; at + size <= bytes.length; at += size) text += String.fromCharCode(size === 2 ? bytes.u16(at) : bytes.u8(at));
  return text.replace(/\p{Cc}/gu, "").trim();
}
