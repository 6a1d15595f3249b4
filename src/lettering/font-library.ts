/**
 * The only file that knows the font library, which here reads outlines and nothing else: it is given a font made anew of the tables that
 * outlines need. Left to read whole files, it hangs on damaged packed ones and on character maps with endless ranges, throws on
 * substitution lookups of types 5 and 6, and takes the kerning of extension lookups for 0.
 */
import { parse, type Command } from "opentype.js/dist/opentype.mjs";
import type { FontTables } from "./font-tables.ts";
import { Damage } from "./trouble.ts";

export type { Command };

/** Gives the drawing commands of a glyph, in font units. Throws `Damage` where the library cannot read it. */
export function openOutlines(tables: FontTables): (glyph: number) => readonly Command[] {
  const guarded = <T>(read: () => T): T => {
    try {
      return read();
    } catch (error) {
      throw new Damage("the outline of a letter cannot be read", { cause: error });
    }
  };
  const font = guarded(() => parse(outlinesOnly(tables), { lowMemory: true }));
  return (glyph) => guarded(() => font.glyphs.get(glyph).path.commands);
}

/** A character map without characters: format 4 for Windows, no segments. */
const NO_CHARACTERS = new Uint8Array([0, 0, 0, 1, 0, 3, 0, 1, 0, 0, 0, 12, 0, 4, 0, 16, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]);
const NO_NAMES = new Uint8Array([0, 0, 0, 0, 0, 6]);
/** Version 3 of the table of glyph names: there are none. */
const NO_GLYPH_NAMES = new Uint8Array(32).fill(3, 1, 2);

function outlinesOnly(tables: FontTables): ArrayBuffer {
  const kept = tables.outlines === "cff" ? ["CFF "] : ["glyf", "loca"];
  const parts: [string, Uint8Array][] = [
    ...[...kept, "head", "hhea", "hmtx", "maxp"].map((tag): [string, Uint8Array] => [tag, tables.get(tag) ?? new Uint8Array()]),
    ["cmap", NO_CHARACTERS],
    ["name", NO_NAMES],
    ["post", NO_GLYPH_NAMES],
  ];
  const start = 12 + 16 * parts.length;
  const file = new Uint8Array(parts.reduce((size, [, table]) => size + padded(table.length), start));
  const view = new DataView(file.buffer);
  view.setUint32(0, tables.outlines === "cff" ? 0x4f54544f : 0x00010000);
  view.setUint16(4, parts.length);
  let offset = start;
  for (const [i, [tag, table]] of parts.entries()) {
    const at = 12 + 16 * i;
    for (let k = 0; k < 4; k++) view.setUint8(at + k, tag.charCodeAt(k));
    view.setUint32(at + 8, offset);
    view.setUint32(at + 12, table.length);
    file.set(table, offset);
    offset += padded(table.length);
  }
  return file.buffer;
}

const padded = (length: number): number => Math.ceil(length / 4) * 4;
