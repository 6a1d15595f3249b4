import { mkdir, readFile, rename, rm, writeFile } from "node:fs/promises";
import { dirname, resolve } from "node:path";
import { CliError } from "./arguments.ts";

/** The file's bytes; an error in words where it cannot be read. */
export async function readBytes(file: string): Promise<Uint8Array> {
  try {
    return new Uint8Array(await readFile(file));
  } catch (error) {
    throw new CliError(`${file} cannot be read: ${reasonOf(error)}`, { cause: error });
  }
}

/** Writes all files or none: each to a temporary name first, then all are renamed. Folders are made. */
export async function writeAll(
  files: readonly { readonly file: string; readonly content: string | Uint8Array }[],
): Promise<void> {
  const waiting: { from: string; to: string }[] = [];
  try {
    for (const { file, content } of files) {
      const to = resolve(file);
      const from = `${to}.${process.pid}.part`;
      await mkdir(dirname(to), { recursive: true });
      waiting.push({ from, to });
      await writeFile(from, content);
    }
    for (const { from, to } of waiting) await rename(from, to);
  } catch (error) {
    await Promise.all(waiting.map(({ from }) => rm(from, { force: true })));
    const last = waiting.at(-1);
    throw new CliError(`${last?.to ?? "the files"} cannot be written: ${reasonOf(error)}`, { cause: error });
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file",
  EACCES: "access is denied",
  EPERM: "access is denied",
  EISDIR: "it is a folder",
  ENOTDIR: "a part of the path is a file",
  EEXIST: "a part of the path is a file",
  ENOSPC: "the disk is full",
  EROFS: "the disk is read-only",
};

function reasonOf(error: unknown): string {
  const code = (error as { code?: string }).code ?? "";
  return REASONS[code] ?? (error instanceof Error ? error.message : String(error));
}
