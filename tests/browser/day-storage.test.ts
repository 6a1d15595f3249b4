/** What happens to the work when the browser cannot keep it, when the clock lies, and when two tabs change one design. */
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { readDesign } from "../../src/document/read.ts";
import { openChromium } from "./chromium.ts";
import { goTo, savedBy, visit } from "./visit.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

const plain = { serviceWorkers: "block" } as const;
const scaleOf = (page: Page) => page.getByRole("textbox", { name: "Scale", exact: true }).first();

async function typeScale(page: Page, text: string): Promise<void> {
  const scale = scaleOf(page);
  await scale.fill(text);
  await scale.press("Enter");
}
/** Types into the scale at a moment of the computer's clock, from within the page. */
const typeScaleAt = (page: Page, text: string, moment: number): Promise<void> =>
  scaleOf(page).evaluate(
    async (field, [typed, at]) => {
      await new Promise((done) => setTimeout(done, Number(at) - Date.now()));
      const { set } = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value")!;
      (field as HTMLInputElement).focus();
      set!.call(field, typed);
      field.dispatchEvent(new Event("input", { bubbles: true }));
      field.dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true }));
    },
    [text, moment] as const,
  );
const savedWords = (page: Page) => expect.poll(() => page.locator(".strip-saved").textContent());

/** What a reload would ask, answered with staying. @returns whether it was asked */
async function asksBeforeLeaving(page: Page): Promise<boolean> {
  let asked = false;
  page.once("dialog", (dialog) => {
    asked = dialog.type() === "beforeunload";
    dialog.dismiss().catch(() => undefined);
  });
  await page.reload({ timeout: 2500 }).catch(() => undefined);
  return asked;
}

describe("a browser that", () => {
  it("keeps nothing: it is said, the work goes on, a file saves it, and closing is asked about", async () => {
    const here = await visit(browser, inject("address"), plain);
    const { page } = here;
    await page.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException("no", "SecurityError");
      };
    });
    await page.reload();
    await goTo(page, "order");
    await page.getByText("This browser keeps nothing.").waitFor();
    await goTo(page, "numbers");
    await typeScale(page, "24.9");
    await savedWords(page).toBe("not saved here: save a file");
    const { bytes } = await savedBy(page, () => page.getByRole("button", { name: "Save a file" }).click());
    const read = readDesign(bytes);
    expect(read.ok && read.design.instrument["scale"]).toBe("24.9");
    expect(await asksBeforeLeaving(page)).toBe(true);
    await here.close();
  });

  it("is full: it is said, nothing is asked while nothing is lost, a file saves it, and room lets it be kept", async () => {
    const here = await visit(browser, inject("address"), plain);
    const { page } = here;
    await goTo(page, "numbers");
    await typeScale(page, "25.1");
    await savedWords(page).toMatch(/^saved in this browser/);
    expect(await asksBeforeLeaving(page)).toBe(false);
    await goTo(page, "numbers");

    await page.evaluate(() => {
      const put = IDBObjectStore.prototype.put;
      IDBObjectStore.prototype.put = function (...args) {
        if ((globalThis as { full?: boolean }).full) throw new DOMException("no room", "QuotaExceededError");
        return put.apply(this, args);
      };
      (globalThis as { full?: boolean }).full = true;
    });
    await typeScale(page, "24.9");
    await savedWords(page).toBe("not saved here: save a file");
    const { bytes } = await savedBy(page, () => page.getByRole("button", { name: "Save a file" }).click());
    expect(readDesign(bytes)).toMatchObject({ ok: true, design: { instrument: { scale: "24.9" } } });
    expect(await asksBeforeLeaving(page)).toBe(true);

    await page.evaluate(() => {
      (globalThis as { full?: boolean }).full = false;
    });
    await typeScale(page, "24.8");
    await savedWords(page).toMatch(/^saved in this browser/);
    await page.reload();
    await expect.poll(() => scaleOf(page).inputValue()).toBe("24.8");
    await here.close();
  });

  it("is filled until it refuses by itself: the same is said, what was kept stays, and room lets it be kept again", async () => {
    const context = await browser.newContext({ ...plain, acceptDownloads: true });
    await context.addInitScript("delete window.showSaveFilePicker; delete window.showOpenFilePicker;");
    const page = await context.newPage();
    // Chrome DevTools Protocol, Storage.overrideQuotaForOrigin: the browser counts and refuses, nothing is played.
    const cdp = await context.newCDPSession(page);
    const { origin } = new URL(inject("address"));
    await cdp.send("Storage.overrideQuotaForOrigin", { origin, quotaSize: 60_000 });
    await page.goto(`${inject("address")}#/numbers`);
    const words = page.locator(".strip-saved");
    let kept = "";
    let typed = "";
    for (let i = 1; i < 100 && !(await words.textContent())?.startsWith("not saved"); i++) {
      if (i > 1) kept = typed;
      typed = (24 + i / 100).toFixed(2);
      await typeScale(page, typed);
      await expect.poll(() => words.textContent()).toMatch(/^saved in this browser|^not saved here: save a file$/);
      await page.waitForTimeout(500);
    }
    expect(await words.textContent()).toBe("not saved here: save a file");
    const { bytes } = await savedBy(page, () => page.getByRole("button", { name: "Save a file" }).click());
    expect(readDesign(bytes)).toMatchObject({ ok: true, design: { instrument: { scale: typed } } });
    expect(await asksBeforeLeaving(page)).toBe(true);
    // No other design takes the place of one that would be lost.
    await goTo(page, "order");
    await page.getByRole("button", { name: "New instrument" }).click();
    await page.locator(".kind").first().click();
    await page.getByText("the open design is not saved").first().waitFor();

    const second = await context.newPage();
    await second.goto(`${inject("address")}#/numbers`);
    await expect.poll(() => scaleOf(second).inputValue()).toBe(kept);
    await second.close();

    await cdp.send("Storage.overrideQuotaForOrigin", { origin });
    await goTo(page, "numbers");
    await typeScale(page, "26.5");
    await savedWords(page).toMatch(/^saved in this browser/);
    await page.reload();
    await expect.poll(() => scaleOf(page).inputValue()).toBe("26.5");
    await context.close();
  });

  it("has its clock set back by a year: the last change stays the last, and the design is still found first", async () => {
    const here = await visit(browser, inject("address"), plain);
    const { page } = here;
    await goTo(page, "numbers");
    await typeScale(page, "25.1");
    await savedWords(page).toMatch(/^saved in this browser/);
    await page.clock.setFixedTime(new Date(Date.now() - 365 * 86_400_000));
    await typeScale(page, "24.9");
    await page.waitForTimeout(1500);
    await page.reload();
    await expect.poll(() => scaleOf(page).inputValue()).toBe("24.9");
    await page.getByRole("button", { name: /^Undo/ }).click();
    await expect.poll(() => scaleOf(page).inputValue()).toBe("25.1");
    await here.close();
  });
});

describe("two tabs on one design", () => {
  async function twoTabs(): Promise<{ context: BrowserContext; one: Page; two: Page; close: () => Promise<void> }> {
    const here = await visit(browser, inject("address"), plain);
    const one = here.page;
    await goTo(one, "numbers");
    await typeScale(one, "25.1");
    await savedWords(one).toMatch(/^saved in this browser/);
    const context = one.context();
    const two = await context.newPage();
    await two.goto(`${inject("address")}#/numbers`);
    await expect.poll(() => scaleOf(two).inputValue()).toBe("25.1");
    return { context, one, two, close: here.close };
  }

  it("show each other's changes while only one is at work", async () => {
    const { one, two, close } = await twoTabs();
    await typeScale(one, "24.9");
    await expect.poll(() => scaleOf(two).inputValue()).toBe("24.9");
    expect(await two.locator(".dlg").count()).toBe(0);
    await close();
  });

  it("that race tell the one that came late; nothing is overwritten, closing asks, and both can be kept", async () => {
    const { one, two, close } = await twoTabs();
    // Both type at one moment, so that neither has heard of the other's save.
    const moment = Date.now() + 1500;
    await Promise.all([typeScaleAt(one, "24.9", moment), typeScaleAt(two, "24.1", moment)]);
    const asked = await Promise.race([
      one
        .locator(".dlg")
        .waitFor()
        .then(() => one),
      two
        .locator(".dlg")
        .waitFor()
        .then(() => two),
    ]);
    const other = asked === one ? two : one;
    // What lies behind a dialog is hidden from all but the eye.
    const typedIn = (page: Page) => page.locator('[id="field-instrument.scale"] input').first().inputValue();
    const [late, first] = [await typedIn(asked), await typedIn(other)];
    expect(new Set([late, first])).toEqual(new Set(["24.9", "24.1"]));
    expect(await asksBeforeLeaving(asked)).toBe(true);
    await asked.getByRole("button", { name: /Keep both/ }).click();
    await savedWords(asked).toMatch(/^saved in this browser/);
    await goTo(asked, "order");
    await expect.poll(() => asked.locator(".kept-card").count()).toBe(2);
    await other.reload();
    await goTo(other, "numbers");
    await close();
  });
});
