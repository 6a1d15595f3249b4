import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import {
  MOST_VERSIONS,
  openStorage,
  VERSIONS_APART_MS,
  type DesignStorage,
  type ForeignChange,
  type SaveRequest,
} from "../../src/document/storage.ts";

// A busy machine must not fail a property.
vi.setConfig({ testTimeout: 120_000 });

const opened: DesignStorage[] = [];
async function open(): Promise<DesignStorage> {
  const result = await openStorage();
  if (!result.ok) throw new Error(result.error.message);
  opened.push(result.value);
  return result.value;
}
const request = (changes: Partial<SaveRequest> = {}): SaveRequest => ({
  id: "a",
  title: "T",
  number: "1",
  text: "{1}",
  baseRevision: 0,
  savedAt: 1000,
  ...changes,
});
const must = async <T>(result: Promise<{ ok: true; value: T } | { ok: false; error: { message: string } }>): Promise<T> => {
  const settled = await result;
  if (!settled.ok) throw new Error(settled.error.message);
  return settled.value;
};

const minutes = (n: number): number => n * 60_000;
async function saveTimes(storage: DesignStorage, times: readonly number[]): Promise<void> {
  for (const [i, savedAt] of times.entries())
    await must(storage.save(request({ baseRevision: i, savedAt, text: `text ${i + 1}` })));
}

const failing = (name: string) => () => {
  throw new DOMException("no", name);
};

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});
afterEach(() => {
  for (const storage of opened.splice(0)) storage.close();
  vi.restoreAllMocks();
});

describe("designs kept in this browser", () => {
  it("come back as they were saved, with the steps of undo as plain data", async () => {
    const storage = await open();
    const shared = { strings: [1, 2] };
    expect(
      await must(
        storage.save(request({ history: { past: [{ design: shared }, { design: shared }], step: { label: "x" }, future: [] } })),
      ),
    ).toBe(1);
    const loaded = await must(storage.load("a"));
    expect(loaded).toMatchObject({ id: "a", title: "T", number: "1", text: "{1}", savedAt: 1000, revision: 1 });
    const { past } = loaded.history as { past: { design: object }[] };
    expect(past[0]!.design).toEqual(shared);
    expect(past[0]!.design).toBe(past[1]!.design);
  });

  it("are listed without their texts, the last saved first, and are gone with their versions once removed", async () => {
    const storage = await open();
    await must(storage.save(request()));
    await must(storage.save(request({ id: "b", savedAt: 3000 })));
    await must(storage.save(request({ baseRevision: 1, savedAt: 2000 })));
    // Nobody has said anything of the order but its title and number.
    const said = { title: "T", number: "1", numbers: ["1"], player: "", builtBy: "", date: "", status: "", signs: [] };
    expect(await must(storage.list())).toEqual([
      { id: "b", ...said, savedAt: 3000, revision: 1 },
      { id: "a", ...said, savedAt: 2000, revision: 2 },
    ]);
    await must(storage.remove("a"));
    expect((await must(storage.list())).map(({ id }) => id)).toEqual(["b"]);
    expect(await must(storage.versions("a"))).toEqual([]);
    expect(await storage.load("a")).toMatchObject({ ok: false, error: { reason: "missing" } });
  });

  it("outlive the page: another opening finds them", async () => {
    const first = await open();
    await must(first.save(request()));
    first.close();
    expect(await must((await open()).load("a"))).toMatchObject({ text: "{1}", revision: 1 });
  });
});

describe("two tabs on one design", () => {
  it("are noticed: a save that grew from an older revision is refused, and nothing is changed", async () => {
    const [one, two] = [await open(), await open()];
    await must(one.save(request()));
    expect(await must(one.save(request({ baseRevision: 1, text: "{one}" })))).toBe(2);
    expect(await two.save(request({ baseRevision: 1, text: "{two}" }))).toMatchObject({
      ok: false,
      error: { reason: "conflict" },
    });
    expect(await must(two.load("a"))).toMatchObject({ text: "{one}", revision: 2 });
  });

  it("that save in the same moment get one save and one conflict, in whatever order they come, 50 times over", async () => {
    const [one, two] = [await open(), await open()];
    let revision = 0;
    for (let i = 0; i < 50; i++) {
      const [a, b] = await Promise.all([
        one.save(request({ baseRevision: revision, text: `one ${i}` })),
        two.save(request({ baseRevision: revision, text: `two ${i}` })),
      ]);
      expect([a.ok, b.ok].filter(Boolean)).toHaveLength(1);
      revision += 1;
      expect(await must(one.load("a"))).toMatchObject({ revision, text: `${a.ok ? "one" : "two"} ${i}` });
    }
  });

  it("tell each other of saves and removals, and not themselves", async () => {
    const [one, two] = [await open(), await open()];
    const heard: ForeignChange[] = [];
    const own: ForeignChange[] = [];
    two.onForeignChange((change) => heard.push(change));
    one.onForeignChange((change) => own.push(change));
    await must(one.save(request()));
    await must(one.remove("a"));
    await vi.waitFor(() =>
      expect(heard).toEqual([
        { id: "a", revision: 1 },
        { id: "a", revision: undefined },
      ]),
    );
    expect(own).toEqual([]);
  });

  it("are told when the design was removed in the other, and may keep theirs all the same", async () => {
    const [one, two] = [await open(), await open()];
    await must(one.save(request()));
    await must(two.remove("a"));
    expect(await one.save(request({ baseRevision: 1 }))).toMatchObject({ ok: false, error: { reason: "missing" } });
    expect(await must(one.save(request({ baseRevision: 1, force: true })))).toBe(2);
  });
});

describe("recent versions", () => {
  it("are kept some minutes apart, the newest first, each with its text", async () => {
    const storage = await open();
    await saveTimes(storage, [0, 1, 2, 9, 10, 11, 25].map(minutes));
    expect(VERSIONS_APART_MS).toBe(minutes(10));
    expect(await must(storage.versions("a"))).toEqual([
      { revision: 5, savedAt: minutes(10) },
      { revision: 1, savedAt: 0 },
    ]);
    expect(await must(storage.loadVersion("a", 5))).toBe("text 5");
    expect(await storage.loadVersion("a", 2)).toMatchObject({ ok: false, error: { reason: "missing" } });
  });

  it("are at most twenty: the oldest goes", async () => {
    const storage = await open();
    await saveTimes(
      storage,
      Array.from({ length: 30 }, (_, i) => minutes(11 * i)),
    );
    const versions = await must(storage.versions("a"));
    expect(versions.map(({ revision }) => revision)).toEqual(Array.from({ length: MOST_VERSIONS }, (_, i) => 29 - i));
  });

  it("go on when the clock was set back, in the order of saving", async () => {
    const storage = await open();
    await saveTimes(storage, [100, 101, 20, 21, 35].map(minutes));
    expect((await must(storage.versions("a"))).map(({ revision }) => revision)).toEqual([3, 1]);
    expect(await must(storage.load("a"))).toMatchObject({ text: "text 5", revision: 5 });
  });

  it("hold what a forced save replaced, however new it is", async () => {
    const [one, two] = [await open(), await open()];
    await must(one.save(request()));
    await must(one.save(request({ baseRevision: 1, text: "theirs" })));
    await must(two.save(request({ baseRevision: 1, text: "mine", force: true })));
    expect(await must(two.loadVersion("a", 2))).toBe("theirs");
    expect(await must(one.load("a"))).toMatchObject({ text: "mine", revision: 3 });
  });
});

describe("settings", () => {
  it("are kept by name", async () => {
    const storage = await open();
    await must(storage.setSetting("theme", "slate"));
    await must(storage.setSetting("printers", [{ name: "office", x: 1.002 }]));
    await must(storage.setSetting("theme", "paper"));
    expect(await must(storage.setting("theme"))).toBe("paper");
    expect(await must(storage.setting("other"))).toBeUndefined();
    expect(await must(storage.settings())).toEqual({ theme: "paper", printers: [{ name: "office", x: 1.002 }] });
  });
});

describe("storage that fails says how, and keeps what it had", () => {
  it("forbidden: it is not opened at all", async () => {
    globalThis.indexedDB = { open: failing("SecurityError") } as unknown as IDBFactory;
    expect(await openStorage()).toMatchObject({ ok: false, error: { reason: "forbidden" } });
    globalThis.indexedDB = undefined as unknown as IDBFactory;
    expect(await openStorage()).toMatchObject({ ok: false, error: { reason: "forbidden" } });
  });

  it("full: the save is refused and the design stays as it was kept", async () => {
    const storage = await open();
    await must(storage.save(request()));
    const put = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(failing("QuotaExceededError"));
    expect(await storage.save(request({ baseRevision: 1, text: "{2}" }))).toMatchObject({ ok: false, error: { reason: "full" } });
    put.mockRestore();
    expect(await must(storage.load("a"))).toMatchObject({ text: "{1}", revision: 1 });
    expect(await must(storage.save(request({ baseRevision: 1, text: "{2}" })))).toBe(2);
  });

  it("full in the middle: when only the last write fails, none of them holds", async () => {
    const storage = await open();
    await must(storage.save(request({ history: "old" })));
    const { put } = IDBObjectStore.prototype;
    vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (
      this: IDBObjectStore,
      ...args: Parameters<typeof put>
    ) {
      if (this.name === "histories") throw new DOMException("no", "QuotaExceededError");
      return put.apply(this, args);
    });
    expect(await storage.save(request({ baseRevision: 1, text: "{2}", history: "new" }))).toMatchObject({
      ok: false,
      error: { reason: "full" },
    });
    vi.restoreAllMocks();
    expect(await must(storage.load("a"))).toMatchObject({ text: "{1}", revision: 1, history: "old" });
  });

  it("closed under it: the trouble is told", async () => {
    const storage = await open();
    storage.close();
    expect(await storage.list()).toMatchObject({ ok: false, error: { reason: "broken" } });
  });

  it("of a later Gramil: it is left alone", async () => {
    const later = indexedDB.open("gramil", 99);
    await new Promise((resolve) => later.addEventListener("success", resolve));
    later.result.close();
    expect(await openStorage()).toMatchObject({ ok: false, error: { reason: "broken" } });
  });
});
