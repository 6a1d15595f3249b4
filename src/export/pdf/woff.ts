/** Unpacks WOFF 1.0 font files (W3C Recommendation, 13 December 2012) into the plain font that they wrap. */
import { unzlibSync } from "fflate";

const WOFF = 0x774f4646;
const HEADER = 44;
const ENTRY = 20;
const MOST_TABLES = 64;
/** More than any face of Latin letters needs; a damaged file cannot ask for more memory. */
const MOST_BYTES = 8 * 1024 * 1024;

/** The font in `bytes`: unpacked if it is WOFF, else as it is. Throws a RangeError where a WOFF file is damaged. */
export function plainFont(bytes: Uint8Array): Uint8Array {
  const from = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 4 || from.getUint32(0) !== WOFF) return bytes;
  if (bytes.length < HEADER) throw damaged("its header is cut short");
  const count = from.getUint16(12);
  if (count === 0 || count > MOST_TABLES || HEADER + count * ENTRY > bytes.length)
    throw damaged("its table of contents is cut short");
  const tables = Array.from({ length: count }, (_, i) => {
    const [tag, offset, packed, length, checksum] = [0, 4, 8, 12, 16].map((k) => from.getUint32(HEADER + i * ENTRY + k)) as [
      number,
      number,
      number,
      number,
      number,
    ];
    if (offset + packed > bytes.length || packed > length) throw damaged("a table lies outside of the file");
    return { tag, offset, packed, length, checksum };
  });
  const directory = 12 + count * 16;
  const size = tables.reduce((sum, { length }) => sum + padded(length), directory);
  if (size > MOST_BYTES) throw damaged("it claims to be too large");
  const plain = new Uint8Array(size);
  const to = new DataView(plain.buffer);
  const power = Math.floor(Math.log2(count));
  to.setUint32(0, from.getUint32(4));
  to.setUint16(4, count);
  to.setUint16(6, 16 * 2 ** power);
  to.setUint16(8, power);
  to.setUint16(10, 16 * (count - 2 ** power));
  let at = directory;
  for (const [i, { tag, offset, packed, length, checksum }] of tables.entries()) {
    for (const [k, value] of [tag, checksum, at, length].entries()) to.setUint32(12 + i * 16 + k * 4, value);
    plain.set(unpacked(bytes.subarray(offset, offset + packed), length), at);
    at += padded(length);
  }
  return plain;
}

/** A table is packed only where that makes it smaller. */
function unpacked(data: Uint8Array, length: number): Uint8Array {
  if (data.length === length) return data;
  let table: Uint8Array;
  try {
    table = unzlibSync(data, { out: new Uint8Array(length) });
  } catch {
    throw damaged("a table cannot be unpacked");
  }
  if (table.length !== length) throw damaged("a table has the wrong length");
  return table;
}

const padded = (length: number): number => (length + 3) & ~3;
const damaged = (why: string): RangeError => new RangeError(`the font file is damaged: ${why}`);
