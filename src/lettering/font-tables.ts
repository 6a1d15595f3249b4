/**
 * The container of a font file: its tables by name, after the checks that any of them needs. The formats are those of the OpenType
 * specification ("Organization of an OpenType Font") and of WOFF 1.0 (W3C Recommendation, 2012).
 */
import { Unzlib } from "fflate";
import type { Result } from "../units/result.ts";
import { bytesOf, checksumOf, type Bytes } from "./bytes.ts";
import { Damage, trouble, type Trouble } from "./trouble.ts";

/** The tables of one font, whole and matching their checksums. */
export interface FontTables {
  readonly outlines: "truetype" | "cff";
  readonly get: (tag: string) => Uint8Array | undefined;
}

/** Largest file read, bytes. Faces for one script stay under 1 MB; the largest of all scripts come to about 20 MB. */
const LARGEST_FILE = 32_000_000;
/** Largest sum of a file's tables once unpacked. */
const LARGEST_UNPACKED = 64_000_000;
/** Bytes unpacked at a time; one step can at most grow a thousandfold before the length is looked at. */
const STEP = 4096;

interface Entry {
  readonly tag: string;
  readonly checksum: number;
  /** Packed where `length` differs from `stored`. */
  readonly stored: number;
  readonly length: number;
  readonly offset: number;
}

/**
 * The tables of a .ttf, .otf or .woff file. Refused in plain words: other formats, collections, faces of pictures only, files cut short, and
 * tables that do not match the checksum that the file itself gives for them. Throws `Damage` where a packed table does not unpack.
 */
export function fontTables(file: Uint8Array): Result<FontTables, Trouble> {
  if (file.length > LARGEST_FILE)
    return trouble(
      "file",
      `The file holds ${Math.round(file.length / 1e6)} MB`,
      `Choose a font file of at most ${LARGEST_FILE / 1e6} MB.`,
    );
  if (file.length < 12) return notAFont();
  const bytes = bytesOf(file, "the file");
  const signature = bytes.tag(0);
  const flavour = signature === "wOFF" ? bytes.tag(4) : signature;
  const refusal = REFUSED[signature] ?? REFUSED[flavour];
  if (refusal) return refusal;
  if (flavour !== "\0\x01\0\0" && flavour !== "true" && flavour !== "OTTO") return notAFont();

  const entries = signature === "wOFF" ? woffEntries(bytes) : sfntEntries(bytes);
  if (entries.reduce((sum, { length }) => sum + length, 0) > LARGEST_UNPACKED)
    throw new Damage(`its tables come to more than ${LARGEST_UNPACKED / 1e6} MB`);
  const tables = new Map<string, Uint8Array>();
  for (const entry of entries) {
    const { tag, offset, stored, length, checksum } = entry;
    const kept = file.subarray(offset, offset + stored);
    if (kept.length < stored) throw new Damage(`table ${tag.trim()} lies beyond its end`);
    const table = stored === length ? kept : unpack(kept, length, tag);
    if (checksumOf(tag === "head" ? withoutAdjustment(table) : table) !== checksum)
      throw new Damage(`table ${tag.trim()} does not match its checksum`);
    tables.set(tag, table);
  }
  const cff = tables.has("CFF ");
  if (!cff && !(tables.has("glyf") && tables.has("loca"))) return withoutOutlines(tables);
  return { ok: true, value: { outlines: cff ? "cff" : "truetype", get: (tag) => tables.get(tag) } };
}

const notAFont = () => trouble("file", "The file is no font", "Choose a .ttf, .otf or .woff file.");

const REFUSED: Readonly<Record<string, ReturnType<typeof trouble>>> = {
  wOF2: trouble(
    "file",
    "The file is packed as WOFF2, which is not read here",
    "Choose the .ttf, .otf or .woff file of the same face.",
  ),
  ttcf: trouble("file", "The file is a collection of several faces", "Choose the file of one single face."),
  typ1: trouble(
    "file",
    "The file is of the old Type 1 kind, which is not read here",
    "Choose the .otf or .ttf file of the same face.",
  ),
  "%!PS": trouble(
    "file",
    "The file is of the old Type 1 kind, which is not read here",
    "Choose the .otf or .ttf file of the same face.",
  ),
};

function withoutOutlines(tables: ReadonlyMap<string, Uint8Array>): Result<never, Trouble> {
  if (tables.has("CFF2"))
    return trouble(
      "file",
      "Its outlines vary by the CFF2 way, which is not read here",
      "Choose the static .otf or .ttf file of the same face.",
    );
  if (["EBDT", "CBDT", "sbix", "SVG ", "bdat"].some((tag) => tables.has(tag)))
    return trouble(
      "file",
      "The face holds pictures of its letters but no outlines, so nothing can be cut from it",
      "Choose a face with outlines.",
    );
  return trouble("file", "The file holds no outlines of letters", "Choose another font file.");
}

function sfntEntries(bytes: Bytes): Entry[] {
  return entriesOf(bytes.u16(4), (i) => {
    const at = 12 + 16 * i;
    const length = bytes.u32(at + 12);
    return { tag: bytes.tag(at), checksum: bytes.u32(at + 4), offset: bytes.u32(at + 8), stored: length, length };
  });
}

function woffEntries(bytes: Bytes): Entry[] {
  if (bytes.u32(8) !== bytes.length) throw new Damage("it is not as long as it says");
  return entriesOf(bytes.u16(12), (i) => {
    const at = 44 + 20 * i;
    const entry = {
      tag: bytes.tag(at),
      offset: bytes.u32(at + 4),
      stored: bytes.u32(at + 8),
      length: bytes.u32(at + 12),
      checksum: bytes.u32(at + 16),
    };
    if (entry.stored > entry.length) throw new Damage(`table ${entry.tag.trim()} is longer packed than unpacked`);
    return entry;
  });
}

function entriesOf(count: number, entryAt: (i: number) => Entry): Entry[] {
  const entries = Array.from({ length: count }, (_, i) => entryAt(i));
  if (new Set(entries.map(({ tag }) => tag)).size < count) throw new Damage("it names a table twice");
  return entries;
}

/** `length` bytes unpacked from `packed`, never more. */
function unpack(packed: Uint8Array, length: number, tag: string): Uint8Array {
  const out = new Uint8Array(length);
  let filled = 0;
  let ended = false;
  const stream = new Unzlib((chunk, final) => {
    if (filled + chunk.length > length) throw new Damage(`table ${tag.trim()} unpacks to more than it says`);
    out.set(chunk, filled);
    filled += chunk.length;
    ended ||= final;
  });
  try {
    for (let at = 0; at < packed.length; at += STEP) stream.push(packed.subarray(at, at + STEP), at + STEP >= packed.length);
  } catch (error) {
    throw error instanceof Damage ? error : new Damage(`table ${tag.trim()} does not unpack`, { cause: error });
  }
  if (!ended || filled < length) throw new Damage(`table ${tag.trim()} unpacks to less than it says`);
  return out;
}

/** The head table as its checksum counts it: the adjustment for the whole file is taken as 0. */
function withoutAdjustment(head: Uint8Array): Uint8Array {
  const copy = head.slice();
  copy.fill(0, 8, 12);
  return copy;
}
