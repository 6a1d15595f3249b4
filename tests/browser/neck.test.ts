/** Carving a neck ever thinner until the check stops it, on screen as the maker sees it. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import type { Design } from "../../src/document/design.ts";
import { readDesign } from "../../src/document/read.ts";
import { openChromium } from "./chromium.ts";
import { goTo, savedBy, visit } from "./visit.ts";

/** Machines may be busy. */

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

const MM_PER_INCH = 25.4;

async function designOf(page: Page): Promise<Design> {
  const { bytes } = await savedBy(page, () => page.keyboard.press("Control+s"));
  const read = readDesign(bytes);
  if (!read.ok) throw new Error(read.message);
  return read.design;
}

describe("a neck carved too thin", () => {
  it("is stopped, and the stop is told under Fit, leads to its place, and stands on the board and on the sheets", async () => {
    const here = await visit(browser, inject("address"));
    const { page } = here;
    await goTo(page, "parts/neck");
    await page.getByRole("application", { name: /Drawing of Neck/ }).waitFor();
    const depth = page.getByRole("textbox", { name: "Depth with the board" }).first();
    const part = page.locator(".part-card", { has: page.getByText("Neck", { exact: true }) });
    expect(await part.textContent()).not.toContain("stop");

    // 0.02 in at a time, as one takes it off with a scraper.
    let inches = Number(await depth.inputValue());
    let last = inches;
    for (let i = 0; i < 12 && !(await part.textContent())?.includes("stop"); i++) {
      last = inches;
      inches = Math.round((inches - 0.02) * 1000) / 1000;
      await depth.fill(String(inches));
      await depth.press("Enter");
      await page.getByText(new RegExp(`^C, ${inches} in to`)).waitFor();
    }
    expect(await part.textContent()).toContain("1 stop");

    // Outside: an ellipse half 1.75 in and a little wide, the rod's channel 6.35 by 9.5 in it, 3 mm to stay behind its corners.
    const wall = (withBoard: number): number => {
      const wood = withBoard * MM_PER_INCH - 6.35;
      const half = (1.75 * MM_PER_INCH) / 2 + 0.5;
      let least = Infinity;
      for (let k = 0; k <= 20_000; k++) {
        const angle = (Math.PI * k) / 20_000;
        least = Math.min(least, Math.hypot(half * Math.cos(angle) - 3.175, wood * Math.sin(angle) - 9.5));
      }
      return least;
    };
    expect(wall(inches)).toBeLessThan(3.1);
    expect(wall(last)).toBeGreaterThan(2.9);

    // Under the part's name, on its drawing, in words.
    await page.getByText(/Only 0\.1\d* in of wood behind the channels/).waitFor();
    const inWords = page.getByText(/too little wood behind the truss-rod channel/).first();
    await inWords.waitFor({ state: "attached" });

    // Under Fit, with its place.
    await goTo(page, "fit");
    await page.getByRole("heading", { name: /Stop/ }).waitFor();
    const show = page.getByRole("button", { name: /Show the place: Only .* behind the truss-rod channel/ });
    await expect
      .poll(() => show.getAttribute("aria-label"))
      .toMatch(/between the nut and fret 1|at fret 1|at the nut|between frets/);
    await show.click();
    await expect.poll(() => page.locator("main h1").first().textContent()).toBe("Neck");
    expect(page.url()).toContain("parts/neck");
    await page.locator(".board-note-chosen").getByText("Truss-rod channel").waitFor();

    // On the sheets that the wood is sawn and carved by.
    await goTo(page, "sheets");
    await expect.poll(() => page.getByText("STOP: too little wood behind the truss-rod channel").count()).toBeGreaterThan(1);

    const design = await designOf(page);
    expect(design.parts["neck"]).toMatchObject({ firstDepth: String(inches) });
    expect(here.complaints).toEqual([]);
    await here.close();
  });

  it("is free again when the depth is given back", async () => {
    const here = await visit(browser, inject("address"));
    const { page } = here;
    await goTo(page, "parts/neck");
    const depth = page.getByRole("textbox", { name: "Depth with the board" }).first();
    const part = page.locator(".part-card", { has: page.getByText("Neck", { exact: true }) });
    const before = await depth.inputValue();
    await depth.fill("0.7");
    await depth.press("Enter");
    await expect.poll(() => part.textContent()).toContain("stop");
    await depth.fill(before);
    await depth.press("Enter");
    await expect.poll(() => part.textContent()).not.toContain("stop");
    await here.close();
  });
});
