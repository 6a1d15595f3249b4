import type { Path } from "../geometry/path.ts";
import { pathsBounds } from "../geometry/measure.ts";
import type { Result } from "../units/result.ts";
import { readCharacters } from "./character-map.ts";
import { contoursOf } from "./contours.ts";
import { readHeader } from "./font-header.ts";
import { openOutlines } from "./font-library.ts";
import { fontTables, type FontTables } from "./font-tables.ts";
import { glyphCheck } from "./glyph-check.ts";
import { readKerning, type Kerning } from "./kerning.ts";
import { Damage, trouble, type Trouble } from "./trouble.ts";

/** One letter of a face: what is drawn for a character. Font units, y up, the pen at the origin of the baseline. */
export interface Glyph {
  /** Its number in the font, by which kerning goes. */
  readonly index: number;
  /** How far the pen moves on. */
  readonly advance: number;
  /** Closed contours as the face gives them: they may overlap and run either way; what they cover by the nonzero rule is the letter. */
  readonly contours: readonly Path[];
}

/** A face as plain data, which may be passed between threads. Lengths in font units, `unitsPerEm` to the em. */
export interface Face {
  /** What the file calls itself; may be empty. */
  readonly name: string;
  readonly unitsPerEm: number;
  readonly ascender: number;
  /** Negative below the baseline. */
  readonly descender: number;
  /** As the file says, else the height of its H or x; undefined where it has neither. */
  readonly capHeight: number | undefined;
  readonly xHeight: number | undefined;
  /** By character: one code point each. */
  readonly glyphs: ReadonlyMap<string, Glyph>;
  /** False where the face has more characters than were read: ask again with those that are wanted. */
  readonly whole: boolean;
  readonly kerning: Kerning;
}

/** Sides of outlines read at most: four times those of a Latin face. A face of all scripts would take seconds to pass between threads. */
const MOST_SIDES = 40_000;

/**
 * The face in the bytes of a .ttf, .otf or .woff file: all characters of `wanted`, then the rest in the order of their code points until
 * there are too many. Refused with a reason: other formats, damaged files (every table is held against the checksum that the file gives
 * for it), faces without outlines. Substitution of glyphs (ligatures, joined forms) and hints are not read.
 */
export function readFace(bytes: Uint8Array, wanted = ""): Result<Face, Trouble> {
  try {
    const tables = fontTables(bytes);
    return tables.ok ? { ok: true, value: faceOf(tables.value, wanted) } : tables;
  } catch (error) {
    if (!(error instanceof Damage)) throw error;
    return trouble("file", `The font file is damaged: ${error.message}`, "Fetch the file again, or choose another face.");
  }
}

function faceOf(tables: FontTables, wanted: string): Face {
  const header = readHeader(tables);
  const characters = readCharacters(tables, header.glyphCount);
  const commandsOf = openOutlines(tables);
  const check = tables.outlines === "truetype" ? glyphCheck(tables, header) : undefined;
  const read = new Map<number, Glyph>();
  let sides = 0;

  function glyphOf(index: number): Glyph {
    const known = read.get(index);
    if (known) return known;
    check?.check(index);
    const { advance, left } = header.spacing(index);
    // An outline is drawn with its least x at the left bearing, wherever its own numbers put it.
    const least = check?.left(index);
    const contours = contoursOf(commandsOf(index), header.unitsPerEm, least === undefined ? 0 : left - least);
    sides += contours.reduce((sum, { segments }) => sum + segments.length, 0);
    const glyph = { index, advance, contours };
    read.set(index, glyph);
    return glyph;
  }

  const glyphs = new Map<string, Glyph>();
  const first = Array.from(wanted, (character) => character.codePointAt(0)!).filter((code) => characters.has(code));
  for (const code of new Set([...first, ...characters.keys()])) {
    if (sides > MOST_SIDES) break;
    glyphs.set(String.fromCodePoint(code), glyphOf(characters.get(code)!));
  }
  const topOf = (character: string): number | undefined => {
    const contours = glyphs.get(character)?.contours ?? [];
    return contours.length > 0 ? pathsBounds(contours).maxY : undefined;
  };
  return {
    name: header.name,
    unitsPerEm: header.unitsPerEm,
    ascender: header.ascender,
    descender: header.descender,
    capHeight: header.capHeight ?? topOf("H"),
    xHeight: header.xHeight ?? topOf("x"),
    glyphs,
    whole: glyphs.size === characters.size,
    kerning: readKerning(tables, new Set([...glyphs.values()].map(({ index }) => index))),
  };
}
