import { readFile } from "node:fs/promises";
import { resolve } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { readDesign } from "../../src/document/read.ts";
import { fingerprintOf } from "../../src/document/fingerprint.ts";
import { pdfFileOf } from "../../src/export/job.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { PAPERS } from "../../src/sheets/paper.ts";
import { SHEET_DEFAULTS } from "../../src/sheets/sheet.ts";
import { templatesOf } from "../../src/templates/template.ts";
import { lengthInFull } from "../../src/units/format.ts";
import { openChromium } from "./chromium.ts";
import { goTo, savedBy, visit, type Visit } from "./visit.ts";

/** Sheets are laid out beside the page, on machines that may be busy. */

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

/** What the maker types, in the order of the fields. */
const FIVE = ["25.4", "21", "1 11/16", "2 1/4", "95 thou"];

async function designFile({ page }: Visit) {
  const { bytes } = await savedBy(page, () => page.keyboard.press("Control+s"));
  const read = readDesign(bytes);
  if (!read.ok) throw new Error(read.message);
  return read.design;
}

function today(): string {
  const now = new Date();
  return [now.getFullYear(), String(now.getMonth() + 1).padStart(2, "0"), String(now.getDate()).padStart(2, "0")].join("-");
}

async function fonts() {
  const read = async (name: string) => new Uint8Array(await readFile(resolve(import.meta.dirname, "../../public/fonts", name)));
  return {
    regular: await read("atkinson-hyperlegible-mono-latin-400-normal.woff"),
    strong: await read("atkinson-hyperlegible-mono-latin-600-normal.woff"),
  };
}

describe("a first visit", () => {
  it("opens on a live example and says so, with nothing in the way", async () => {
    const here = await visit(browser, inject("address"));
    expect(await here.page.getByRole("dialog").count()).toBe(0);
    await here.page.getByText("This is a live example").waitFor();
    await here.page.getByRole("application", { name: /Drawing of Fingerboard/ }).waitFor();
    expect(here.complaints).toEqual([]);
    expect(here.strangers).toEqual([]);
    await here.close();
  });

  it("ends at the PDF that the command line's own job writes from the same design", async () => {
    const here = await visit(browser, inject("address"));
    const { page } = here;
    await goTo(page, "first");
    await page.getByRole("textbox", { name: "Scale" }).waitFor();
    for (const text of FIVE) {
      await page.keyboard.type(text);
      await page.keyboard.press("Tab");
    }
    const before = today();
    const pdf = await savedBy(page, () => page.getByRole("button", { name: /^Save the PDF/ }).click());
    const design = await designFile(here);
    expect(design.instrument).toMatchObject({ scale: "25.4", frets: "21", nutWidth: "1 11/16" });
    expect(design.parts["fingerboard"]).toMatchObject({ widthAtJoin: "2 1/4", bindingThickness: "95 thou" });

    // The board is bound, so both of its outlines are printed.
    const printed = ["blank-outline", "bound-outline", "fret-slots"];
    const templates = templatesOf(createDeriver()(design)).filter((one) => printed.includes(one.name));
    expect(templates.map((one) => one.name)).toEqual(printed);
    const write = async (date: string) =>
      pdfFileOf(
        templates,
        {
          ...SHEET_DEFAULTS,
          paper: PAPERS["letter"]!,
          order: { number: "", title: "My first fingerboard", player: "" },
          date,
          fingerprint: fingerprintOf(design),
          say: (mm) => lengthInFull(mm, { unit: "in", fractions: false }),
        },
        await fonts(),
      );
    // Midnight may pass between the two.
    const expected = await Promise.all([...new Set([before, today()])].map(write));
    expect(expected.some((bytes) => Buffer.from(pdf.bytes).equals(Buffer.from(bytes)))).toBe(true);
    expect(here.complaints).toEqual([]);
    await here.close();
  });

  it("can be made by the keyboard alone", async () => {
    const here = await visit(browser, inject("address"));
    const { page } = here;
    const focusedText = () => page.evaluate(() => document.activeElement?.textContent ?? "");
    for (let i = 0; i < 30 && !(await focusedText()).startsWith("My first fingerboard"); i++) await page.keyboard.press("Tab");
    expect(await focusedText()).toMatch(/^My first fingerboard/);
    await page.keyboard.press("Enter");
    await page.getByRole("textbox", { name: "Scale" }).waitFor();
    for (const text of FIVE) {
      await page.keyboard.type(text);
      await page.keyboard.press("Tab");
    }
    for (let i = 0; i < 12 && !(await focusedText()).startsWith("Save the PDF"); i++) await page.keyboard.press("Tab");
    const pdf = await savedBy(page, () => page.keyboard.press("Enter"));
    expect(Buffer.from(pdf.bytes.subarray(0, 5)).toString()).toBe("%PDF-");
    await here.close();
  });
});

describe("an address", () => {
  it("leads back to the same place after reload, back and forward", async () => {
    const here = await visit(browser, inject("address"));
    const { page } = here;
    const title = () => page.locator("main h1").first().textContent();
    await goTo(page, "parts/nut");
    await expect.poll(title).toBe("Nut");
    await goTo(page, "sheets");
    await expect.poll(title).toMatch(/sheets of Letter/);
    await page.reload();
    await expect.poll(title).toMatch(/sheets of Letter/);
    await page.goBack();
    await expect.poll(title).toBe("Nut");
    await page.goForward();
    await expect.poll(title).toMatch(/sheets of Letter/);
    await here.close();
  });
});
