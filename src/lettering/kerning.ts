/**
 * The spacing of pairs of letters (OpenType specification: GPOS, lookup type 2 "pair adjustment" and type 9 "extension", of the feature
 * kern; where there is none, the older table kern, format 0). Kerning that depends on further neighbours is not read.
 */
import { bytesOf, type Bytes } from "./bytes.ts";
import type { FontTables } from "./font-tables.ts";
import { Damage } from "./trouble.ts";

/** What one subtable says of pairs of glyphs, in font units; plain data. */
export type KernTable =
  | { readonly kind: "pairs"; readonly values: ReadonlyMap<number, number> }
  | {
      readonly kind: "classes";
      readonly first: ReadonlyMap<number, number>;
      readonly second: ReadonlyMap<number, number>;
      /** Number of classes of second glyphs: the length of a row of `values`. */
      readonly columns: number;
      readonly values: readonly number[];
    };

export interface Kerning {
  /** The table it was read from. */
  readonly from: "GPOS" | "kern" | "none";
  /** Lookups add up; within one, the first table that knows the pair speaks. */
  readonly lookups: readonly (readonly KernTable[])[];
}

/** How much further the glyph `second` stands from `first` than their widths say, font units; 0 where nothing is said. */
export function kernBetween({ lookups }: Kerning, first: number, second: number): number {
  let sum = 0;
  for (const tables of lookups)
    for (const table of tables) {
      const value = spoken(table, first, second);
      if (value === undefined) continue;
      sum += value;
      break;
    }
  return sum;
}

const pairKey = (first: number, second: number): number => first * 0x10000 + second;

/** A table of single pairs: two glyphs and the room between them. */
export const pairTable = (pairs: readonly (readonly [first: number, second: number, room: number])[]): KernTable => ({
  kind: "pairs",
  values: new Map(pairs.map(([first, second, room]) => [pairKey(first, second), room])),
});

function spoken(table: KernTable, first: number, second: number): number | undefined {
  if (table.kind === "pairs") return table.values.get(pairKey(first, second));
  const row = table.first.get(first);
  const column = table.second.get(second) ?? 0;
  return row === undefined ? undefined : table.values[row * table.columns + column];
}

/** Pairs and class values read at most: ten times what large faces hold. */
const MOST_VALUES = 2_000_000;
const MOST_TABLES = 4_000;

/** Reads the kerning between the given glyphs. Throws `Damage` where a table that holds it is damaged. */
export function readKerning(tables: FontTables, glyphs: ReadonlySet<number>): Kerning {
  const gpos = tables.get("GPOS");
  const lookups = gpos ? positioned(bytesOf(gpos, "table GPOS"), glyphs) : undefined;
  if (lookups) return { from: "GPOS", lookups };
  const kern = tables.get("kern");
  return kern ? { from: "kern", lookups: oldPairs(bytesOf(kern, "table kern"), glyphs) } : { from: "none", lookups: [] };
}

/** Undefined where the table has no kerning feature for the script. */
function positioned(gpos: Bytes, glyphs: ReadonlySet<number>): KernTable[][] | undefined {
  const features = gpos.from(gpos.u16(6));
  const wanted = new Set<number>();
  let found = false;
  for (const index of featuresOf(gpos.from(gpos.u16(4)))) {
    const record = 2 + 6 * index;
    if (features.tag(record) !== "kern") continue;
    found = true;
    const feature = features.from(features.u16(record + 4));
    for (let i = 0; i < feature.u16(2); i++) wanted.add(feature.u16(4 + 2 * i));
  }
  if (!found) return undefined;
  const list = gpos.from(gpos.u16(8));
  const spend = budget();
  // Lookups are done in the order of the list, whatever the order in which features name them.
  return [...wanted]
    .toSorted((a, b) => a - b)
    .map((index) => {
      if (index >= list.u16(0)) throw new Damage("table GPOS names a lookup that is not there");
      return lookupTables(list.from(list.u16(2 + 2 * index)), glyphs, spend);
    });
}

/** Counts what is read and stops where it is more than any face holds. */
function budget(): (tables: number, values: number) => void {
  let tablesLeft = MOST_TABLES;
  let valuesLeft = MOST_VALUES;
  return (tables, values) => {
    tablesLeft -= tables;
    valuesLeft -= values;
    if (tablesLeft < 0 || valuesLeft < 0) throw new Damage("its kerning is too large to be read");
  };
}
type Spend = ReturnType<typeof budget>;

/** Features of the Latin script, else of the default one, else of the first: those of its default language. */
function featuresOf(scripts: Bytes): number[] {
  const offsets = new Map<string, number>();
  for (let i = 0; i < scripts.u16(0); i++) offsets.set(scripts.tag(2 + 6 * i), scripts.u16(6 + 6 * i));
  const offset = offsets.get("latn") ?? offsets.get("DFLT") ?? [...offsets.values()][0];
  if (offset === undefined) return [];
  const script = scripts.from(offset);
  if (script.u16(0) === 0) return [];
  const language = script.from(script.u16(0));
  return Array.from({ length: language.u16(4) }, (_, i) => language.u16(6 + 2 * i));
}

const PAIRS = 2;
const EXTENSION = 9;

function lookupTables(lookup: Bytes, glyphs: ReadonlySet<number>, spend: Spend): KernTable[] {
  const type = lookup.u16(0);
  const found: KernTable[] = [];
  for (let i = 0; i < lookup.u16(4); i++) {
    spend(1, 0);
    const table = lookup.from(lookup.u16(6 + 2 * i));
    const extended = type === EXTENSION && table.u16(0) === 1;
    if ((extended ? table.u16(2) : type) !== PAIRS) continue;
    const pairs = extended ? table.from(table.u32(4)) : table;
    if (pairs.u16(0) === 1) found.push(listedPairs(pairs, glyphs, spend));
    else if (pairs.u16(0) === 2) found.push(pairsOfClasses(pairs, glyphs, spend));
  }
  return found;
}

const ADVANCE = 0x0004;

/** How a pair's numbers lie: bytes that both take, and where among them the first glyph's change of width is, if it has one. */
function valueShape(table: Bytes): { readonly size: number; readonly advanceAt: number | undefined } {
  const [first, second] = [table.u16(4), table.u16(6)];
  return {
    size: 2 * (bitsOf(first & 0xff) + bitsOf(second & 0xff)),
    advanceAt: first & ADVANCE ? 2 * bitsOf(first & (ADVANCE - 1)) : undefined,
  };
}

function bitsOf(mask: number): number {
  let count = 0;
  for (let rest = mask; rest > 0; rest >>= 1) count += rest & 1;
  return count;
}

function listedPairs(table: Bytes, glyphs: ReadonlySet<number>, spend: Spend): KernTable {
  const { size, advanceAt } = valueShape(table);
  const values = new Map<number, number>();
  for (const [first, index] of covered(table.from(table.u16(2)), glyphs)) {
    if (index >= table.u16(8)) throw new Damage("table GPOS covers pairs that it does not list");
    const set = table.from(table.u16(10 + 2 * index));
    const count = set.u16(0);
    spend(0, count);
    for (let i = 0; i < count; i++) {
      const at = 2 + i * (2 + size);
      const second = set.u16(at);
      if (glyphs.has(second)) values.set(pairKey(first, second), advanceAt === undefined ? 0 : set.i16(at + 2 + advanceAt));
    }
  }
  return { kind: "pairs", values };
}

function pairsOfClasses(table: Bytes, glyphs: ReadonlySet<number>, spend: Spend): KernTable {
  const { size, advanceAt } = valueShape(table);
  const firstClasses = classesOf(table.from(table.u16(8)), glyphs);
  const [rows, columns] = [table.u16(12), table.u16(14)];
  spend(0, rows * columns);
  const first = new Map<number, number>();
  for (const glyph of covered(table.from(table.u16(2)), glyphs).keys()) first.set(glyph, firstClasses.get(glyph) ?? 0);
  const values = Array.from({ length: rows * columns }, (_, i) =>
    advanceAt === undefined ? 0 : table.i16(16 + i * size + advanceAt),
  );
  const second = classesOf(table.from(table.u16(10)), glyphs);
  for (const [map, limit] of [
    [first, rows],
    [second, columns],
  ] as const)
    if ([...map.values()].some((found) => found >= limit)) throw new Damage("table GPOS names a class that it does not have");
  return { kind: "classes", first, second, columns, values };
}

/** The given glyphs that a coverage table holds, with their numbers in it. */
function covered(table: Bytes, glyphs: ReadonlySet<number>): Map<number, number> {
  const found = new Map<number, number>();
  if (table.u16(0) === 1) {
    for (let i = 0; i < table.u16(2); i++) if (glyphs.has(table.u16(4 + 2 * i))) found.set(table.u16(4 + 2 * i), i);
  } else eachInRanges(table, glyphs, (glyph, start, value) => found.set(glyph, value + glyph - start));
  return found;
}

/** Classes of the given glyphs; those not named are of class 0. */
function classesOf(table: Bytes, glyphs: ReadonlySet<number>): Map<number, number> {
  const found = new Map<number, number>();
  if (table.u16(0) === 1) {
    const start = table.u16(2);
    for (let i = 0; i < table.u16(4); i++) if (glyphs.has(start + i)) found.set(start + i, table.u16(6 + 2 * i));
  } else eachInRanges(table, glyphs, (glyph, _, value) => found.set(glyph, value));
  return found;
}

/** Coverage and class tables of format 2 list ranges alike: first glyph, last glyph, a number. Ranges rise and do not overlap. */
function eachInRanges(
  table: Bytes,
  glyphs: ReadonlySet<number>,
  give: (glyph: number, start: number, value: number) => void,
): void {
  if (table.u16(0) !== 2) throw new Damage("table GPOS holds a list of an unknown format");
  let above = -1;
  for (let i = 0; i < table.u16(2); i++) {
    const at = 4 + 6 * i;
    const [start, end] = [table.u16(at), table.u16(at + 2)];
    if (start <= above || end < start) throw new Damage("table GPOS lists letters out of order");
    above = end;
    for (let glyph = start; glyph <= end; glyph++) if (glyphs.has(glyph)) give(glyph, start, table.u16(at + 4));
  }
}

/** The table kern of Windows (version 0) and of Apple (version 1): level pairs of format 0 only. */
function oldPairs(kern: Bytes, glyphs: ReadonlySet<number>): KernTable[][] {
  const apple = kern.u16(0) === 1;
  const count = apple ? kern.u32(4) : kern.u16(2);
  const lookups: KernTable[][] = [];
  const spend = budget();
  let at = apple ? 8 : 4;
  for (let i = 0; i < count; i++) {
    spend(1, 0);
    const header = apple ? 8 : 6;
    const length = apple ? kern.u32(at) : kern.u16(at + 2);
    const coverage = kern.u16(at + 4);
    // Apple's bits: 15 upright, 14 across, 13 variation; format below. Windows': 0 level, 1 minimum, 2 across; format above.
    const level = apple ? (coverage & 0xe0ff) === 0 : (coverage & 0xff07) === 0x0001;
    if (level) lookups.push([pairsOf(kern.from(at + header), glyphs, spend)]);
    if (length < header && i < count - 1) throw new Damage("table kern runs into itself");
    at += length;
  }
  return lookups;
}

function pairsOf(table: Bytes, glyphs: ReadonlySet<number>, spend: Spend): KernTable {
  const count = table.u16(0);
  spend(0, count);
  const values = new Map<number, number>();
  for (let i = 0; i < count; i++) {
    const at = 8 + 6 * i;
    const [first, second] = [table.u16(at), table.u16(at + 2)];
    if (glyphs.has(first) && glyphs.has(second)) values.set(pairKey(first, second), table.i16(at + 4));
  }
  return { kind: "pairs", values };
}
