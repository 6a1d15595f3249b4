/** Many files in one ZIP archive, with names that every system takes and the same bytes every time. */
import { Zip, ZipDeflate, ZipPassThrough } from "fflate";
import { pauser, type OnProgress } from "./pause.ts";

export interface ArchiveFile {
  readonly name: string;
  /** Called when its turn comes, so that no more than one file is held beside the archive. */
  readonly bytes: () => Uint8Array | Promise<Uint8Array>;
}

/**
 * The bytes of the archive, the files in their order. Names are made safe and told apart. Rejects with the signal's reason when cancelled
 * and with whatever a file rejects with.
 */
export async function archiveOf(
  files: readonly ArchiveFile[],
  { onProgress, signal }: { readonly onProgress?: OnProgress; readonly signal?: AbortSignal } = {},
): Promise<Uint8Array<ArrayBuffer>> {
  const pause = pauser(signal);
  const chunks: Uint8Array[] = [];
  let failure: Error | undefined;
  const zip = new Zip((error, chunk) => {
    if (error) failure = error;
    else chunks.push(chunk);
  });
  const used = new Set<string>();
  for (const [i, file] of files.entries()) {
    await pause();
    const name = unused(safeName(file.name), used);
    // A PDF is packed already.
    const entry = name.endsWith(".pdf") ? new ZipPassThrough(name) : new ZipDeflate(name, { level: 6 });
    // The earliest time that an entry can carry; it is written in local time, whatever the zone.
    entry.mtime = new Date(1980, 0, 1);
    entry.os = 0;
    zip.add(entry);
    entry.push(await file.bytes(), true);
    if (failure) throw failure;
    onProgress?.((i + 1) / files.length);
  }
  zip.end();
  await pause();
  return joined(chunks);
}

const MOST_LETTERS = 80;
/** Names that one widespread system keeps for devices, with any ending. */
const DEVICES = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i;

/** `name` in letters, digits, dots, dashes and underscores, at most 80 of them, neither hidden nor a device nor a path. */
export function safeName(name: string): string {
  const plain = name
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .replace(/[^A-Za-z0-9._-]+/g, "-")
    .replace(/\.{2,}/g, ".");
  const dot = plain.lastIndexOf(".");
  const [stem, ending] = dot > 0 && plain.length - dot <= 9 ? [plain.slice(0, dot), plain.slice(dot)] : [plain, ""];
  const clean = (text: string): string => text.replace(/^[.-]+|[.-]+$/g, "");
  const short = clean(clean(stem).slice(0, MOST_LETTERS - ending.length)) || "file";
  const whole = short + ending.replace(/\.$/, "");
  return DEVICES.test(whole) ? `_${whole}` : whole;
}

/** `name`, or with a number where it is taken already; capitals do not tell names apart. */
function unused(name: string, used: Set<string>): string {
  const dot = name.lastIndexOf(".");
  let given = name;
  for (let n = 2; used.has(given.toLowerCase()); n++)
    given = dot > 0 ? `${name.slice(0, dot)}-${n}${name.slice(dot)}` : `${name}-${n}`;
  used.add(given.toLowerCase());
  return given;
}

function joined(chunks: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}
