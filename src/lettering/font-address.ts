/** A maker's own font file as a text that a design can keep: a data address (RFC 2397) in base 64 (RFC 4648), with the face's name as a parameter. */
import type { Result } from "../units/result.ts";
import { trouble, type Trouble } from "./trouble.ts";

/** Files above this are no face of letters that anyone cuts, bytes. */
export const LARGEST_FONT = 5_000_000;

const START = "data:font/sfnt";
const NAME = ";name=";
const CODED = ";base64,";
/** Halves of characters, which no address can hold. */
const LONE = /\p{Surrogate}/gu;
const DIGITS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/** `name`: what the maker calls the face by; none where it is empty. */
export function fontAddress(bytes: Uint8Array, name = ""): string {
  const parts: string[] = [START, name === "" ? "" : NAME + encodeURIComponent(name.replace(LONE, "\ufffd")), CODED];
  for (let i = 0; i < bytes.length; i += 3) {
    const [a, b, c] = [bytes[i]!, bytes[i + 1], bytes[i + 2]];
    const bits = (a << 16) | ((b ?? 0) << 8) | (c ?? 0);
    const at = (shift: number): string => DIGITS[(bits >> shift) & 63]!;
    parts.push(at(18) + at(12) + (b === undefined ? "=" : at(6)) + (c === undefined ? "=" : at(0)));
  }
  return parts.join("");
}

/** The name of the face that an address holds; empty where it says none. */
export function fontNameOf(address: string): string {
  const coded = new RegExp(`^${START}${NAME}([^;,]*)${CODED}`).exec(address.slice(0, LONGEST_HEAD))?.[1] ?? "";
  try {
    return decodeURIComponent(coded);
  } catch {
    return "";
  }
}

/** Size of the file that an address holds, bytes, good to 2. */
export const fontSizeOf = (address: string): number => Math.floor(((address.length - address.indexOf(",") - 1) * 3) / 4);

/** What stands before the bytes is no longer. */
const LONGEST_HEAD = 4000;

/** The bytes of a font address; refused where the text is none. */
export function fontOfAddress(address: string): Result<Uint8Array, Trouble> {
  const comma = address.indexOf(",");
  const text = address.slice(comma + 1);
  if (
    !address.startsWith("data:") ||
    !address.slice(0, comma).endsWith(";base64") ||
    !/^[A-Za-z0-9+/]*={0,2}$/.test(text) ||
    text.length % 4 !== 0
  )
    return trouble("file", "The font file kept in the design is damaged", "Choose the font file again.");
  const padding = text.endsWith("==") ? 2 : text.endsWith("=") ? 1 : 0;
  const bytes = new Uint8Array((text.length / 4) * 3 - padding);
  let [bits, held, to] = [0, 0, 0];
  for (let i = 0; i < text.length - padding; i++) {
    bits = ((bits << 6) | valueOf(text.charCodeAt(i))) & 0xffffff;
    held += 6;
    if (held < 8) continue;
    held -= 8;
    bytes[to++] = (bits >> held) & 255;
  }
  return { ok: true, value: bytes };
}

function valueOf(code: number): number {
  if (code >= 97) return code - 71;
  if (code >= 65) return code - 65;
  if (code >= 48) return code + 4;
  return code === 43 ? 62 : 63;
}
