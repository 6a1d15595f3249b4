/** When a change is saved, by a clock that stands still until the test moves it on. */
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { DesignStorage } from "../../src/document/storage.ts";
import { startAutosave } from "../../src/store/autosave.ts";
import { editValue } from "../../src/store/commands/edit-value.ts";
import { createWorkbench } from "../../src/store/workbench.ts";

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

/** A bench whose storage only writes down when it was asked to save, in ms after the start. */
function benchOf() {
  const began = performance.now();
  const saves: number[] = [];
  const storage: Partial<DesignStorage> = {
    save: () => {
      saves.push(performance.now() - began);
      return Promise.resolve({ ok: true, value: saves.length });
    },
    onForeignChange: () => () => undefined,
  };
  const bench = createWorkbench({ storage: storage as DesignStorage });
  startAutosave(bench);
  let width = 50;
  return { saves, change: () => editValue(bench, "nutWidth", `${(width += 0.1)} mm`) };
}

describe("a change", () => {
  it("after a rest is saved 25 ms later", async () => {
    const { saves, change } = benchOf();
    await vi.advanceTimersByTimeAsync(1000);
    change();
    await vi.advanceTimersByTimeAsync(1000);
    change();
    await vi.advanceTimersByTimeAsync(1000);
    expect(saves).toEqual([1025, 2025]);
  });

  it("in steady work waits 250 ms and takes along what comes meanwhile", async () => {
    const { saves, change } = benchOf();
    for (let ms = 0; ms < 800; ms += 10) {
      change();
      await vi.advanceTimersByTimeAsync(10);
    }
    await vi.advanceTimersByTimeAsync(1000);
    // Each 250 after the first change that the save before did not take along, which comes within 10.
    expect(saves).toEqual([25, 280, 530, 780, 1030]);
  });

  it("just before the rest is over still waits, just after it does not", async () => {
    const { saves, change } = benchOf();
    change();
    await vi.advanceTimersByTimeAsync(25 + 249);
    change();
    await vi.advanceTimersByTimeAsync(250 + 250);
    change();
    await vi.advanceTimersByTimeAsync(100);
    expect(saves).toEqual([25, 524, 799]);
  });
});
