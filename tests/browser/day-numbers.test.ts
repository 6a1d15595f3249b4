/** Numbers as a maker carries them about: copied, in the other unit, taken back after a reload, on paper. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { openChromium } from "./chromium.ts";
import { openExample } from "./follow-help.ts";
import { goTo, visit } from "./visit.ts";

const plain = { serviceWorkers: "block" } as const;
let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

const scale = (page: Page) => page.getByRole("textbox", { name: "Scale", exact: true }).first();
const onClipboard = (page: Page): Promise<string> => page.evaluate(() => navigator.clipboard.readText());

describe("numbers", () => {
  it("are copied by one press: a number as it stands, a table with a line for each fret", async () => {
    const here = await visit(browser, inject("address"), { ...plain, permissions: ["clipboard-read", "clipboard-write"] });
    const { page } = here;
    await goTo(page, "numbers");
    await scale(page).fill("25.4");
    await scale(page).press("Enter");
    await page.getByRole("button", { name: "Scale", exact: true }).click();
    await page.getByRole("button", { name: /^Copy/ }).click();
    await expect.poll(() => onClipboard(page)).toBe("25.4 in");
    await page.keyboard.press("Escape");
    await goTo(page, "parts/fingerboard");
    await page.getByRole("button", { name: "Copy the table" }).click();
    await expect.poll(() => onClipboard(page)).toMatch(/\n/);
    const lines = (await onClipboard(page)).split("\n");
    // Equal temperament: the octave halves the string, and fret 1 stands at s (1 - 2^(-1/12)) from the nut.
    expect(lines.find((line) => /^(fret )?12\t/.test(line))).toMatch(/\t12\.7 in$/);
    expect(lines.find((line) => /^(fret )?1\t/.test(line))).toMatch(/\t1\.426 in$/);
    expect(here.complaints).toEqual([]);
    await here.close();
  });

  it("are all shown in the other unit at once, on every place", async () => {
    const here = await visit(browser, inject("address"), plain);
    const { page } = here;
    await openExample(page);
    for (const [unit, other] of [
      ["mm", /\d in\b|\d"/],
      ["inch", /\d mm\b/],
    ] as const) {
      await page.getByRole("button", { name: unit, exact: true }).first().click();
      for (const place of ["numbers", "parts/fingerboard", "parts/body", "parts/(whole)", "fit", "fit/cutting-list"]) {
        await goTo(page, place);
        // A basis speaks as its source does, a formula as the maker typed it.
        const text = (await page.locator("main").first().innerText()).replaceAll(/(Basis:|= ).*/g, "");
        expect(
          text.split("\n").filter((line) => other.test(line)),
          `${place} in ${unit}`,
        ).toEqual([]);
      }
    }
    await here.close();
  });

  it("are taken back after a reload", async () => {
    const here = await visit(browser, inject("address"), plain);
    const { page } = here;
    await goTo(page, "numbers");
    const before = await scale(page).inputValue();
    await scale(page).fill("24.9");
    await scale(page).press("Enter");
    await expect.poll(() => page.locator(".strip-saved").textContent()).toMatch(/^saved in this browser/);
    await page.reload();
    await expect.poll(() => scale(page).inputValue()).toBe("24.9");
    await page.getByRole("button", { name: /^Undo/ }).click();
    await expect.poll(() => scale(page).inputValue()).toBe(before);
    await here.close();
  });

  it("are dark ink on paper, whatever the screen wears, with nothing to press", async () => {
    const here = await visit(browser, inject("address"), { ...plain, colorScheme: "dark" });
    const { page } = here;
    await page.emulateMedia({ media: "print" });
    for (const place of ["numbers", "fit"]) {
      await goTo(page, place);
      const seen = await page.evaluate(() => ({
        buttons: [...document.querySelectorAll(".btn, .strip")].filter((one) => one.checkVisibility()).length,
        inks: [...document.querySelectorAll("main h1, main h2, main p, main input")]
          .filter((one) => one.checkVisibility())
          .map((one) => getComputedStyle(one).color.match(/\d+/g)!.slice(0, 3).map(Number)),
      }));
      expect(seen.buttons, place).toBe(0);
      expect(seen.inks.length, place).toBeGreaterThan(3);
      expect(Math.max(...seen.inks.map(([r, g, b]) => 0.2126 * r! + 0.7152 * g! + 0.0722 * b!)), place).toBeLessThan(120);
    }
    await here.close();
  });
});
