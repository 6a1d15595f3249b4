import * as fc from "fast-check";
import { strToU8, zipSync } from "fflate";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { newDesign } from "../../src/document/new-design.ts";
import type { DesignStorage } from "../../src/document/storage.ts";
import { unpackEverything } from "../../src/store/commands/carry-archive.ts";
import { openFile } from "../../src/store/commands/open-file.ts";
import { startDesign } from "../../src/store/commands/start-design.ts";
import { damagedFile } from "../document/damaged.ts";
import { emptyBrowser, openTab } from "./kept-browser.ts";

vi.setConfig({ testTimeout: 300_000 });
beforeEach(emptyBrowser);
afterEach(emptyBrowser);

/** The texts of some designs as they are kept. */
async function keptTexts(storage: DesignStorage, ids: readonly string[]): Promise<readonly (string | undefined)[]> {
  const found = await Promise.all(ids.map((id) => storage.load(id)));
  return found.map((one) => (one.ok ? one.value.text : undefined));
}

const bytesOf = (file: string | Uint8Array): Uint8Array => (typeof file === "string" ? strToU8(file) : file);

describe("damaged design files that arrive", () => {
  it("never change a design that is kept, whether they are opened or refused", async () => {
    const tab = await openTab();
    for (const kind of ["steel-string", "classical", "ukulele"] as const) await startDesign(tab.bench, newDesign(kind));
    const listed = await tab.storage.list();
    if (!listed.ok) throw new Error(listed.error.message);
    const ids = listed.value.map(({ id }) => id);
    const before = await keptTexts(tab.storage, ids);
    const outcomes = { opened: 0, refused: 0 };
    await fc.assert(
      fc.asyncProperty(damagedFile, async (file) => {
        const result = await openFile(tab.bench, { name: "damaged.json", bytes: bytesOf(file) });
        outcomes[result.ok ? "opened" : "refused"]++;
        expect(await keptTexts(tab.storage, ids)).toEqual(before);
        // What was opened is a design of its own; it is taken away again, so that the store stays small.
        const { id } = tab.bench.design.getState();
        if (result.ok && !ids.includes(id)) await tab.storage.remove(id);
      }),
      { numRuns: 400 },
    );
    expect(outcomes.opened).toBeGreaterThan(50);
    expect(outcomes.refused).toBeGreaterThan(50);
    tab.kill();
  });

  it("neither do they in an archive", async () => {
    const tab = await openTab();
    await startDesign(tab.bench, newDesign("classical"));
    const { id } = tab.bench.design.getState();
    const before = await keptTexts(tab.storage, [id]);
    await fc.assert(
      fc.asyncProperty(fc.array(damagedFile, { minLength: 1, maxLength: 4 }), async (files) => {
        const archive = zipSync(Object.fromEntries(files.map((file, i) => [`designs/${i}.json`, bytesOf(file)])));
        const result = await unpackEverything(tab.bench, archive);
        expect(result.ok).toBe(true);
        expect(await keptTexts(tab.storage, [id])).toEqual(before);
      }),
      { numRuns: 40 },
    );
    tab.kill();
  });
});
