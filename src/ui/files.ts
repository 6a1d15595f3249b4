/** Designs and sheets in and out of files. */
import { fileOpen, fileSave, supported } from "browser-fs-access";
import { fileNameOf } from "../document/file-name.ts";
import { MOST_BYTES } from "../document/read.ts";
import { writeDesign } from "../document/write.ts";
import type { Trouble } from "../document/design.ts";
import { packEverything, unpackEverything, type Arrival } from "../store/commands/carry-archive.ts";
import { openFile } from "../store/commands/open-file.ts";
import { openDialog } from "../store/session-store.ts";
import type { Workbench } from "../store/workbench.ts";
import { go, readRoute } from "./frame/route.ts";
import { tell } from "./kit/tell.tsx";
import { layPhotograph, looksLikePicture } from "./photograph/choose-photograph.ts";
import { partName } from "../parts/part-name.ts";

/** The person let the file dialog go: not a fault. */
const isCancelled = (error: unknown): boolean => error instanceof DOMException && error.name === "AbortError";

type Content = Uint8Array | string;

/** The dialog is refused too long after a press, and where policy forbids it: a download still goes. */
const isForbidden = (error: unknown): boolean =>
  error instanceof DOMException && (error.name === "SecurityError" || error.name === "NotAllowedError");

function download(name: string, blob: Blob): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 30_000);
}

/** Takes away the empty file that a dialog has made for content that never came. */
async function dropEmpty(picked: FileSystemFileHandle): Promise<void> {
  const file = picked as FileSystemFileHandle & { readonly remove?: () => Promise<void> };
  try {
    if ((await file.getFile()).size === 0) await file.remove?.();
  } catch {
    // An empty file harms nobody.
  }
}

/**
 * Saves a file by the file dialog, or as a download where there is none. The dialog opens at once, since browsers allow it only just
 * after a press, and waits for content that is still to come.
 * @returns whether it was saved; false where the person let the dialog go. Rejects with what the content rejects with.
 */
export async function saveBytes(name: string, content: Content | Promise<Content>, type: string): Promise<boolean> {
  const blob = async (): Promise<Blob> => new Blob([(await content) as BlobPart], { type });
  const coming = blob();
  let failed = false;
  // A dialog's file stays locked until it is written and closed: for content that never comes it is written empty, and taken away.
  const come = coming.catch((error: unknown) => {
    failed = true;
    if (!supported) throw error;
    return new Blob([], { type });
  });
  let picked: FileSystemFileHandle | null = null;
  try {
    await fileSave(
      come,
      { fileName: name, extensions: [name.slice(name.lastIndexOf("."))], mimeTypes: [type] },
      null,
      false,
      (handle) => {
        picked = handle;
        return null;
      },
    );
  } catch (error) {
    // Where the dialog is let go nobody waits for the content.
    come.catch(() => undefined);
    if (isCancelled(error) && !failed) return false;
    if (picked !== null || failed || !isForbidden(error)) throw error;
    download(name, await coming);
    return true;
  }
  if (failed && picked) await dropEmpty(picked);
  await coming;
  return true;
}

/** As `saveBytes`, for content that is there: tells what came of it. */
async function saveAndTell(title: string, name: string, content: Content, type: string): Promise<void> {
  try {
    if (await saveBytes(name, content, type)) tell({ title, more: name, kind: "fine" });
  } catch (error) {
    tell({ title: "It was not saved.", more: error instanceof Error ? error.message : String(error), kind: "stop" });
  }
}

/** Saves the open design as a file. */
export async function saveDesignFile(bench: Workbench): Promise<void> {
  const { design } = bench.design.getState();
  await saveAndTell("The design is saved as a file.", fileNameOf(design.order ?? {}), writeDesign(design), "application/json");
}

/** Saves every design that this browser keeps in one archive. */
export async function saveEverything(bench: Workbench): Promise<void> {
  const packed = await packEverything(bench);
  if (!packed.ok) return tellTrouble("Nothing was saved", packed.error);
  await saveAndTell("All designs are saved.", packed.value.name, packed.value.bytes, "application/zip");
}

/** Lets the maker choose a file and takes it in: a design, or an archive of designs. */
export async function chooseDesignFile(bench: Workbench): Promise<void> {
  try {
    const file = await fileOpen({
      extensions: [".json", ".zip"],
      mimeTypes: ["application/json", "application/zip"],
      description: "Design file or archive of designs",
    });
    await takeFile(bench, file);
  } catch (error) {
    if (!isCancelled(error)) throw error;
  }
}

/** The first bytes of every zip file. */
const isArchive = (bytes: Uint8Array): boolean => bytes[0] === 0x50 && bytes[1] === 0x4b;

/**
 * Opens a file as a design of its own; what was open stays kept in this browser. The designs of an archive are taken in beside the others;
 * a photograph is laid under the part on the board.
 */
export async function takeFile(bench: Workbench, file: File): Promise<void> {
  if (looksLikePicture(file)) return takePhotograph(bench, bench.session.getState().activePart, file);
  const archive = isArchive(new Uint8Array(await file.slice(0, 2).arrayBuffer()));
  if (!archive && file.size > MOST_BYTES)
    return tellTrouble(`${file.name} was not opened`, {
      message: `the file is larger than ${MOST_BYTES / 1024 / 1024} MB`,
      mend: "Choose a design file.",
    });
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (archive) return takeArchive(bench, file.name, bytes);
  const result = await openFile(bench, { name: file.name, bytes });
  if (!result.ok) return tellTrouble(`${file.name} was not opened`, result.error);
  if (result.value.length > 0) openDialog(bench.session, { kind: "repairs", name: file.name, repairs: result.value });
  else tell({ title: `${file.name} is open.`, kind: "fine" });
  // That page shows its own board and no other.
  if (readRoute(location.hash).place === "first") go({ place: "parts" });
}

/** Lays a photograph under a part's board. */
export async function takePhotograph(bench: Workbench, partId: string, file: File): Promise<void> {
  const title = `${file.name} was not laid under the board`;
  const part = bench.derived.getState().parts.find(({ id }) => id === partId);
  if (!part)
    return tellTrouble(title, { message: "no part is on the board", mend: "Open the part that it shows, then choose it." });
  const laid = await layPhotograph(bench, part, file);
  if (!laid.ok) return tellTrouble(title, laid.error);
  tell({
    title: `${file.name} lies under the ${partName(part).toLowerCase()}.`,
    more: "Bring it to scale before you draw over it.",
    kind: "fine",
  });
}

async function takeArchive(bench: Workbench, name: string, bytes: Uint8Array): Promise<void> {
  const result = await unpackEverything(bench, bytes);
  if (!result.ok) return tellTrouble(`${name} was not taken in`, result.error);
  const counted = (outcome: Arrival["outcome"]): number => result.value.filter((one) => one.outcome === outcome).length;
  const refused = result.value.filter((one) => one.outcome === "refused").map((one) => one.name);
  const [added, here] = [counted("added"), counted("already here")];
  tell({
    title: `${added === 1 ? "1 design was" : `${added} designs were`} taken in.`,
    more: [here > 0 ? `${here} here already.` : "", refused.length > 0 ? `Not readable: ${refused.join(", ")}.` : ""]
      .filter(Boolean)
      .join(" "),
    kind: refused.length > 0 ? "stop" : "fine",
  });
}

/** Says a refusal: what could not be done, why, and what to do. */
export const tellTrouble = (title: string, { message, mend }: Trouble): void =>
  tell({ title: `${title}: ${message}.`, more: mend, kind: "stop" });
