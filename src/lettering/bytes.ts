import { Damage } from "./trouble.ts";

/** Big-endian reading from a run of bytes. Every read outside it throws `Damage`. */
export interface Bytes {
  readonly length: number;
  readonly u8: (at: number) => number;
  readonly u16: (at: number) => number;
  readonly i16: (at: number) => number;
  readonly u32: (at: number) => number;
  /** Four characters, one a byte. */
  readonly tag: (at: number) => string;
  /** The bytes from `at` to the end, or `length` of them. */
  readonly from: (at: number, length?: number) => Bytes;
}

/** A reader of `bytes`; `name` says in messages what they are: "table glyf". */
export function bytesOf(bytes: Uint8Array, name: string): Bytes {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const held = (at: number, size: number): number => {
    if (!(at >= 0) || at + size > view.byteLength) throw new Damage(`${name} ends too early`);
    return at;
  };
  return {
    length: view.byteLength,
    u8: (at) => view.getUint8(held(at, 1)),
    u16: (at) => view.getUint16(held(at, 2)),
    i16: (at) => view.getInt16(held(at, 2)),
    u32: (at) => view.getUint32(held(at, 4)),
    tag: (at) => String.fromCharCode(...bytes.subarray(held(at, 4), at + 4)),
    from: (at, length = view.byteLength - at) => bytesOf(bytes.subarray(held(at, length), at + length), name),
  };
}

/** Sum of the bytes as 32-bit numbers, the last filled up with zeros: the checksum of a table (OpenType specification, "Calculating Checksums"). */
export function checksumOf(bytes: Uint8Array): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const whole = bytes.length - (bytes.length % 4);
  let sum = 0;
  for (let at = 0; at < whole; at += 4) sum = (sum + view.getUint32(at)) >>> 0;
  let rest = 0;
  for (let at = whole; at < whole + 4 && whole < bytes.length; at++) rest = rest * 256 + (bytes[at] ?? 0);
  return (sum + rest) >>> 0;
}
