import { readFileSync } from "node:fs";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { newDesign } from "../../src/document/new-design.ts";
import { readDesign } from "../../src/document/read.ts";
import { writeDesign } from "../../src/document/write.ts";
import { startAutosave } from "../../src/store/autosave.ts";
import { packEverything, unpackEverything } from "../../src/store/commands/carry-archive.ts";
import { editValue } from "../../src/store/commands/edit-value.ts";
import { openDesign } from "../../src/store/commands/open-design.ts";
import { openFile } from "../../src/store/commands/open-file.ts";
import { resolveConflict } from "../../src/store/commands/resolve-conflict.ts";
import { restoreVersion } from "../../src/store/commands/restore-version.ts";
import { save } from "../../src/store/commands/save.ts";
import { startDesign } from "../../src/store/commands/start-design.ts";
import { redo, undo } from "../../src/store/commands/undo.ts";
import { isDirty } from "../../src/store/design-store.ts";
import { createWorkbench, type Workbench } from "../../src/store/workbench.ts";
import { emptyBrowser, openTab, type Tab } from "./kept-browser.ts";

// A busy machine must not fail a property.
vi.setConfig({ testTimeout: 120_000 });

beforeEach(emptyBrowser);
afterEach(() => {
  vi.restoreAllMocks();
  emptyBrowser();
});

const design = ({ bench }: { readonly bench: Workbench }) => bench.design.getState().design;
const widthOf = (tab: { readonly bench: Workbench }): unknown => design(tab).instrument.nutWidth;
const saving = ({ bench }: { readonly bench: Workbench }) => bench.session.getState().saving;
const saved = (tab: Tab): Promise<void> =>
  vi.waitFor(() => expect([saving(tab).state, isDirty(tab.bench.design.getState())]).toEqual(["saved", false]));
const keptText = async (tab: Tab, id = tab.bench.design.getState().id): Promise<string | undefined> => {
  const loaded = await tab.storage.load(id);
  return loaded.ok ? loaded.value.text : undefined;
};
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const full = () => {
  throw new DOMException("no", "QuotaExceededError");
};

describe("autosave", () => {
  it("keeps every change soon, and leaves an example that nobody has touched alone", async () => {
    const tab = await openTab();
    expect(isDirty(tab.bench.design.getState())).toBe(false);
    editValue(tab.bench, "nutWidth", "51 mm");
    expect(saving(tab).state).toBe("waiting");
    await saved(tab);
    expect(await keptText(tab)).toBe(writeDesign(design(tab)));
  });

  it("saves steady work at its own pace: it does not wait for a pause", async () => {
    const tab = await openTab({ delayMs: 30 });
    let kept: string | undefined;
    for (let i = 0; i < 40 && kept === undefined; i++) {
      editValue(tab.bench, "nutWidth", `${50 + i / 10} mm`);
      await new Promise((resolve) => setTimeout(resolve, 10));
      kept = await keptText(tab);
    }
    expect(kept).toContain("nutWidth");
  });

  it.each(["visibilitychange", "pagehide"])("saves at once on %s", async (sign) => {
    const tab = await openTab({ delayMs: 100_000 });
    editValue(tab.bench, "nutWidth", "51 mm");
    tab.page.dispatchEvent(new Event(sign));
    await saved(tab);
    expect(await keptText(tab)).toContain("51 mm");
  });

  it("brings design and undo back after the page was killed", async () => {
    const tab = await openTab();
    editValue(tab.bench, "nutWidth", "51 mm");
    editValue(tab.bench, "nutWidth", "50 mm");
    editValue(tab.bench, "frets", 20);
    undo(tab.bench);
    await saved(tab);
    tab.kill();

    const again = await openTab();
    expect(await openDesign(again.bench, "example")).toEqual({ ok: true, value: [] });
    expect(widthOf(again)).toBe("50 mm");
    expect(again.bench.history.getState()).toEqual({ undo: "width at the nut", redo: "frets" });
    undo(again.bench);
    expect(widthOf(again)).toBe("51 mm");
    redo(again.bench);
    redo(again.bench);
    expect(design(again).instrument.frets).toBe(20);
    await saved(again);
  });

  it("loses nothing that was saved when the page is killed at any moment of an edit, 60 times over", async () => {
    let last = "52 mm";
    for (let round = 0; round < 60; round++) {
      const tab = await openTab({ delayMs: round % 4 });
      if (round > 0) expect((await openDesign(tab.bench, "example")).ok).toBe(true);
      const confirmed = [last];
      const leave = tab.bench.design.subscribe(({ stored }) => {
        if (stored) confirmed.push(String(stored.design.instrument.nutWidth));
      });
      const typed = [last];
      for (let i = 0; i <= round % 7; i++) {
        typed.push(`${round}.${i} mm`);
        editValue(tab.bench, "nutWidth", typed.at(-1));
        if (i % 3 === 2) await new Promise((resolve) => setTimeout(resolve, round % 5));
      }
      leave();
      tab.kill();

      const after = await openTab();
      const loaded = await after.storage.load("example");
      if (loaded.ok) {
        const read = readDesign(loaded.value.text);
        expect(read).toMatchObject({ ok: true, repairs: [] });
        last = read.ok ? String(read.design.instrument.nutWidth) : "";
        expect(typed).toContain(last);
        expect(typed.indexOf(last)).toBeGreaterThanOrEqual(typed.indexOf(confirmed.at(-1)!));
      } else {
        expect(confirmed).toEqual(["52 mm"]);
        const { bench } = after;
        editValue(bench, "frets", 18);
        await saved(after);
      }
      after.kill();
    }
  });
});

describe("storage that fails", () => {
  it("full: it is told, the work goes on, and the next change tries again", async () => {
    const tab = await openTab();
    const put = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(full);
    editValue(tab.bench, "nutWidth", "51 mm");
    await vi.waitFor(() =>
      expect(saving(tab)).toMatchObject({
        state: "failed",
        reason: "full",
        trouble: { message: "this browser's storage is full" },
      }),
    );
    expect(widthOf(tab)).toBe("51 mm");
    put.mockRestore();
    editValue(tab.bench, "nutWidth", "50 mm");
    await saved(tab);
  });

  it("full: another design is not opened over work that is not saved, unless it may be dropped", async () => {
    const tab = await openTab();
    vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(full);
    editValue(tab.bench, "nutWidth", "51 mm");
    expect(await openFile(tab.bench, { name: "x.json", bytes: bytes(writeDesign(newDesign("ukulele"))) })).toMatchObject({
      ok: false,
      error: { message: "the open design is not saved: this browser's storage is full" },
    });
    expect(widthOf(tab)).toBe("51 mm");
    expect(await openFile(tab.bench, { name: "x.json", bytes: bytes(writeDesign(newDesign("ukulele"))) }, true)).toEqual({
      ok: true,
      value: [],
    });
    expect(widthOf(tab)).toBe("35 mm");
  });

  it("none at all: everything works but keeping, and that is told", async () => {
    const bench = createWorkbench();
    const stop = startAutosave(bench, { delayMs: 1 });
    editValue(bench, "nutWidth", "51 mm");
    await vi.waitFor(() =>
      expect(saving({ bench })).toMatchObject({
        state: "failed",
        reason: "forbidden",
        trouble: { message: "this browser keeps no designs" },
      }),
    );
    expect(await openDesign(bench, "a")).toMatchObject({ ok: false });
    expect(await packEverything(bench)).toMatchObject({ ok: false });
    stop();
  });

  it("clock set back: saves go on in their order", async () => {
    let clock = 1_700_000_000_000;
    const tab = await openTab({ now: () => clock });
    for (const step of [0, 3_600_000, -86_400_000, 60_000]) {
      clock += step;
      editValue(tab.bench, "order.notes", `at ${clock}`);
      await saved(tab);
    }
    expect(await keptText(tab)).toContain(`at ${clock}`);
    expect(tab.bench.design.getState().stored?.revision).toBe(4);
  });
});

async function two(): Promise<[Tab, Tab]> {
  const one = await openTab();
  editValue(one.bench, "nutWidth", "51 mm");
  await saved(one);
  const other = await openTab();
  await openDesign(other.bench, "example");
  return [one, other];
}

async function inConflict(): Promise<[Tab, Tab]> {
  const [one, other] = await two();
  other.kill();
  const slow = await openTab({ delayMs: 100_000 });
  await openDesign(slow.bench, "example");
  editValue(slow.bench, "frets", 18);
  editValue(one.bench, "nutWidth", "50 mm");
  await saved(one);
  await vi.waitFor(() => expect(saving(slow)).toMatchObject({ state: "conflict", reason: "conflict" }));
  return [one, slow];
}

describe("two tabs on one design", () => {
  it("show each other's changes as long as only one is at work, as a step that can be undone", async () => {
    const [one, other] = await two();
    editValue(one.bench, "nutWidth", "50 mm");
    await saved(one);
    await vi.waitFor(() => expect(widthOf(other)).toBe("50 mm"));
    expect(isDirty(other.bench.design.getState())).toBe(false);
    expect(other.bench.session.getState().toasts).toHaveLength(1);
    expect(other.bench.history.getState().undo).toBe("change in another tab");
    editValue(other.bench, "frets", 18);
    await saved(other);
    await vi.waitFor(() => expect(design(one).instrument.frets).toBe(18));
    expect(design(one)).toEqual(design(other));
  });

  it("that both work do not overwrite each other: the later is told, and nothing of either is lost", async () => {
    const [one, slow] = await inConflict();
    expect(await save(slow.bench)).toMatchObject({ state: "conflict" });
    expect(await keptText(one)).toBe(writeDesign(design(one)));
    expect(design(slow).instrument.frets).toBe(18);
    slow.page.dispatchEvent(new Event("pagehide"));
    await slow.bench.inTurn(() => Promise.resolve());
    expect(await keptText(one)).toBe(writeDesign(design(one)));
  });

  it("can keep this one's work as a copy", async () => {
    const [one, slow] = await inConflict();
    expect((await resolveConflict(slow.bench, "copy")).ok).toBe(true);
    expect(slow.bench.design.getState().id).not.toBe("example");
    expect(await keptText(slow)).toBe(writeDesign(design(slow)));
    expect(await keptText(one, "example")).toBe(writeDesign(design(one)));
    expect(slow.bench.history.getState().undo).toBe("frets");
  });

  it("can take the other's, and undo brings this one's back", async () => {
    const [one, slow] = await inConflict();
    expect((await resolveConflict(slow.bench, "theirs")).ok).toBe(true);
    expect(design(slow)).toEqual(design(one));
    expect(saving(slow).state).toBe("saved");
    undo(slow.bench);
    expect(design(slow).instrument.frets).toBe(18);
    expect((await save(slow.bench)).state).toBe("saved");
  });

  it("can keep this one's, and the other's stays among the versions", async () => {
    const [one, slow] = await inConflict();
    const theirs = writeDesign(design(one));
    expect((await resolveConflict(slow.bench, "mine")).ok).toBe(true);
    expect(await keptText(slow)).toBe(writeDesign(design(slow)));
    const versions = await slow.storage.versions("example");
    const newest = versions.ok ? versions.value[0]! : undefined;
    expect(await slow.storage.loadVersion("example", newest!.revision)).toEqual({ ok: true, value: theirs });
    await vi.waitFor(() => expect(design(one)).toEqual(design(slow)));
  });

  it("are told when the design was removed in the other", async () => {
    const [one, other] = await two();
    await one.storage.remove("example");
    await vi.waitFor(() => expect(saving(other)).toMatchObject({ state: "conflict", reason: "missing" }));
    expect((await resolveConflict(other.bench, "mine")).ok).toBe(true);
    expect(await keptText(other)).toBe(writeDesign(design(other)));
  });
});

describe("opening", () => {
  it("a file makes a design of its own, kept at once, with its repairs told", async () => {
    const tab = await openTab();
    const text = writeDesign(newDesign("ukulele")).replace('"430 mm"', "[430]");
    const result = await openFile(tab.bench, { name: "u.json", bytes: bytes(text) });
    expect(result.ok && result.value.map(({ path }) => path)).toEqual(["instrument.scale"]);
    expect(tab.bench.design.getState().id).not.toBe("example");
    expect(await keptText(tab)).toBe(writeDesign(design(tab)));
    expect(tab.bench.history.getState()).toEqual({ undo: undefined, redo: undefined });
  });

  it.each([
    ["an empty file", ""],
    ["the beginning of a file", writeDesign(newDesign("ukulele")).slice(0, 60)],
    ["a picture", "\u00ff\u00d8\u00ff"],
    ["a later version", '{"format":"gramil-design","version":2}'],
  ])("%s leaves the open design, its undo and what is kept untouched", async (_name, text) => {
    const tab = await openTab();
    editValue(tab.bench, "nutWidth", "51 mm");
    await saved(tab);
    const before = tab.bench.design.getState();
    const refused = await openFile(tab.bench, { name: "x", bytes: Uint8Array.from(text, (letter) => letter.charCodeAt(0)) });
    expect(refused).toMatchObject({ ok: false, error: { message: expect.stringMatching(/^[^\n]+$/) as string } });
    expect(tab.bench.design.getState()).toBe(before);
    expect(tab.bench.history.getState().undo).toBe("width at the nut");
    const list = await tab.storage.list();
    expect(list.ok && list.value.length).toBe(1);
  });

  it("saves what was open first, so that going back finds it with its undo", async () => {
    const tab = await openTab({ delayMs: 100_000 });
    editValue(tab.bench, "nutWidth", "51 mm");
    expect((await startDesign(tab.bench, newDesign("baritone"))).ok).toBe(true);
    expect(widthOf(tab)).toBe("1 13/16 in");
    expect((await openDesign(tab.bench, "example")).ok).toBe(true);
    expect(widthOf(tab)).toBe("51 mm");
    expect(tab.bench.history.getState().undo).toBe("width at the nut");
  });

  it("a kept text that is damaged is told and not written over", async () => {
    const tab = await openTab();
    const text = writeDesign(newDesign("ukulele"));
    const start = text.slice(0, 60);
    await tab.storage.save({ id: "broken", title: "", number: "", text: start, baseRevision: 0, savedAt: 1 });
    expect(await openDesign(tab.bench, "broken")).toMatchObject({ ok: false });
    expect(await keptText(tab, "broken")).toBe(start);
    expect(tab.bench.design.getState().id).toBe("example");

    const slipped = text.replace('"kind": "fingerboard"', '"kind": fingerboard"');
    await tab.storage.save({ id: "slipped", title: "", number: "", text: slipped, baseRevision: 0, savedAt: 1 });
    const mended = await openDesign(tab.bench, "slipped");
    expect(mended.ok && mended.value[0]?.says).toMatch(/cannot be read: left out$/);
    await saved(tab);
    expect(await keptText(tab, "slipped")).toBe(slipped);

    const half = text.slice(0, text.length / 2);
    await tab.storage.save({ id: "half", title: "", number: "", text: half, baseRevision: 0, savedAt: 1 });
    const opened = await openDesign(tab.bench, "half");
    expect(opened.ok && opened.value[0]?.says).toMatch(/^the file ends/);
    await saved(tab);
    expect(await keptText(tab, "half")).toBe(half);
    editValue(tab.bench, "nutWidth", "36 mm");
    await saved(tab);
    const versions = await tab.storage.versions("half");
    expect(versions.ok && (await tab.storage.loadVersion("half", versions.value.at(-1)!.revision))).toEqual({
      ok: true,
      value: half,
    });
  });

  it("a recent version comes back as a step that can be undone", async () => {
    let clock = 0;
    const tab = await openTab({ now: () => clock });
    for (const width of ["51 mm", "50 mm", "49 mm"]) {
      clock += 11 * 60_000;
      editValue(tab.bench, "nutWidth", width);
      await saved(tab);
    }
    expect(await restoreVersion(tab.bench, 1)).toEqual({ ok: true, value: [] });
    expect(widthOf(tab)).toBe("51 mm");
    undo(tab.bench);
    expect(widthOf(tab)).toBe("49 mm");
    expect(await restoreVersion(tab.bench, 99)).toMatchObject({ ok: false });
  });
});

describe("everything in one archive", () => {
  it("goes out and comes in on another computer: designs, their names, settings", async () => {
    const tab = await openTab();
    editValue(tab.bench, "order.number", "27");
    await startDesign(tab.bench, newDesign("baritone"));
    await tab.storage.setSetting("printers", [{ name: "office" }]);
    const packed = await packEverything(tab.bench);
    if (!packed.ok) throw new Error(packed.error.message);
    expect(packed.value.name).toMatch(/^gramil-designs-\d{4}-\d\d-\d\d\.zip$/);
    const before = await tab.storage.list();

    emptyBrowser();
    const other = await openTab();
    const arrived = await unpackEverything(other.bench, packed.value.bytes);
    expect(arrived.ok && arrived.value.map(({ outcome }) => outcome)).toEqual(["added", "added"]);
    const after = await other.storage.list();
    const names = (list: typeof before): unknown =>
      list.ok && list.value.map(({ id, title, number }) => ({ id, title, number })).toSorted((a, b) => (a.id < b.id ? -1 : 1));
    expect(names(after)).toEqual(names(before));
    expect(await other.storage.setting("printers")).toEqual({ ok: true, value: [{ name: "office" }] });
  });

  it("overwrites nothing: what is here stays, another of the same origin comes beside it, a broken one is told", async () => {
    const tab = await openTab();
    editValue(tab.bench, "order.number", "27");
    await saved(tab);
    await tab.storage.save({ id: "broken", title: "", number: "", text: "{", baseRevision: 0, savedAt: 1 });
    const packed = await packEverything(tab.bench);
    if (!packed.ok) throw new Error(packed.error.message);
    editValue(tab.bench, "order.number", "28");
    await saved(tab);
    const now = await keptText(tab);
    const arrived = await unpackEverything(tab.bench, packed.value.bytes);
    expect(arrived.ok && arrived.value.map(({ outcome }) => outcome).toSorted()).toEqual(["added", "refused"]);
    expect(await keptText(tab)).toBe(now);
    const again = await unpackEverything(tab.bench, packed.value.bytes);
    expect(again.ok && again.value.map(({ outcome }) => outcome).toSorted()).toEqual(["already here", "refused"]);
    expect(await unpackEverything(tab.bench, bytes("no zip"))).toMatchObject({ ok: false });
  });

  it("finds designs that are the same as already here", async () => {
    const tab = await openTab();
    await startDesign(tab.bench, newDesign("baritone"));
    const packed = await packEverything(tab.bench);
    const arrived = packed.ok && (await unpackEverything(tab.bench, packed.value.bytes));
    expect(arrived && arrived.ok && arrived.value.map(({ outcome }) => outcome)).toEqual(["already here"]);
  });
});

describe("a design file from disk", () => {
  it("opened and kept in the browser holds all its unknown keys", async () => {
    const text = readFileSync(new URL("../data/designs/v1-full.json", import.meta.url), "utf8");
    const tab = await openTab();
    expect(await openFile(tab.bench, { name: "v1", bytes: bytes(text) })).toEqual({ ok: true, value: [] });
    expect(await keptText(tab)).toBe(text);
  });
});
