import { packArchive, unpackArchive, type ArchivedDesign } from "../../document/archive.ts";
import type { Trouble } from "../../document/design.ts";
import { fileNameOf } from "../../document/file-name.ts";
import { readDesign } from "../../document/read.ts";
import type { DesignStorage, KeptDesign } from "../../document/storage.ts";
import { summaryOf } from "../../document/summary-of.ts";
import { writeDesign } from "../../document/write.ts";
import type { Result } from "../../units/result.ts";
import { leave, NO_STORAGE } from "../keep.ts";
import { partsMissing } from "../read-whole.ts";
import { newId, type Workbench } from "../workbench.ts";

/** Every design that this browser keeps, and its settings, as one zip file. The open design is saved first. */
export function packEverything(
  bench: Workbench,
): Promise<Result<{ readonly name: string; readonly bytes: Uint8Array }, Trouble>> {
  return bench.inTurn(async () => {
    const { storage } = bench;
    if (!storage) return { ok: false, error: NO_STORAGE };
    const trouble = await leave(bench, false);
    if (trouble) return { ok: false, error: trouble };
    const kept = await everythingKept(storage);
    if (!kept.ok) return kept;
    const designs = kept.value.map(({ id, text, title, number }) => ({ id, text, name: fileNameOf({ title, number }) }));
    const settings = await storage.settings();
    if (!settings.ok) return settings;
    const day = new Date(bench.now()).toISOString().slice(0, 10);
    return { ok: true, value: { name: `gramil-designs-${day}.zip`, bytes: packArchive({ designs, settings: settings.value }) } };
  });
}

/** What came of each design in an archive. */
export interface Arrival {
  /** Of its file in the archive. */
  readonly name: string;
  readonly outcome: "added" | "already here" | "refused";
  /** What was repaired, or why it was refused. */
  readonly says: readonly string[];
}

/** Takes the designs of an archive in beside those that are here, and settings that are not given here; nothing is overwritten. */
export function unpackEverything(bench: Workbench, bytes: Uint8Array): Promise<Result<readonly Arrival[], Trouble>> {
  return bench.inTurn(async () => {
    const { storage } = bench;
    if (!storage) return { ok: false, error: NO_STORAGE };
    const archive = unpackArchive(bytes);
    if (!archive.ok) return archive;
    const kept = await everythingKept(storage);
    if (!kept.ok) return kept;
    const missing = await partsMissing();
    if (missing) return { ok: false, error: missing };
    const arrivals: Arrival[] = [];
    for (const design of archive.value.designs) arrivals.push(await takeIn(storage, design, kept.value, bench.now()));
    bench.session.setState(({ arrivals: count }) => ({ arrivals: count + 1 }));
    const here = await storage.settings();
    if (!here.ok) return here;
    for (const [name, value] of Object.entries(archive.value.settings)) {
      const set = Object.hasOwn(here.value, name) ? undefined : await storage.setSetting(name, value);
      if (set && !set.ok) return set;
    }
    return { ok: true, value: arrivals };
  });
}

async function everythingKept(storage: DesignStorage): Promise<Result<readonly KeptDesign[], Trouble>> {
  const list = await storage.list();
  if (!list.ok) return list;
  const designs: KeptDesign[] = [];
  for (const { id } of list.value) {
    const loaded = await storage.load(id);
    if (!loaded.ok) return loaded;
    designs.push(loaded.value);
  }
  return { ok: true, value: designs };
}

async function takeIn(
  storage: DesignStorage,
  { id, name, text }: ArchivedDesign,
  kept: readonly KeptDesign[],
  savedAt: number,
): Promise<Arrival> {
  const read = readDesign(text);
  if (!read.ok) return { name, outcome: "refused", says: [read.message] };
  const written = writeDesign(read.design);
  if (kept.some((here) => here.text === written)) return { name, outcome: "already here", says: [] };
  const saved = await storage.save({
    id: kept.some((here) => here.id === id) ? newId() : id,
    ...summaryOf(read.design),
    text: written,
    baseRevision: 0,
    savedAt,
  });
  if (!saved.ok) return { name, outcome: "refused", says: [saved.error.message] };
  return { name, outcome: "added", says: read.repairs.map(({ path, says }) => (path === "" ? says : `${path}: ${says}`)) };
}
