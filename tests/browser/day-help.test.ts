import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { TOPICS } from "../../src/ui/help/topics.ts";
import { openChromium } from "./chromium.ts";
import { followTopic, openExample } from "./follow-help.ts";
import { goTo, visit } from "./visit.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

describe("the help", () => {
  it.each(TOPICS.map((topic) => [topic.title, topic] as const))("“%s” can be followed as it is written", async (_, topic) => {
    const here = await visit(browser, inject("address"), { serviceWorkers: "block" });
    if (topic.place !== "first") await openExample(here.page);
    let pictured = false;
    await followTopic(here.page, topic, () => {
      pictured = true;
      return Promise.resolve();
    });
    expect(pictured).toBe(true);
    expect(here.complaints).toEqual([]);
    await here.close();
  });

  it("shows a page a task, each with its picture, from the menu on every place", async () => {
    const here = await visit(browser, inject("address"), { serviceWorkers: "block" });
    const { page } = here;
    await page.getByRole("button", { name: "More", exact: true }).click();
    await page.getByRole("menuitem", { name: "Help" }).click();
    for (const { id, title, picture } of TOPICS) {
      await page.getByRole("link", { name: title }).click();
      await page.getByRole("heading", { level: 1, name: title }).waitFor();
      expect(page.url()).toContain(`#/help/${id}`);
      const image = page.getByRole("img", { name: picture.shows });
      await expect.poll(() => image.evaluate((element: HTMLImageElement) => element.naturalWidth)).toBeGreaterThan(300);
    }
    await goTo(page, "help/no-such-page");
    expect(await page.locator("main h1").textContent()).toBe(TOPICS[0]!.title);
    expect(here.complaints).toEqual([]);
    await here.close();
  });
});
