import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { openChromium } from "./chromium.ts";
import { add } from "./part-visit.ts";
import { violations } from "./violations.ts";
import { goTo, visit } from "./visit.ts";

const PLACES = [
  "order",
  "numbers",
  "parts/fingerboard",
  "parts/nut",
  "parts/(whole)",
  "fit",
  "fit/seasons",
  "fit/offcut",
  "fit/cutting-list",
  "fit/compare",
  "sheets",
  "first",
  "measure",
  "repair",
  "help",
];
const SIZES = [
  [1440, 900],
  [1024, 768],
  [820, 1180],
  [390, 844],
] as const;

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

const here = (width: number, height: number, colorScheme: "light" | "dark" = "light") =>
  visit(browser, inject("address"), { viewport: { width, height }, colorScheme, hasTouch: width < 900, isMobile: width < 900 });

describe.each(["light", "dark"] as const)("on %s paper", (scheme) => {
  it.each(SIZES)("every place passes the audit at %i x %i", async (width, height) => {
    const { page, close } = await here(width, height, scheme);
    for (const place of PLACES) {
      await goTo(page, place);
      // What is still being worked out may change under the auditor; what stays wrong fails.
      await expect.poll(() => violations(page), { message: place }).toEqual([]);
    }
    await close();
  });
});

describe("at every size", () => {
  it.each(SIZES)("nothing is wider than the window at %i x %i", async (width, height) => {
    const { page, close } = await here(width, height);
    for (const place of PLACES) {
      await goTo(page, place);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), place).toBeLessThanOrEqual(0);
    }
    await close();
  });

  it("everything to press is at least 24 px, and 44 px where it is touched", async () => {
    for (const [width, least] of [
      [1440, 24],
      [390, 44],
    ] as const) {
      const { page, close } = await here(width, 844);
      for (const place of PLACES) {
        await goTo(page, place);
        const small = await page.evaluate((px) => {
          const inText = (element: Element) => element.tagName === "A" && element.parentElement?.closest("p, li") !== null;
          return (
            [...document.querySelectorAll("button, a[href], input:not([aria-hidden])")]
              // The numbers on the board take a larger press than they show.
              .filter((element) => !inText(element) && !element.matches(".board-dimension") && element.checkVisibility())
              .map((element) => ({ element, box: element.getBoundingClientRect() }))
              .filter(({ box }) => box.width > 2 && box.height < px - 0.5)
              .map(({ element, box }) => `${Math.round(box.width)}x${Math.round(box.height)} ${element.outerHTML.slice(0, 140)}`)
          );
        }, least);
        expect(small, `${place} at ${width}`).toEqual([]);
      }
      await close();
    }
  });
});

describe.each([
  ["numbers", 820, 1180],
  ["parts", 820, 1180],
  ["parts/(whole)", 820, 1180],
  ["numbers", 390, 844],
  ["parts", 390, 844],
  ["parts/(whole)", 390, 844],
])("at %s, %i x %i", (place, width, height) => {
  it("the drawing has room", async () => {
    const { page, close } = await here(width, height);
    await goTo(page, place);
    const board = (await page.locator(".board-surface").boundingBox())!;
    expect(board.height).toBeGreaterThan(150);
    expect(board.width).toBeGreaterThan(0.9 * width - 40);
    await close();
  });
});

describe.each([
  [820, 1180],
  [390, 844],
])("where an outline has points, at %i x %i", (width, height) => {
  it("its tools stand below the drawing and in sight, whether a point is chosen or not", async () => {
    const { page, close } = await here(width, height);
    await goTo(page, "parts");
    await add(page, "Headstock");
    const boxOf = async (name: string) => (await page.locator(name).boundingBox())!;
    for (const count of [/points; press one/, /^1 of \d+$/]) {
      await page.locator(".points-count", { hasText: count }).waitFor();
      const board = await boxOf(".board-surface");
      const bar = await boxOf(".points-bar");
      expect(bar.y).toBeGreaterThanOrEqual(board.y + board.height);
      expect(bar.x + bar.width).toBeLessThanOrEqual(width);
      // The scale and its buttons are all that lies on the drawing: one row.
      expect((await boxOf(".board-foot")).height).toBeLessThan(60);
      await page.locator(".board-surface").focus();
      await page.keyboard.press(".");
    }
    await close();
  });
});

describe("keys", () => {
  it("stand in a list under ?, and single ones can be turned off", async () => {
    const { page, close } = await here(1440, 900);
    await page.keyboard.press("?");
    await page.getByRole("dialog", { name: "Keys" }).waitFor();
    await page.getByRole("switch", { name: "Single keys do things" }).click();
    await page.keyboard.press("Escape");
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await page.keyboard.press("?");
    await page.keyboard.press("Alt+1");
    await expect.poll(() => page.locator("main h1").textContent()).toBe("Designs in this browser");
    expect(await page.getByRole("dialog").count()).toBe(0);
    await close();
  });
});
