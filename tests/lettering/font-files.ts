/** Font files for tests: the bundled faces, two made for the purpose, and files put together table by table. */
import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { unzlibSync } from "fflate";
import { readFace, type Face } from "../../src/lettering/face.ts";
import { bundledFace } from "../../src/lettering/faces.ts";

const home = resolve(import.meta.dirname, "../..");
const bytesOf = (path: string): Uint8Array => new Uint8Array(readFileSync(join(home, path)));

/** A file of public/faces. */
export const bundledFile = (file: string): Uint8Array => bytesOf(`public/faces/${file}`);

/** `strokes.ttf` or `strokes.otf`; what is in them stands in tests/data/fonts/make-test-fonts.py. */
export const madeFile = (file: string): Uint8Array => bytesOf(`tests/data/fonts/${file}`);

export function mustRead(bytes: Uint8Array, wanted?: string): Face {
  const face = readFace(bytes, wanted);
  if (!face.ok) throw new Error(face.error.message);
  return face.value;
}

const read = new Map<string, Face>();

/** A bundled face by its id, read once. */
export function faceById(id: string): Face {
  const face = read.get(id) ?? mustRead(bundledFile(bundledFace(id)!.file));
  read.set(id, face);
  return face;
}

export type Tables = readonly (readonly [tag: string, table: Uint8Array])[];

/** Tables of a font file that is known to be whole. */
export function tablesOf(file: Uint8Array): Tables {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const woff = view.getUint32(0) === 0x774f4646;
  return Array.from({ length: view.getUint16(woff ? 12 : 4) }, (_, i) => {
    const at = woff ? 44 + 20 * i : 12 + 16 * i;
    const tag = String.fromCharCode(...file.subarray(at, at + 4));
    if (!woff) return [tag, file.slice(view.getUint32(at + 8), view.getUint32(at + 8) + view.getUint32(at + 12))];
    const offset = view.getUint32(at + 4);
    const packed = file.subarray(offset, offset + view.getUint32(at + 8));
    return [tag, packed.length === view.getUint32(at + 12) ? packed.slice() : unzlibSync(packed)];
  });
}

/** A .ttf or .otf file of the tables, with the checksums that they should have. */
export function fontFile(tables: Tables, signature = 0x00010000): Uint8Array {
  const start = 12 + 16 * tables.length;
  const padded = (size: number): number => size + ((4 - (size % 4)) % 4);
  const file = new Uint8Array(tables.reduce((size, [, table]) => size + padded(table.length), start));
  const view = new DataView(file.buffer);
  view.setUint32(0, signature);
  view.setUint16(4, tables.length);
  let offset = start;
  for (const [i, [tag, table]] of tables.entries()) {
    const at = 12 + 16 * i;
    file.set(
      Array.from(tag, (c) => c.charCodeAt(0)),
      at,
    );
    file.set(table, offset);
    let sum = 0;
    for (let k = 0; k < padded(table.length); k += 4) sum += view.getUint32(offset + k);
    if (tag === "head") sum -= view.getUint32(offset + 8);
    view.setUint32(at + 4, sum % 2 ** 32);
    view.setUint32(at + 8, offset);
    view.setUint32(at + 12, table.length);
    offset += padded(table.length);
  }
  return file;
}

/** The tables with one of them changed, or left out where `change` gives nothing. */
export const withTable = (tables: Tables, tag: string, change: (table: Uint8Array) => Uint8Array | undefined): Tables =>
  tables.flatMap(([name, table]) => {
    const next = name === tag ? change(table.slice()) : table;
    return next ? [[name, next] as const] : [];
  });
