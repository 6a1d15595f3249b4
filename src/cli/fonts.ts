import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import type { FontBytes } from "../export/pdf/writer.ts";

/** The two faces of the lettering on paper. */
export async function readFonts(): Promise<FontBytes> {
  const read = async (name: string): Promise<Uint8Array> =>
    new Uint8Array(await readFile(fileURLToPath(new URL(`../../public/fonts/${name}`, import.meta.url))));
  return {
    regular: await read("atkinson-hyperlegible-mono-latin-400-normal.woff"),
    strong: await read("atkinson-hyperlegible-mono-latin-600-normal.woff"),
  };
}
