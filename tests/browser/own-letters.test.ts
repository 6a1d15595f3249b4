/** What is kept of a design on its sheets, and how faces are chosen, in a real browser. */
import { readFile } from "node:fs/promises";
import { resolve } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { openChromium } from "./chromium.ts";
import { drop, openExample } from "./follow-help.ts";
import { add, type } from "./part-visit.ts";
import { goTo, visit } from "./visit.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

describe("templates that are left out", () => {
  it("belong to their design: another one has all of its own, and on the way back they are left out still", async () => {
    const { page, complaints, close } = await visit(browser, inject("address"));
    const ticks = (): Promise<boolean[]> =>
      page
        .locator(".sheets-one")
        .getByRole("checkbox")
        .evaluateAll((all) => all.map((one) => one.ariaChecked === "true"));
    const atSheets = async (): Promise<void> => {
      await goTo(page, "sheets");
      await page.getByRole("heading", { name: /^\d+ sheets? of|^No sheet yet/ }).waitFor();
    };
    await openExample(page);
    await atSheets();
    await page.getByRole("button", { name: "none", exact: true }).click();
    await expect.poll(async () => (await ticks()).includes(true)).toBe(false);

    const other = "tenor-ukulele.json";
    await drop(page, other, await readFile(resolve(import.meta.dirname, "../../examples", other), "utf8"));
    await page.getByText(`${other} is open`).waitFor();
    await atSheets();
    await expect.poll(async () => (await ticks()).includes(false)).toBe(false);
    expect((await ticks()).length).toBeGreaterThan(3);

    await goTo(page, "order");
    await page.locator(".kept-card", { hasText: "tenor guitar" }).getByRole("button").first().click();
    await page.locator(".strip", { hasText: "tenor guitar" }).waitFor();
    await atSheets();
    await expect.poll(async () => (await ticks()).includes(true)).toBe(false);
    expect(complaints).toEqual([]);
    await close();
  });
});

describe("the list of faces", () => {
  const listed = (page: Page) => page.getByRole("option");

  it("shows the letters of each in its own, drawn on demand; names and keys stay as they were", async () => {
    const { page, complaints, strangers, close } = await visit(browser, inject("address"));
    await goTo(page, "parts");
    await add(page, "Inlay");
    await type(page, "Letters", "Rg");
    const face = page.getByRole("combobox", { name: "Face", exact: true });
    await face.click();
    await expect.poll(() => page.locator(".face-sample").count(), { timeout: 60_000 }).toBe(8);
    const drawn = await page.locator(".face-sample path").evaluateAll((all) => all.map((one) => one.getAttribute("d") ?? ""));
    expect(new Set(drawn).size, "each is drawn by its own face").toBe(8);
    expect(await listed(page).allInnerTexts()).toContain("Great Vibes, script");
    await expect.poll(() => page.getByRole("option", { name: "Great Vibes, script", exact: true }).count()).toBe(1);
    await page.keyboard.press("g");
    await page.keyboard.press("Enter");
    await expect.poll(() => face.innerText()).toBe("Great Vibes, script");
    expect(strangers).toEqual([]);
    expect(complaints).toEqual([]);
    await close();
  });
});
