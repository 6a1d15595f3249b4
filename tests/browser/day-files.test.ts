/**
 * The browser's own file dialogs. Nobody can answer them here, so the page's two pickers are answered by the test, with true file handles
 * of the page's private file system (File System Standard), which write, are read back and are removed as those on a disk are.
 */
import { readFile } from "node:fs/promises";
import { resolve } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { readDesign } from "../../src/document/read.ts";
import { openChromium } from "./chromium.ts";
import { goTo, visit, type Visit } from "./visit.ts";

const EXAMPLE = resolve(import.meta.dirname, "../../examples/tenor-ukulele.json");

/** What the person does with the next dialog. */
type Answer = "save" | "let go" | "forbidden" | "disk full";

interface Asked {
  readonly suggestedName?: string;
  readonly types?: readonly { readonly accept: Readonly<Record<string, readonly string[]>> }[];
}

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

/** A visit with file dialogs. */
const open = (): Promise<Visit> =>
  visit(browser, inject("address"), { serviceWorkers: "block" }, (page) => page.addInitScript(answersDialogs));

/** Runs in the page. */
function answersDialogs(): void {
  const w = globalThis as unknown as {
    answer: Answer;
    asked: Asked[];
    showSaveFilePicker: unknown;
    showOpenFilePicker: unknown;
  };
  w.answer = "save";
  w.asked = [];
  const refuse = (): void => {
    if (w.answer === "let go") throw new DOMException("The user aborted a request.", "AbortError");
    if (w.answer === "forbidden") throw new DOMException("Must be handling a user gesture.", "SecurityError");
  };
  w.showSaveFilePicker = async (options: Asked) => {
    w.asked.push({ suggestedName: options.suggestedName!, types: options.types! });
    refuse();
    const folder = await navigator.storage.getDirectory();
    const handle = await folder.getFileHandle(options.suggestedName!, { create: true });
    if (w.answer === "disk full")
      handle.createWritable = () => Promise.reject(new DOMException("There is no room on the disk.", "QuotaExceededError"));
    return handle;
  };
  w.showOpenFilePicker = async () => {
    refuse();
    const folder = await navigator.storage.getDirectory();
    return [await folder.getFileHandle("to-open.json")];
  };
}

const will = (page: Page, answer: Answer): Promise<void> =>
  page.evaluate((given) => {
    (globalThis as unknown as { answer: Answer }).answer = given;
  }, answer);
const asked = (page: Page): Promise<readonly Asked[]> => page.evaluate(() => (globalThis as unknown as { asked: Asked[] }).asked);

/** The files that were made, by name. */
const files = async (page: Page): Promise<ReadonlyMap<string, Buffer>> =>
  new Map(
    (
      await page.evaluate(async () => {
        const folder = (await navigator.storage.getDirectory()) as unknown as AsyncIterable<[string, FileSystemFileHandle]>;
        const found: [string, number[]][] = [];
        // A file that is being written has a second one beside it until it is closed.
        for await (const [name, handle] of folder)
          if (!name.endsWith(".crswap")) found.push([name, [...new Uint8Array(await (await handle.getFile()).arrayBuffer())]]);
        return found;
      })
    ).map(([name, bytes]) => [name, Buffer.from(bytes)] as const),
  );
const saveByKey = (page: Page): Promise<void> => page.keyboard.press("Control+s");
const note = (page: Page) => page.locator(".tell").first();

describe("the dialog for saving", () => {
  it("is asked for the design's own name and kind, and the file that it gives holds the whole design", async () => {
    const { page, complaints, close } = await open();
    await goTo(page, "numbers");
    const scale = page.getByRole("textbox", { name: "Scale", exact: true }).first();
    await scale.fill("24.9");
    await scale.press("Enter");
    await saveByKey(page);
    await page.getByText("The design is saved as a file.").first().waitFor();
    const [wish] = await asked(page);
    expect(wish?.suggestedName).toMatch(/\.json$/);
    expect(wish?.types?.[0]?.accept).toEqual({ "application/json": [".json"] });
    const text = (await files(page)).get(wish!.suggestedName!);
    expect(readDesign(new Uint8Array(text!))).toMatchObject({ ok: true, repairs: [], design: { instrument: { scale: "24.9" } } });
    expect(complaints).toEqual([]);
    await close();
  });

  it("that is let go saves nothing, says nothing and leaves everything as it was", async () => {
    const { page, complaints, close } = await open();
    await will(page, "let go");
    await saveByKey(page);
    await expect.poll(async () => (await asked(page)).length).toBe(1);
    await page.waitForTimeout(500);
    expect(await page.locator(".tell").count()).toBe(0);
    await goTo(page, "sheets");
    const pdf = page.getByRole("button", { name: "Save PDF" });
    await pdf.click();
    await expect.poll(async () => (await asked(page)).length).toBe(2);
    // The writing beside the page is let go too.
    await pdf.waitFor();
    await page.getByText("The save was cancelled.").first().waitFor();
    expect([...(await files(page)).keys()]).toEqual([]);
    expect(complaints).toEqual([]);
    await close();
  });

  it("opens before the sheets are written, and the file is the whole PDF when the note says so", async () => {
    const { page, complaints, close } = await open();
    await goTo(page, "sheets");
    await page.getByRole("button", { name: "Save PDF" }).click();
    await page.getByText("Saved.").first().waitFor();
    const [[name, bytes] = ["", Buffer.alloc(0)]] = [...(await files(page))];
    expect(name).toMatch(/\.pdf$/);
    expect(bytes.subarray(0, 5).toString()).toBe("%PDF-");
    // The last line of every PDF file (ISO 32000-1, 7.5.5).
    expect(bytes.subarray(-8).toString()).toMatch(/%%EOF\s*$/);
    expect(complaints).toEqual([]);
    await close();
  });

  it("leaves no empty file behind when the writing is cancelled", async () => {
    const { page, complaints, close } = await open();
    await goTo(page, "sheets");
    // The letters of the sheets are held back, so that the writing is still under way when it is cancelled.
    await page.route(/\/fonts\/atkinson-hyperlegible-mono/, (route) =>
      new Promise((done) => setTimeout(done, 4000)).then(() => route.continue().catch(() => undefined)),
    );
    await page.getByRole("button", { name: "Save PDF" }).click();
    await expect.poll(async () => (await files(page)).size).toBe(1);
    await page.getByRole("button", { name: "Cancel the save" }).click();
    await expect.poll(async () => (await files(page)).size).toBe(0);
    await page.locator(".tell").getByText("The save was cancelled.").waitFor();
    await page.getByRole("button", { name: "Save PDF" }).waitFor();
    expect(complaints).toEqual([]);
    await close();
  });

  it("gives way to a download where the browser forbids it", async () => {
    const { page, complaints, close } = await open();
    await will(page, "forbidden");
    const [download] = await Promise.all([page.waitForEvent("download"), saveByKey(page)]);
    expect(readDesign(await readFile(await download.path()))).toMatchObject({ ok: true });
    expect(complaints).toEqual([]);
    await close();
  });

  it("onto a full disk says that nothing was saved", async () => {
    const { page, complaints, close } = await open();
    await will(page, "disk full");
    await saveByKey(page);
    await expect.poll(() => note(page).textContent()).toMatch(/It was not saved\..*no room on the disk/);
    expect(await page.getByText("is saved as a file").count()).toBe(0);
    expect(complaints).toEqual([]);
    await close();
  });
});

describe("the dialog for opening", () => {
  it("opens the chosen file as a design of its own, and nothing where it is let go", async () => {
    const { page, complaints, close } = await open();
    await page.evaluate(
      async (text) => {
        const handle = await (await navigator.storage.getDirectory()).getFileHandle("to-open.json", { create: true });
        const writable = await handle.createWritable();
        await writable.write(text);
        await writable.close();
      },
      await readFile(EXAMPLE, "utf8"),
    );
    const name = () => page.locator(".strip-name").textContent();
    const before = await name();
    await will(page, "let go");
    await page.keyboard.press("Control+o");
    await page.waitForTimeout(500);
    expect(await name()).toBe(before);
    await will(page, "save");
    await page.keyboard.press("Control+o");
    await page.getByText("to-open.json is open.").first().waitFor();
    await expect.poll(() => name()).toContain("Tenor ukulele");
    expect((await files(page)).get("to-open.json")?.toString()).toBe(await readFile(EXAMPLE, "utf8"));
    expect(complaints).toEqual([]);
    await close();
  });
});
