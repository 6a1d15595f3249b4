/** Everything that a browser keeps in one zip file, to carry to another computer or to put away. */
import { strFromU8, strToU8, unzipSync, zipSync, type Unzipped } from "fflate";
import type { Result } from "../units/result.ts";
import type { Trouble } from "./design.ts";
import { readJson } from "./json.ts";
import { MOST_BYTES } from "./read.ts";
import { isRecord } from "./shape.ts";

export interface ArchivedDesign {
  readonly id: string;
  /** Of its file within the archive, without folder. */
  readonly name: string;
  readonly text: string;
}

export interface Archive {
  readonly designs: readonly ArchivedDesign[];
  readonly settings: Readonly<Record<string, unknown>>;
}

const CONTENTS = "gramil-archive.json";
const FOLDER = "designs/";
const MOST_FILES = 10_000;
const MOST_UNPACKED_BYTES = 512 * 1024 * 1024;

/** The earliest day that a zip file can bear, so that the same content gives the same bytes. */
const NO_DATE = new Date(1980, 0, 1);

/** The bytes of the archive's zip file. */
export function packArchive({ designs, settings }: Archive): Uint8Array {
  const files = new Map<string, string>();
  const listed = designs.map(({ id, name, text }) => {
    const file = freeName(name, files);
    files.set(file, text);
    return { id, file };
  });
  const contents = { format: "gramil-archive", version: 1, designs: listed, settings };
  files.set(CONTENTS, `${JSON.stringify(contents, undefined, 2)}\n`);
  return zipSync(Object.fromEntries([...files].map(([file, text]) => [file, strToU8(text)])), { mtime: NO_DATE });
}

function freeName(name: string, taken: ReadonlyMap<string, string>): string {
  const stem = name.replace(/\.json$/, "");
  let file = `${FOLDER}${stem}.json`;
  for (let n = 2; taken.has(file); n++) file = `${FOLDER}${stem}-${n}.json`;
  return file;
}

/**
 * What an archive holds; the designs are not read yet. A zip file of design files without the list of contents is taken too: each design
 * then has its file's name for an id.
 */
export function unpackArchive(bytes: Uint8Array): Result<Archive, Trouble> {
  let unpacked = 0;
  let count = 0;
  let files: Unzipped;
  try {
    files = unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        if (!name.endsWith(".json") || originalSize > MOST_BYTES) return false;
        unpacked += originalSize;
        return ++count <= MOST_FILES && unpacked <= MOST_UNPACKED_BYTES;
      },
    });
  } catch {
    return refuse("the file is no zip archive, or it is damaged", "Choose an archive that Gramil has saved.");
  }
  const contents = contentsOf(files[CONTENTS]);
  const ids = new Map(contents.designs.map(({ id, file }) => [file, id]));
  const designs = Object.entries(files)
    .filter(([file]) => file !== CONTENTS)
    .map(([file, content]) => ({
      id: ids.get(file) ?? file,
      name: file.slice(file.lastIndexOf("/") + 1),
      text: strFromU8(content),
    }));
  if (designs.length === 0) return refuse("there are no designs in the archive", "Choose an archive that Gramil has saved.");
  return { ok: true, value: { designs, settings: contents.settings } };
}

/** The list of contents, as far as it can be read. */
function contentsOf(file: Uint8Array | undefined): {
  readonly designs: readonly { id: string; file: string }[];
  readonly settings: Archive["settings"];
} {
  const json = file && readJson(strFromU8(file), { depth: 32, values: 100_000 });
  const contents = json?.ok && isRecord(json.value.value) ? json.value.value : {};
  const designs = Array.isArray(contents.designs) ? (contents.designs as readonly unknown[]) : [];
  return {
    designs: designs.flatMap((entry) =>
      isRecord(entry) && typeof entry.id === "string" && typeof entry.file === "string"
        ? [{ id: entry.id, file: entry.file }]
        : [],
    ),
    settings: isRecord(contents.settings) ? contents.settings : {},
  };
}

const refuse = (message: string, mend: string): { readonly ok: false; readonly error: Trouble } => ({
  ok: false,
  error: { message, mend },
});
