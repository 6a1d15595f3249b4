/**
 * What must hold of a TrueType outline before the font library may read it (OpenType specification: loca, glyf): it lies within its table, is
 * of a bearable size, and is not put together from itself.
 */
import { bytesOf, type Bytes } from "./bytes.ts";
import type { FontHeader } from "./font-header.ts";
import { tableOf } from "./font-header.ts";
import type { FontTables } from "./font-tables.ts";
import { Damage } from "./trouble.ts";

const MOST_POINTS = 20_000;
const MOST_CONTOURS = 2_000;
/** How deep parts may be made of parts, and how many parts a glyph may come to. */
const DEEPEST = 8;
const MOST_PARTS = 100;

export interface GlyphCheck {
  /** Throws `Damage` where the glyph cannot be read safely. */
  readonly check: (glyph: number) => void;
  /** Least x that the glyph's own header gives; undefined for one without outline. */
  readonly left: (glyph: number) => number | undefined;
}

export function glyphCheck(tables: FontTables, header: FontHeader): GlyphCheck {
  const loca = tableOf(tables, "loca", 0);
  const glyf = tables.get("glyf")!;
  const offset = (glyph: number): number => (header.shortOffsets ? 2 * loca.u16(2 * glyph) : loca.u32(4 * glyph));

  function outlineOf(glyph: number): Bytes | undefined {
    if (glyph >= header.glyphCount) throw new Damage("a letter is made of one that is not there");
    const start = offset(glyph);
    const end = offset(glyph + 1);
    if (end < start || end > glyf.length) throw new Damage("an outline lies beyond table glyf");
    return end > start ? bytesOf(glyf.subarray(start, end), "an outline") : undefined;
  }

  /** Number of points, contours and parts of the glyph and of all that it is made of. */
  function sizeOf(glyph: number, above: readonly number[]): { points: number; contours: number; parts: number } {
    if (above.includes(glyph)) throw new Damage("a letter is made of itself");
    if (above.length > DEEPEST) throw new Damage("a letter is made of parts of parts without end");
    const outline = outlineOf(glyph);
    if (!outline) return { points: 0, contours: 0, parts: 1 };
    const contours = outline.i16(0);
    if (contours >= 0) return { points: simplePoints(outline, contours), contours, parts: 1 };
    const size = { points: 0, contours: 0, parts: 1 };
    for (const part of partsOf(outline)) {
      const inner = sizeOf(part, [...above, glyph]);
      size.points += inner.points;
      size.contours += inner.contours;
      size.parts += inner.parts;
      bearable(size);
    }
    return size;
  }

  return {
    check: (glyph) => bearable(sizeOf(glyph, [])),
    left: (glyph) => outlineOf(glyph)?.i16(2),
  };
}

function bearable({ points, contours, parts }: { points: number; contours: number; parts: number }): void {
  if (points > MOST_POINTS || contours > MOST_CONTOURS || parts > MOST_PARTS) throw new Damage("a letter is too intricate");
}

/** Points of a simple outline, whose contours must end one after the other. */
function simplePoints(outline: Bytes, contours: number): number {
  let last = -1;
  for (let i = 0; i < contours; i++) {
    const end = outline.u16(10 + 2 * i);
    if (end <= last) throw new Damage("the contours of a letter run into each other");
    last = end;
  }
  return last + 1;
}

const WORDS = 0x0001;
const ONE_SCALE = 0x0008;
const MORE = 0x0020;
const TWO_SCALES = 0x0040;
const FOUR_SCALES = 0x0080;

/** Glyphs that a composite outline is made of. */
function partsOf(outline: Bytes): number[] {
  const parts: number[] = [];
  let at = 10;
  let flags = MORE;
  while (flags & MORE) {
    flags = outline.u16(at);
    parts.push(outline.u16(at + 2));
    at += (flags & WORDS ? 8 : 6) + (flags & ONE_SCALE ? 2 : flags & TWO_SCALES ? 4 : flags & FOUR_SCALES ? 8 : 0);
    if (parts.length > MOST_PARTS) throw new Damage("a letter is too intricate");
  }
  return parts;
}
