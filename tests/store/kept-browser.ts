/** A browser's storage in memory, and tabs that are open on it. */
import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { newDesign } from "../../src/document/new-design.ts";
import { openStorage, type DesignStorage } from "../../src/document/storage.ts";
import { startAutosave } from "../../src/store/autosave.ts";
import { createWorkbench, type Workbench } from "../../src/store/workbench.ts";

export interface Tab {
  readonly bench: Workbench;
  readonly storage: DesignStorage;
  /** Tells the page's signs of going away. */
  readonly page: EventTarget;
  /** The page is killed: nothing of it runs on. */
  readonly kill: () => void;
}

const tabs = new Set<Tab>();

export function emptyBrowser(): void {
  for (const tab of tabs) tab.kill();
  globalThis.indexedDB = new IDBFactory();
}

/** Opens the program in a tab on a design that nobody has kept yet. */
export async function openTab({
  now = Date.now,
  delayMs = 5,
}: { readonly now?: () => number; readonly delayMs?: number } = {}): Promise<Tab> {
  const opened = await openStorage();
  if (!opened.ok) throw new Error(opened.error.message);
  const storage = opened.value;
  const bench = createWorkbench({ first: { id: "example", design: newDesign("classical") }, storage, now });
  const page = new EventTarget();
  const stop = startAutosave(bench, { delayMs, page });
  const tab: Tab = {
    bench,
    storage,
    page,
    kill: () => {
      stop();
      storage.close();
      tabs.delete(tab);
    },
  };
  tabs.add(tab);
  return tab;
}
