/** A first visit: how much script it needs before the live example can be worked with, and what happens while the rest has not come. */
import { readFile } from "node:fs/promises";
import { join, resolve } from "node:path";
import { gzipSync } from "node:zlib";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { openChromium } from "./chromium.ts";
import { firstPicture } from "./first-picture.ts";
import { drop } from "./follow-help.ts";

/** Of all script until the live example stands and follows a typed number, gzip. */
const MOST_BYTES = 300_000;

const root = resolve(import.meta.dirname, "../..");
let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

const overhang = (page: Page) => page.getByRole("textbox", { name: "Beyond the last fret" });

async function typesOverhang(page: Page, typed: string, shown: string): Promise<void> {
  await overhang(page).fill(typed);
  await overhang(page).press("Enter");
  await page.locator(".board-dimension", { hasText: shown }).waitFor();
}

describe("the first load", () => {
  it("needs less script than its budget until a typed number is followed by the drawing", async () => {
    const here = await firstPicture(browser, inject("address"), "held");
    await typesOverhang(here.page, "20 mm", "0.787 in");
    let total = 0;
    for (const path of here.came) total += gzipSync(await readFile(join(root, "dist", path)), { level: 9 }).length;
    expect(here.came.length).toBeGreaterThan(0);
    expect(total).toBeLessThan(MOST_BYTES);
    expect(here.complaints).toEqual([]);
    await here.close();
  });

  it("keeps in mind what was pressed before it could open", async () => {
    const here = await firstPicture(browser, inject("address"), "held");
    await here.page.getByRole("button", { name: "More", exact: true }).click();
    await here.release();
    await here.page.getByRole("menuitem", { name: "Save the design as a file" }).waitFor();
    await here.close();
  });

  it("shows a design with other parts once their code has come, and the example until then", async () => {
    const here = await firstPicture(browser, inject("address"), "held");
    await drop(here.page, "showpiece.json", await readFile(join(root, "examples/showpiece-tenor-guitar.json"), "utf8"));
    await here.page.waitForTimeout(500);
    expect(await here.page.locator(".strip-name").textContent()).toBe("Steel-string guitar");
    expect(await here.page.locator(".part-card-name").allTextContents()).toEqual([
      "Whole instrument",
      "Fingerboard",
      "Nut",
      "Neck",
    ]);
    await here.release();
    await here.page.locator(".part-card-name", { hasText: "Headstock" }).first().waitFor();
    await here.page.locator(".part-card-name", { hasText: "Inlay" }).first().waitFor();
    expect(here.complaints).toEqual([]);
    await here.close();
  });

  it("goes on without what does not come, says so, and takes in no design whose parts are missing", async () => {
    const here = await firstPicture(browser, inject("address"), "failing");
    await typesOverhang(here.page, "20 mm", "0.787 in");
    await drop(here.page, "showpiece.json", await readFile(join(root, "examples/showpiece-tenor-guitar.json"), "utf8"));
    await here.page.getByText("Part of Gramil has not come").waitFor();
    await here.page.waitForTimeout(1500);
    expect(await here.page.locator(".strip-name").textContent()).toBe("Steel-string guitar");
    // A dialog is such a thing, and lies outside of every place.
    const refused = here.page.waitForEvent("requestfailed", (request) => request.url().includes("/dialogs-"));
    await here.page.locator(".board-surface").focus();
    await here.page.keyboard.press("?");
    await refused;
    await typesOverhang(here.page, "21 mm", "0.827 in");
    await expect.poll(() => here.page.locator(".strip-saved").textContent()).toMatch(/^saved in this browser/);
    await here.release();
    await here.page.getByRole("button", { name: "Load the page anew" }).click();
    await here.page.getByRole("button", { name: "More", exact: true }).click();
    await here.page.getByRole("menuitem", { name: "Save the design as a file" }).waitFor();
    await expect.poll(() => overhang(here.page).inputValue()).toBe("21");
    await here.close();
  });
});
