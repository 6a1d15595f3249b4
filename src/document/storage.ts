/** What this browser keeps. The only file that touches the browser's storage. */
import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction } from "idb";
import type { Result } from "../units/result.ts";
import type { Trouble } from "./design.ts";
import { wholeSummary, type Summary } from "./summary.ts";

/** Why the browser did not keep or give something. */
export interface StorageTrouble extends Trouble {
  readonly reason: "forbidden" | "full" | "conflict" | "missing" | "broken";
}

/** A design in a list. */
export interface Kept extends Summary {
  readonly id: string;
  /** Milliseconds since 1970. */
  readonly savedAt: number;
  /** Counts the saves of this design, from 1 on. */
  readonly revision: number;
}

export interface KeptDesign extends Kept {
  /** The design file. */
  readonly text: string;
}

/** An older text of a design. */
export interface Version {
  /** Revision that it had. */
  readonly revision: number;
  readonly savedAt: number;
}

export interface SaveRequest extends Partial<Summary> {
  readonly id: string;
  readonly title: string;
  readonly number: string;
  readonly text: string;
  /** Revision that the text grew from, 0 for a new design. Another one kept now is a conflict. */
  readonly baseRevision: number;
  readonly savedAt: number;
  /** Plain data kept beside the design: the steps of undo. */
  readonly history?: unknown;
  /** Replaces whatever is kept; what is replaced stays among the versions. */
  readonly force?: boolean;
}

/** A change by another tab; no revision: the design was removed. */
export interface ForeignChange {
  readonly id: string;
  readonly revision: number | undefined;
}

export interface DesignStorage {
  /** The last saved first. */
  readonly list: () => Promise<Result<readonly Kept[], StorageTrouble>>;
  readonly load: (id: string) => Promise<Result<KeptDesign & { readonly history: unknown }, StorageTrouble>>;
  /** @returns the new revision */
  readonly save: (request: SaveRequest) => Promise<Result<number, StorageTrouble>>;
  /** Removes a design with its versions. */
  readonly remove: (id: string) => Promise<Result<void, StorageTrouble>>;
  /** Older texts of a design, the newest first. */
  readonly versions: (id: string) => Promise<Result<readonly Version[], StorageTrouble>>;
  readonly loadVersion: (id: string, revision: number) => Promise<Result<string, StorageTrouble>>;
  readonly settings: () => Promise<Result<Readonly<Record<string, unknown>>, StorageTrouble>>;
  readonly setting: (name: string) => Promise<Result<unknown, StorageTrouble>>;
  readonly setSetting: (name: string, value: unknown) => Promise<Result<void, StorageTrouble>>;
  /** Hears of saves and removals by other tabs. @returns stops it */
  readonly onForeignChange: (listener: (change: ForeignChange) => void) => () => void;
  readonly close: () => void;
}

interface Schema extends DBSchema {
  designs: { key: string; value: KeptDesign };
  versions: { key: [id: string, revision: number]; value: KeptDesign };
  histories: { key: string; value: { readonly id: string; readonly history: unknown } };
  settings: { key: string; value: unknown };
}

const DATABASE = "gramil";
const DATABASE_VERSION = 1;
const CHANNEL = "gramil-designs";

/** Versions of one design that are kept, and how far apart they are at least: together some hours of work. */
export const MOST_VERSIONS = 20;
export const VERSIONS_APART_MS = 10 * 60_000;

/** Opens what this browser keeps; refused where it keeps nothing. */
export async function openStorage(): Promise<Result<DesignStorage, StorageTrouble>> {
  try {
    const db = await opened();
    return { ok: true, value: storageOf(db) };
  } catch (error) {
    const name = nameOf(error);
    if (name === "VersionError")
      return refuse("broken", "a newer Gramil has kept its designs here", "Load the page anew to get it.");
    if (name === "Blocked")
      return refuse("broken", "an older Gramil is open in another tab", "Close that tab and load this page anew.");
    return refuse(
      "forbidden",
      "this browser does not let the page keep designs",
      "Save each design to a file, or allow storage for this page.",
    );
  }
}

function opened(): Promise<IDBPDatabase<Schema>> {
  return new Promise((resolve, reject) => {
    openDB<Schema>(DATABASE, DATABASE_VERSION, {
      upgrade(db) {
        db.createObjectStore("designs", { keyPath: "id" });
        db.createObjectStore("versions", { keyPath: ["id", "revision"] });
        db.createObjectStore("histories", { keyPath: "id" });
        db.createObjectStore("settings");
      },
      blocked: () => reject(new DOMException("an older version is open", "Blocked")),
      // A newer Gramil in another tab waits for this one to let go.
      blocking: (_current, _blocked, event) => (event.target as IDBDatabase).close(),
    }).then(resolve, reject);
  });
}

const ofDesign = (id: string): IDBKeyRange => IDBKeyRange.bound([id, -Infinity], [id, Infinity]);

function storageOf(db: IDBPDatabase<Schema>): DesignStorage {
  const channel = typeof BroadcastChannel === "undefined" ? undefined : new BroadcastChannel(CHANNEL);
  // A channel reaches pages of the same origin only, so its messages name no target.
  // oxlint-disable-next-line unicorn/require-post-message-target-origin
  const tell = (change: ForeignChange): void => channel?.postMessage(change);

  async function save(request: SaveRequest): Promise<Result<number, StorageTrouble>> {
    // Strict: the system has written it to the disk before the save counts as done, so that it survives a loss of power.
    const change = db.transaction(["designs", "versions", "histories"], "readwrite", { durability: "strict" });
    // A failed request fails the transaction too; the request's own error is the one told.
    change.done.catch(() => undefined);
    try {
      const saved = await saveIn(change, request);
      if (saved.ok) tell({ id: request.id, revision: saved.value });
      return saved;
    } catch (error) {
      // A write that is refused before it begins leaves those before it standing.
      abort(change);
      throw error;
    }
  }

  return {
    list: () =>
      attempt(async () => {
        const all = await db.getAll("designs");
        return all
          .map((design) => ({ id: design.id, savedAt: design.savedAt, revision: design.revision, ...wholeSummary(design) }))
          .toSorted((a, b) => b.savedAt - a.savedAt);
      }),

    async load(id) {
      const found = await attempt(async () => {
        const change = db.transaction(["designs", "histories"]);
        const design = await change.objectStore("designs").get(id);
        return design && { ...design, history: (await change.objectStore("histories").get(id))?.history };
      });
      if (!found.ok) return found;
      return found.value
        ? { ok: true, value: found.value }
        : refuse("missing", "this design is not kept in this browser", "Open another, or its file.");
    },

    save: async (request) => {
      const done = await attempt(() => save(request));
      return done.ok ? done.value : done;
    },

    remove: (id) =>
      attempt(async () => {
        const change = db.transaction(["designs", "versions", "histories"], "readwrite", { durability: "strict" });
        await Promise.all([
          change.objectStore("designs").delete(id),
          change.objectStore("versions").delete(ofDesign(id)),
          change.objectStore("histories").delete(id),
          change.done,
        ]);
        tell({ id, revision: undefined });
      }),

    versions: (id) =>
      attempt(async () => {
        const all = await db.getAll("versions", ofDesign(id));
        return all.map(({ revision, savedAt }) => ({ revision, savedAt })).toReversed();
      }),

    async loadVersion(id, revision) {
      const found = await attempt(() => db.get("versions", [id, revision]));
      if (!found.ok) return found;
      return found.value
        ? { ok: true, value: found.value.text }
        : refuse("missing", "this version is not kept any more", "Choose another.");
    },

    settings: () =>
      attempt(async () => {
        const change = db.transaction("settings");
        const [names, values] = await Promise.all([change.store.getAllKeys(), change.store.getAll()]);
        return Object.fromEntries(names.map((name, i) => [name, values[i] as unknown]));
      }),

    setting: (name) => attempt(() => db.get("settings", name)),

    setSetting: (name, value) =>
      attempt(async () => {
        await db.put("settings", value, name);
      }),

    onForeignChange(listener) {
      const hear = (event: MessageEvent<ForeignChange>): void => listener(event.data);
      channel?.addEventListener("message", hear);
      return () => channel?.removeEventListener("message", hear);
    },

    close() {
      channel?.close();
      db.close();
    },
  };
}

type Change = IDBPTransaction<Schema, ("designs" | "versions" | "histories")[], "readwrite">;

/** In as few turns as can be: each waits behind whatever the page does, while what was typed is not safe yet. */
async function saveIn(change: Change, request: SaveRequest): Promise<Result<number, StorageTrouble>> {
  const { id, text, baseRevision, savedAt, history, force = false } = request;
  const [designs, versions] = [change.objectStore("designs"), change.objectStore("versions")];
  const [before, keys] = await Promise.all([designs.get(id), versions.getAllKeys(ofDesign(id))]);
  const kept = before?.revision ?? 0;
  if (kept !== baseRevision && !force) {
    return before
      ? refuse(
          "conflict",
          "this design was changed in another tab meanwhile",
          "Choose which of the two to keep; neither is lost.",
        )
      : refuse("missing", "this design was removed in another tab meanwhile", "Keep this one anyway, or open another design.");
  }
  const last = before && !force && keys.length > 0 ? await versions.get(keys.at(-1)!) : undefined;
  const revision = Math.max(kept, baseRevision) + 1;
  const writes: Promise<unknown>[] = [];
  const write = (started: Promise<unknown>): void => {
    // Where one fails all do; the first is told.
    started.catch(() => undefined);
    writes.push(started);
  };
  // What is about to be replaced stays among the versions, if the last one is old enough; either way, as the clock may have been set back.
  if (before && !(last && Math.abs(before.savedAt - last.savedAt) < VERSIONS_APART_MS)) {
    write(versions.put(before));
    for (const key of keys.slice(0, Math.max(0, keys.length + 1 - MOST_VERSIONS))) write(versions.delete(key));
  }
  write(designs.put({ id, ...wholeSummary(request), text, savedAt, revision }));
  write(change.objectStore("histories").put({ id, history }));
  await Promise.all([...writes, change.done]);
  return { ok: true, value: revision };
}

function abort(change: Change): void {
  try {
    change.abort();
  } catch {
    // It has ended already.
  }
}

async function attempt<T>(work: () => Promise<T>): Promise<Result<T, StorageTrouble>> {
  try {
    return { ok: true, value: await work() };
  } catch (error) {
    switch (nameOf(error)) {
      case "QuotaExceededError":
        return refuse(
          "full",
          "this browser's storage is full",
          "Save the design to a file, then remove designs that you have as files.",
        );
      case "SecurityError":
      case "NotAllowedError":
        return refuse(
          "forbidden",
          "this browser does not let the page keep designs",
          "Save the design to a file, or allow storage for this page.",
        );
      default:
        return refuse(
          "broken",
          `this browser's storage fails: ${error instanceof Error ? error.message : String(error)}`,
          "Save the design to a file and load the page anew.",
        );
    }
  }
}

const nameOf = (error: unknown): string => (error as { name?: string } | undefined)?.name ?? "";

const refuse = (
  reason: StorageTrouble["reason"],
  message: string,
  mend: string,
): { readonly ok: false; readonly error: StorageTrouble } => ({
  ok: false,
  error: { reason, message, mend },
});
